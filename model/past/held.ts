import type { Measure } from '../entries/saidEntries.ts';
import type { Counted } from '../normal/evidence.ts';
import { totalOf } from '../normal/evidence.ts';
import { choose, permutedRuns, type Stratum, type Unit } from '../statistics/permutedRuns.ts';
import type { Instant } from '../units/units.ts';

/** [HE1] One whole run at a station: what is held against others is of the same size and crew. */
export interface HeldRun extends Counted {
  readonly from: Instant;
  readonly to: Instant;
  readonly size: string;
  /** Null where nobody said it. */
  readonly crew: number | null;
  /** Lots of board that ran in it; null where none is told. */
  readonly lot: string | null;
}

export interface HeldAsked {
  readonly measure: Measure;
  readonly at: Instant;
  /** Whole runs at the station, the oldest first. */
  readonly runs: readonly HeldRun[];
  /** Other changes at the same station. */
  readonly others: readonly Instant[];
}

/** Did it help? Fewer and more are said only beyond chance; else that it cannot be told, and why. */
export interface HeldAnswer {
  readonly measure: Measure;
  readonly verdict: 'fewer' | 'more' | 'cannotTell';
  readonly before: HeldSide;
  readonly after: HeldSide;
  /** Chance alone brings as much of a difference so rarely; undefined before the first look. */
  readonly chance: number | undefined;
  readonly why: WhyNot | undefined;
}

export interface HeldSide extends Counted {
  readonly runs: number;
  /** Lots of board, where they are told: runs of one lot count as one. */
  readonly lots: number | undefined;
}

export type WhyNot =
  /** Nothing like it ran before: of no size and crew that ran after. */
  | { readonly kind: 'noneBefore'; readonly needed: number }
  /** So many after it so far; it is judged at `needed`. */
  | { readonly kind: 'tooFew'; readonly so: number; readonly needed: number; readonly lots: boolean }
  /** Another change came before there were enough. */
  | { readonly kind: 'changedAgain'; readonly so: number; readonly needed: number; readonly lots: boolean }
  /** What came after lies within what chance brings; judged again at `next`, where that is still to come. */
  | { readonly kind: 'chance'; readonly next: number | undefined };

/** It is judged with so many runs after it, and never in between: a look at each run would find something by chance. */
export const LOOKS = [4, 8, 16, 32] as const;
/** All looks together say falsely that it changed anything to one side in one of so many changes at most. */
export const FALSE_ONCE_IN = 40;
const LOOK_CHANCE = 1 / (FALSE_ONCE_IN * LOOKS.length);
/** Fewer before say nothing. */
const BEFORE_LEAST = 3;
/** The newest of them are held against what came after. */
const BEFORE_MOST = 40;

/**
 * [HE1] Whole runs before a change against those after it, within the same size and crew; where lots are told, all runs of
 * one lot are one unit, as a lot makes its runs alike. The run in which it was made, and the one before, are left out:
 * it was made because of what they were like, and the next ones would have been better anyhow.
 */
export function held(asked: HeldAsked): HeldAnswer {
  const { measure, at, others } = asked;
  const since = Math.max(-1, ...others.filter((other) => other < at)) as Instant;
  const until = Math.min(Number.POSITIVE_INFINITY, ...others.filter((other) => other > at));
  const runs = asked.runs.filter(({ of }) => of > 0);
  const before = runs.filter(({ from, to }) => to <= at && from > since).slice(-BEFORE_MOST - 1);
  // the run before; the one in which it was made is neither before nor after
  before.pop();
  const after = runs.filter(({ from, to }) => from >= at && to <= until);
  const strata = strataOf(before, after);
  const [units, lots] = [
    strata.reduce((sum, one) => sum + one.after.length, 0),
    after.some(({ lot }) => lot !== null),
  ];
  const answer = (verdict: HeldAnswer['verdict'], chance?: number, why?: WhyNot): HeldAnswer => ({
    measure,
    verdict,
    ...sidesOf(before, after, lots),
    chance,
    why,
  });
  const least = leastUnits(strata);
  if (least === undefined)
    return answer('cannotTell', undefined, { kind: 'noneBefore', needed: BEFORE_LEAST });
  const looks = LOOKS.filter((look) => look >= least);
  const look = looks.findLast((one) => one <= units);
  const next = looks.find((one) => one > units);
  if (look === undefined) {
    const kind = until < Number.POSITIVE_INFINITY ? 'changedAgain' : 'tooFew';
    return answer('cannotTell', undefined, { kind, so: units, needed: looks[0] ?? LOOKS[0], lots });
  }
  const { fewer, more } = permutedRuns(upToLook(strata, look));
  if (fewer <= LOOK_CHANCE) return answer('fewer', fewer);
  if (more <= LOOK_CHANCE) return answer('more', more);
  return answer('cannotTell', Math.min(fewer, more), { kind: 'chance', next });
}

interface Placed extends Unit {
  readonly from: Instant;
}
interface PlacedStratum {
  readonly before: readonly Placed[];
  readonly after: readonly Placed[];
}

/** By size and crew; only those that ran both before and after. */
function strataOf(before: readonly HeldRun[], after: readonly HeldRun[]): readonly PlacedStratum[] {
  const keyOf = ({ size, crew }: HeldRun) => `${size} ${crew}`;
  return [...new Set(after.map(keyOf))]
    .map((key) => ({
      before: unitsOf(before.filter((run) => keyOf(run) === key)),
      after: unitsOf(after.filter((run) => keyOf(run) === key)),
    }))
    .filter((stratum) => stratum.before.length > 0);
}

/** Runs, or where lots are told all runs of a lot together. */
function unitsOf(runs: readonly HeldRun[]): readonly Placed[] {
  const lots = new Map<string, HeldRun[]>();
  for (const run of runs) {
    const key = run.lot ?? `run ${run.from}`;
    lots.set(key, [...(lots.get(key) ?? []), run]);
  }
  return [...lots.values()].map((some) => ({ ...totalOf(some), from: some[0]!.from }));
}

/** Of how many after it some order can come out as rarely as is needed; undefined where too few were before. */
function leastUnits(strata: readonly Stratum[]): number | undefined {
  const before = strata.reduce((sum, one) => sum + one.before.length, 0);
  if (before < BEFORE_LEAST) return undefined;
  const most = Math.max(...strata.map((one) => one.before.length));
  return LOOKS.find((look) => choose(most + look, look) * LOOK_CHANCE >= 1) ?? LOOKS.at(-1);
}

/** What had come by a look, the oldest first: what came since is not looked at before the next one. */
function upToLook(strata: readonly PlacedStratum[], look: number): readonly Stratum[] {
  const order = strata.flatMap(({ after }) => after).sort((a, b) => a.from - b.from);
  const seen = new Set(order.slice(0, look));
  return strata
    .map(({ before, after }) => ({ before, after: after.filter((unit) => seen.has(unit)) }))
    .filter(({ after }) => after.length > 0);
}

function sidesOf(
  before: readonly HeldRun[],
  after: readonly HeldRun[],
  lots: boolean,
): Pick<HeldAnswer, 'before' | 'after'> {
  const side = (runs: readonly HeldRun[]): HeldSide => ({
    ...totalOf(runs),
    runs: runs.length,
    lots: lots ? new Set(runs.map(({ lot }) => lot)).size : undefined,
  });
  return { before: side(before), after: side(after) };
}
