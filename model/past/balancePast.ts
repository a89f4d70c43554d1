import { type EpochMs, epochMs, HOUR, type Instant, MINUTE, type Span } from '../units/units.ts';
import { type Cells, cellsOf } from './balanceCells.ts';
import { type BalanceChange, changesIn } from './balanceChanges.ts';
import { type BalanceAsked, type KnownFlow, knownFlow, takenIn } from './knownFlow.ts';
import { type SeenTime, seenTime } from './past.ts';
import { joined, type Stretch } from './stretches.ts';

/**
 * [BA1] What was picked in a stretch, and what became of it: before + picked = good + rejected + crushed + in pockets +
 * taken out + unaccounted + not seen.
 */
export interface BalanceParts {
  /** The pockets were known at these moments, which lie in what was asked. */
  readonly from: EpochMs;
  readonly to: EpochMs;
  /** In the pockets as it began. */
  readonly before: number;
  readonly picked: number;
  readonly good: number;
  readonly rejected: number;
  readonly crushed: number;
  /** In the pockets at its end. */
  readonly inPockets: number;
  /** [BA4] As people entered it; what was brought back is below zero. */
  readonly takenOut: number;
  readonly sample: number;
  readonly byHand: number;
  readonly broughtBack: number;
  readonly unaccounted: number;
  /** What came or went while a counter began anew: nobody can say what it was. */
  readonly notSeen: number;
}

/** One part of the stretch: what was picked in it, and what was unaccounted for at its end since the balance begins. */
export interface BalancePoint {
  readonly from: EpochMs;
  readonly to: EpochMs;
  readonly name: string | undefined;
  readonly picked: number | undefined;
  /** Undefined where the pockets were not known at its end. */
  readonly unaccounted: number | undefined;
}

export interface BalancePast {
  readonly seen: SeenTime;
  /** Whether the line has the counters for it: blanks, cycles and good cartons. */
  readonly counted: boolean;
  /** Undefined where the pockets were known at no two moments. */
  readonly parts: BalanceParts | undefined;
  /** When nobody can say what was unaccounted for; the oldest first. */
  readonly unknown: readonly { readonly from: EpochMs; readonly to: EpochMs }[];
  readonly step: Cells['step'];
  readonly days: number;
  readonly points: readonly BalancePoint[];
  /** The largest changes at once, the largest first. */
  readonly changes: readonly BalanceChange[];
}

/** So far before a moment the pockets are looked for, where they are not known just then. */
const LOOKED_BACK = (30 * MINUTE) as Span;
/** So far into a stretch they are looked for minute by minute. */
const LOOKED_ON = (2 * HOUR) as Span;
/** Stretches that are not known, told one by one; the longest of them. */
const UNKNOWN_MOST = 60;

/** [BA1] Blanks and cartons of a stretch, and how the unaccounted came about. */
export function balancePast(asked: BalanceAsked): BalancePast {
  const { index, from, to, begun, gaps, counted } = asked;
  const { step, days, cells } = cellsOf(index.line, { from, to });
  const ends = cells.map((cell) => (counted ? knownBy(asked, cell.to, cell.from) : undefined));
  const first = counted ? firstKnown(asked, ends) : undefined;
  const known = ends.map((end) => (first && end && end.at > first.at ? end : undefined));
  const last = known.findLast((end) => end !== undefined);
  return {
    seen: seenTime(asked, gaps, begun),
    counted,
    parts: first && last && partsOf(asked, first, last),
    unknown: unknownIn(asked, first, last),
    step,
    days,
    points: cells.map((cell, place) => ({
      from: epochMs(cell.from),
      to: epochMs(cell.to),
      name: cell.name,
      picked: counted ? pickedIn(asked, cell) : undefined,
      unaccounted: first && known[place] && unaccountedAt(asked, first, known[place]),
    })),
    changes: first && last ? changesIn(asked, { from: first.at, to: last.at }) : [],
  };
}

/** What was known last by a moment, not before another one; undefined also where nobody was looking then. */
function knownBy(asked: BalanceAsked, at: Instant, notBefore: Instant): KnownFlow | undefined {
  if (at <= asked.begun || asked.gaps.some((gap) => gap.kind === 'unknown' && gap.from < at && gap.to >= at))
    return undefined;
  const known = knownFlow(asked.minuteAt(at));
  // since that minute nothing was told, so nothing changed
  if (known) return { ...known, at };
  const from = Math.max(notBefore, at - LOOKED_BACK) as Instant;
  return asked
    .minutesIn({ from, to: at })
    .map(knownFlow)
    .findLast((one) => one !== undefined);
}

function firstKnown(asked: BalanceAsked, ends: readonly (KnownFlow | undefined)[]): KnownFlow | undefined {
  const from = Math.max(asked.from, asked.begun) as Instant;
  const before = knownBy(asked, from, from);
  if (before) return before;
  const to = Math.min(asked.to, from + LOOKED_ON) as Instant;
  return (
    asked
      .minutesIn({ from, to })
      .map(knownFlow)
      .find((one) => one !== undefined) ?? ends.find((one) => one !== undefined)
  );
}

function partsOf(asked: BalanceAsked, first: KnownFlow, last: KnownFlow): BalanceParts {
  const gained = (place: 0 | 1 | 2 | 3) => last.flow[place] - first.flow[place];
  const [picked, good, rejected, crushed] = [gained(0), gained(1), gained(2), gained(3)];
  const taken = takenIn(asked.entries, { from: first.at, to: last.at });
  const missing = last.unaccounted - first.unaccounted;
  return {
    from: epochMs(first.at),
    to: epochMs(last.at),
    before: first.inPockets,
    picked,
    good,
    rejected,
    crushed,
    inPockets: last.inPockets,
    ...taken,
    unaccounted: missing - taken.takenOut,
    notSeen: first.inPockets + picked - good - rejected - crushed - last.inPockets - missing,
  };
}

function unaccountedAt({ entries }: BalanceAsked, first: KnownFlow, end: KnownFlow): number {
  return end.unaccounted - first.unaccounted - takenIn(entries, { from: first.at, to: end.at }).takenOut;
}

/** Blanks are counted whether the pockets are known or not. */
function pickedIn({ minuteAt, begun }: BalanceAsked, { from, to }: Stretch): number | undefined {
  if (to <= begun) return undefined;
  const end = minuteAt(to)?.flow;
  const begin = minuteAt(from)?.flow;
  return end ? end[0] - (begin?.[0] ?? 0) : undefined;
}

function unknownIn(
  { from, to, gaps, counted }: BalanceAsked,
  first?: KnownFlow,
  last?: KnownFlow,
): BalancePast['unknown'] {
  if (!counted) return [];
  const ends =
    first && last
      ? [
          { from, to: first.at },
          { from: last.at, to },
        ]
      : [{ from, to }];
  // a minute that is not over yet is no time in which nothing was known
  const long = ends.filter((one) => one.to - one.from > 2 * MINUTE);
  const missed = gaps
    .filter(({ kind }) => kind === 'unknown')
    .map((gap) => ({ from: Math.max(from, gap.from) as Instant, to: Math.min(to, gap.to) as Instant }));
  return [...joined([...long, ...missed])]
    .sort((a, b) => b.to - b.from - (a.to - a.from))
    .slice(0, UNKNOWN_MOST)
    .sort((a, b) => a.from - b.from)
    .map((one) => ({ from: epochMs(one.from), to: epochMs(one.to) }));
}
