import type { CountedWithin } from '../notices/settings.ts';
import { newAlarmRate } from '../statistics/scanStatistic.ts';
import { type Instant, minutes, type Span } from '../units/units.ts';

/** "So many stops within so many minutes of running, or cartons." */
export interface PlainRule {
  readonly stops: number;
  readonly within: CountedWithin;
}

/** First tries of one station: a re-jam is one with the stop before it. */
export interface PlainStop {
  readonly at: Instant;
  /** How long the line had run by then, and cartons it had made, from any beginning. */
  readonly ran: Span;
  readonly cartons: number;
}

export interface PlainAsked {
  /** The newest last. */
  readonly stops: readonly PlainStop[];
  /** By now, from the same beginning. */
  readonly ran: Span;
  readonly cartons: number;
}

/** The stops that meet the rule now, and when the first of them came; undefined while too few lie within its window (t − w, t]. */
export function isCalled(
  { stops: least, within }: PlainRule,
  asked: PlainAsked,
): { readonly since: Instant; readonly stops: number } | undefined {
  const met = asked.stops.filter(({ ran, cartons }) =>
    within.kind === 'minutes'
      ? asked.ran - ran < minutes(within.minutes)
      : asked.cartons - cartons < within.cartons,
  );
  return met.length >= least ? { since: met[0]!.at, stops: met.length } : undefined;
}

/**
 * New false calls of the rule come once in so many shifts, at a station whose stops come at its usual rate and anywhere alike:
 * exact, and too seldom where runs differ. A shift is so many cartons, or so many minutes of running.
 */
export function plainOnceInShifts(
  { stops, within }: PlainRule,
  usual: { readonly perShift: number; readonly shift: number },
): number {
  const window = within.kind === 'minutes' ? within.minutes : within.cartons;
  return 1 / newAlarmRate({ rate: usual.perShift, window: window / usual.shift, count: stops });
}
