import type { Instant } from '../units/units.ts';

/** So many rejects, or stops, among so many cartons. */
export interface Counted {
  readonly count: number;
  readonly of: number;
}

/** What an earlier run of the size was like at one station. */
export interface EarlierRun {
  /** Undefined where nothing that is charged to the station is held against other runs. */
  readonly rejects: Counted | undefined;
  /** The same in halves of its time, and in batches where they were looked at. */
  readonly halves: readonly [Counted, Counted] | undefined;
  readonly batches: readonly Counted[];
  /** First tries only: a re-jam is one with the stop before it. */
  readonly stops: Counted;
}

/** One batch of the run that is judged. */
export interface Look {
  readonly from: Instant;
  readonly to: Instant;
  readonly rejects: Counted | undefined;
  readonly stops: Counted;
}

/** A station in the newest run of a size, and in earlier ones; both the oldest first. */
export interface StationEvidence {
  readonly station: string;
  readonly earlier: readonly EarlierRun[];
  readonly looks: readonly Look[];
}

export type Rule = 'run' | 'drift' | 'stops';

/** What one rule says of a station. */
export interface WorseAnswer {
  readonly rule: Rule;
  readonly station: string;
  /** Since when what is seen is counted. */
  readonly since: Instant;
  readonly seen: number;
  /** Among so many cartons. */
  readonly of: number;
  /** What its own normal brings in as many cartons; undefined where that cannot be said. */
  readonly expected: number | undefined;
  readonly interval: { readonly lower: number; readonly upper: number } | undefined;
  /** More than this calls; a drift is called by a sum, and has none. */
  readonly most: number | undefined;
  /** So many times what is usual would be outside by now, and no less; undefined where nothing can be said. */
  readonly seenFrom: number | undefined;
  readonly outside: boolean;
  /** Why nothing can be said; undefined where it can. */
  readonly tooThin: TooThin | undefined;
}

/** The answer, and whether the rule found the station outside at each look of the run so far. */
export interface Judgement {
  readonly answer: WorseAnswer;
  readonly outside: readonly boolean[];
}

export type TooThin =
  /** So many earlier runs and cartons, of those that are needed. */
  | { readonly kind: 'past'; readonly runs: number; readonly cartons: number }
  /** So many cartons of this run, of those that are needed. */
  | { readonly kind: 'run'; readonly cartons: number; readonly needed: number };

export function totalOf(counted: readonly Counted[]): Counted {
  return counted.reduce((sum, one) => ({ count: sum.count + one.count, of: sum.of + one.of }), {
    count: 0,
    of: 0,
  });
}
