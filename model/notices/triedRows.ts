import { between, epochMs, HOUR, type Instant, millis, type Span } from '../units/units.ts';
import type { NoticeRecord } from './notice.ts';
import type { Tried, TriedNotice, TriedRow } from './tried.ts';

/** How one station of one run looked at each of its stops, and whether it had been back to normal since the last. */
export interface JudgedRun {
  readonly station: string;
  readonly looks: readonly JudgedLook[];
}

export interface JudgedLook {
  readonly at: Instant;
  /** A false one as strong comes once in so many shifts of the line. */
  readonly onceInShifts: number;
  /** It was back to normal between the look before and this one. */
  readonly rested: boolean;
}

export interface TriedAsked {
  readonly from: Instant;
  readonly to: Instant;
  readonly shifts: number;
  readonly seen: Span;
  /** Budgets in shifts; the one in use among them. */
  readonly budgets: readonly number[];
  readonly inUse: number;
  /** What repeated stops may spend of a budget: rejects have their part of it. */
  readonly levelOf: (falseOnceInShifts: number) => number;
  readonly runs: readonly JudgedRun[];
  /** Notices that were really raised. */
  readonly raised: readonly Readonly<NoticeRecord>[];
}

interface Call {
  readonly at: Instant;
  readonly run: JudgedRun;
}

/** What each budget would have raised of repeated stops. */
export function triedRows(asked: TriedAsked): Omit<Tried, 'ofKinds'> {
  const inUse = callsAt(asked, asked.inUse);
  return {
    from: epochMs(asked.from),
    to: epochMs(asked.to),
    shifts: asked.shifts,
    seen: millis(asked.seen),
    of: millis(between(asked.from, asked.to)),
    inUse: asked.inUse,
    rows: asked.budgets.toSorted((a, b) => a - b).map((budget) => rowOf(asked, budget, inUse)),
  };
}

function rowOf(asked: TriedAsked, falseOnceInShifts: number, inUse: readonly Call[]): TriedRow {
  const calls = callsAt(asked, falseOnceInShifts);
  const notices = calls.map(
    ({ at, run: { station } }): TriedNotice => ({
      at: epochMs(at),
      station,
      became: becameOf(asked.raised, station, at),
    }),
  );
  const count = (wanted: TriedNotice['became']) => notices.filter(({ became }) => became === wanted).length;
  return {
    falseOnceInShifts,
    notices,
    found: count('found'),
    nothing: count('nothing'),
    unsaid: count('unsaid'),
    falseExpected: asked.shifts / falseOnceInShifts,
    missed: asked.runs.reduce((sum, run) => sum + missedIn(run, calls), 0),
    later: laterThan(calls, inUse),
  };
}

/** A call each time a station becomes as unusual as the budget asks for, and not again before it has been back to normal. */
function callsAt({ runs, levelOf }: TriedAsked, budget: number): readonly Call[] {
  const level = levelOf(budget);
  return runs
    .flatMap((run) => {
      const calls: Call[] = [];
      let called = false;
      for (const { at, onceInShifts, rested } of run.looks) {
        if (rested) called = false;
        if (called || onceInShifts < level) continue;
        called = true;
        calls.push({ at, run });
      }
      return calls;
    })
    .sort((a, b) => a.at - b.at);
}

/** What people said of the notice that was really open at that station then, or raised within the hour. */
function becameOf(
  raised: readonly Readonly<NoticeRecord>[],
  station: string,
  at: Instant,
): TriedNotice['became'] {
  const said = raised.findLast(
    (notice) =>
      notice.station === station && notice.at - HOUR <= at && at <= (notice.ended?.at ?? notice.at) + HOUR,
  )?.ended?.said;
  if (!said) return 'unsaid';
  return said.found === 'nothing' ? 'nothing' : 'found';
}

/** Three stops within an hour, by the third of which no call had come: each hour once. */
function missedIn(run: JudgedRun, calls: readonly Call[]): number {
  const stops = run.looks.map(({ at }) => at);
  const own = calls.filter((call) => call.run === run).map(({ at }) => at);
  let missed = 0;
  for (let third = 2; third < stops.length; ) {
    const [begin, end] = [stops[third - 2]!, stops[third]!];
    if (end - begin > HOUR) {
      third += 1;
      continue;
    }
    // one that was called before it counts as told: somebody knows
    if (!own.some((at) => at <= end && at >= begin - HOUR)) missed += 1;
    third += 3;
  }
  return missed;
}

/** Median of how much later the calls came that both raise: of the same station in the same run. */
function laterThan(calls: readonly Call[], inUse: readonly Call[]): TriedRow['later'] {
  const apart = inUse.flatMap(({ at, run }) => {
    const same = calls.find((call) => call.run === run);
    const first = inUse.find((call) => call.run === run);
    return same && first?.at === at ? [same.at - at] : [];
  });
  if (apart.length === 0) return undefined;
  const sorted = apart.toSorted((a, b) => a - b);
  return millis(sorted[Math.floor((sorted.length - 1) / 2)]! as Span);
}
