import { expect, it } from 'vitest';
import type { StopRecord } from '../../model/fold/state.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { HOUR, type Instant } from '../../model/units/units.ts';
import type { StopEntry } from '../../simulator/ledger/entries.ts';
import { attemptsOf } from '../../simulator/ledger/episodes.ts';
import { ledgerOf } from '../../simulator/ledger/ledger.ts';
import { openEntries, runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from './simulatedLine.ts';

const SEEDS = [31, 138, 157];
const HOURS = 8;

/** A stop by when it began, its try, and when the first stop of its episode began. */
interface Try {
  readonly begin: Instant;
  readonly attempt: number;
  readonly first: Instant;
}

/** Every stop of a lively shift as the fold saw it, and as the ledger accounts for it; each with its episode. */
function triesOf(seed: number) {
  const bound = boundLine();
  const machine = startMachine({ seed, start: monday, lively: 3 });
  const told = runUntil(machine, (monday + HOURS * HOUR) as Instant);
  const ledger = ledgerOf([...takeEntries(machine), ...openEntries(machine)]);
  const fold = new LineFold(bound.line);
  const stops = fold
    .take(changesOf(bound, told))
    .flatMap((event) => (event.kind === 'StopBegan' ? [event.stop] : []));
  const known = attemptsOf(ledger, bound.line);
  return { seen: seenTries(stops), known: knownTries(known), real: realTries(ledger.stops) };
}

function seenTries(stops: readonly StopRecord[]): Try[] {
  const firsts = new Map(
    stops.filter(({ attempt }) => attempt === 1).map((stop) => [stop.episode, stop.begin]),
  );
  return stops.map(({ begin, attempt, episode }) => ({ begin, attempt, first: firsts.get(episode)! }));
}

function knownTries(attempts: ReturnType<typeof attemptsOf>): Try[] {
  let first = attempts[0]!.stop.begin;
  return attempts.map(({ stop: { begin }, attempt }) => {
    if (attempt === 1) first = begin;
    return { begin, attempt, first };
  });
}

/** Tries of which the machine itself knows that they came of the rests of an earlier jam. */
function realTries(stops: readonly StopEntry[]): Instant[] {
  return stops.flatMap(({ begin, attempt }) => (attempt > 1 ? [begin] : []));
}

it('[ST5] episodes and tries of lively shifts are those of the ledger’s own account, and real re-jams are among them', () => {
  const runs = SEEDS.map((seed) => ({ seed, ...triesOf(seed) }));
  for (const { seed, seen, known } of runs) expect(seen, `seed ${seed}`).toEqual(known);
  const again = runs.flatMap(({ seen, real }) =>
    seen.filter(({ begin, attempt }) => attempt > 1 && real.includes(begin)),
  );
  expect(again.length).toBeGreaterThan(5);
  expect(Math.max(...again.map(({ attempt }) => attempt))).toBeGreaterThan(2);
});
