import { expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { flowTold } from '../../model/fold/flow.ts';
import { HOUR, type Instant, MINUTE } from '../../model/units/units.ts';
import { take } from '../../simulator/machine/cartons.ts';
import { cartonsInPockets, runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { standard, type Variant } from '../../simulator/lines/variant.ts';
import { Telling } from '../proof/attributionTrouble.ts';
import { boundLine, changesOf, monday } from './simulatedLine.ts';

const CEILING = 600_000;
/** A hand takes a carton out of this pocket, by its distance to the discharge check. */
const TAKEN_FROM = 9;
/** Until all that lay in the pockets has passed, and has been missing for as long. */
const TWO_PASSAGES = 4 * MINUTE;

/** Folds so many hours minute by minute; after each minute `look` is told how many there were. */
function minuteByMinute(
  seed: number,
  hours: number,
  look: (minute: number, run: Watched) => void,
  { variant, sampledMs }: { readonly variant: Variant; readonly sampledMs?: number } = { variant: standard },
): void {
  const bound = boundLine(variant);
  const machine = startMachine({ seed, start: monday, variant });
  const fold = new LineFold(bound.line);
  const telling = new Telling(bound.line, sampledMs === undefined ? {} : { sampledMs }, seed);
  for (let minute = 1; minute <= (hours * HOUR) / MINUTE; minute += 1) {
    fold.take(telling.of(changesOf(bound, runUntil(machine, (monday + minute * MINUTE) as Instant))));
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

const fast = { ...standard, loading: 'automatic' } as const;

it.each([
  [2, 500],
  [5, 500],
  [2, 250],
  [2, 1000],
])(
  '[BA2] a fast line whose values are looked at together has nothing unaccounted for either (seed %i, every %i ms)',
  (seed, sampledMs) => {
    const wrong: unknown[] = [];
    const look = (minute: number, { machine, fold }: Watched) => {
      const told = flowTold(fold.state.flow!);
      if (told[4] !== cartonsInPockets(machine) || told[5] !== 0) wrong.push([minute, ...told]);
    };
    minuteByMinute(seed, 3, look, { variant: fast, sampledMs });
    expect(wrong).toEqual([]);
  },
  CEILING,
);

it(
  '[BA2] where values are looked at about once a cycle it is one off for some minutes at most, and no pockets are told that cannot be',
  () => {
    let off = 0;
    let last: unknown;
    const look = (_: number, { machine, fold }: Watched) => {
      const [, , , , pockets, unaccounted] = flowTold(fold.state.flow!);
      last = unaccounted;
      if (pockets === null || unaccounted === null) return;
      expect(pockets).toBeGreaterThanOrEqual(0);
      expect(pockets).toBeLessThanOrEqual(26);
      expect(Math.abs(unaccounted)).toBeLessThanOrEqual(1);
      expect(pockets + unaccounted).toBe(cartonsInPockets(machine));
      if (unaccounted !== 0) off += 1;
    };
    for (const seed of [3, 4]) minuteByMinute(seed, 3, look, { variant: fast, sampledMs: 500 });
    expect(off).toBeLessThan(5);
    expect(last).toBe(0);
  },
  CEILING,
);
