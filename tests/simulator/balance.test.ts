import { expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { flowTold } from '../../model/fold/flow.ts';
import { HOUR, type Instant, MINUTE } from '../../model/units/units.ts';
import { take } from '../../simulator/machine/cartons.ts';
import { cartonsInPockets, runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from './simulatedLine.ts';

const CEILING = 600_000;
/** A hand takes a carton out of this pocket, by its distance to the discharge check. */
const TAKEN_FROM = 9;
/** Until all that lay in the pockets has passed, and has been missing for as long. */
const TWO_PASSAGES = 4 * MINUTE;

/** Folds so many hours minute by minute; after each minute `look` is told how many there were. */
function minuteByMinute(seed: number, hours: number, look: (minute: number, run: Watched) => void): void {
  const bound = boundLine();
  const machine = startMachine({ seed, start: monday });
  const fold = new LineFold(bound.line);
  for (let minute = 1; minute <= (hours * HOUR) / MINUTE; minute += 1) {
    fold.take(changesOf(bound, runUntil(machine, (monday + minute * MINUTE) as Instant)));
    takeEntries(machine);
    look(minute, { machine, fold });
  }
}

interface Watched {
  readonly machine: ReturnType<typeof startMachine>;
  readonly fold: LineFold;
}

it.each([1, 2])(
  '[BA1] a day of tags leaves nothing unaccounted for, and each minute the pockets hold what they hold (seed %i)',
  (seed) => {
    const wrong: unknown[] = [];
    minuteByMinute(seed, 24, (minute, { machine, fold }) => {
      const [picked, good, rejected, crushed, pockets, unaccounted] = flowTold(fold.state.flow!);
      if (pockets !== cartonsInPockets(machine) || unaccounted !== 0)
        wrong.push([minute, picked, good, rejected, crushed, pockets, unaccounted]);
    });
    expect(wrong).toEqual([]);
  },
  CEILING,
);

it(
  '[BA2] what hands take out of the pockets in a shift is what is unaccounted for at its end',
  () => {
    let took = 0;
    let last: Watched | undefined;
    minuteByMinute(1, 8, (minute, run) => {
      if (minute % 13 === 5 && minute < 470 && take(run.machine.plant.pockets, TAKEN_FROM)) took += 1;
      const [, , , , pockets, unaccounted] = flowTold(run.fold.state.flow!);
      if (minute > TWO_PASSAGES / MINUTE) {
        expect(unaccounted).toBeLessThanOrEqual(took);
        expect(pockets! + unaccounted!).toBe(cartonsInPockets(run.machine) + took);
      }
      last = run;
    });
    expect(took).toBeGreaterThan(25);
    expect(flowTold(last!.fold.state.flow!)[5]).toBe(took);
  },
  CEILING,
);
