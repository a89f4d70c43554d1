import { severity } from '../status/status.ts';
import type { Span } from '../units/units.ts';
import { qualityByTime, type QualityShares, regionsOf, type Sample, usable, type Window } from './regions.ts';

/** For how long within an interval a signal was in a state, out of it, and nobody can say. The three add up to `known`. */
export interface InState {
  readonly inState: Span;
  readonly outOfState: Span;
  /** Time with a bad value or none, and with an uncertain one where those count as bad. In neither of the two above. */
  readonly excluded: Span;
  /** Length of the interval as far as the signal was heard. */
  readonly known: Span;
  readonly quality: 'good' | 'uncertain' | 'bad';
  /** The interval begins before the first sample, or ends after the signal was last heard. */
  readonly partial: boolean;
}

export interface StateOptions {
  /** The standard's default: uncertain values count as bad. */
  readonly uncertainIsBad?: boolean;
  readonly shares?: QualityShares;
}

/**
 * Time in a state as the aggregates DurationInStateZero and DurationInStateNonZero have it (OPC 10000-13, 5.4.3.22 and
 * 5.4.3.23): a value holds until the next, and what is not usable is left out. Undefined where nothing was told before the
 * interval's end, or it begins after the signal was last heard: that is no data, not 0.
 */
export function durationInState<Value>(
  samples: readonly Sample<Value>[],
  window: Window,
  isIn: (value: Value) => boolean,
  { uncertainIsBad = true, shares }: StateOptions = {},
): InState | undefined {
  if (noData(samples, window)) return undefined;
  let [inState, outOfState, excluded] = [0, 0, 0];
  for (const { from, to, sample } of regionsOf(samples, window)) {
    if (!sample || !usable(sample, uncertainIsBad)) excluded += to - from;
    else if (isIn(sample.value)) inState += to - from;
    else outOfState += to - from;
  }
  return {
    inState: inState as Span,
    outOfState: outOfState as Span,
    excluded: excluded as Span,
    known: (inState + outOfState + excluded) as Span,
    quality: qualityByTime((inState + outOfState) as Span, excluded as Span, shares),
    partial: samples[0]!.at > window.from || window.knownUntil < window.to,
  };
}

/** For how long within an interval a signal's values were good, uncertain and bad. */
export interface QualityTimes {
  readonly good: Span;
  readonly uncertain: Span;
  /** Also the time before the first sample. */
  readonly bad: Span;
  readonly known: Span;
}

/** As the aggregates DurationGood and DurationBad (OPC 10000-13, 5.4.3.31 and 5.4.3.32). Undefined as above. */
export function qualityTimes(samples: readonly Sample<unknown>[], window: Window): QualityTimes | undefined {
  if (noData(samples, window)) return undefined;
  const times = { good: 0, uncertain: 0, bad: 0 };
  for (const { from, to, sample } of regionsOf(samples, window))
    times[sample ? severity(sample.status) : 'bad'] += to - from;
  const known = times.good + times.uncertain + times.bad;
  return {
    good: times.good as Span,
    uncertain: times.uncertain as Span,
    bad: times.bad as Span,
    known: known as Span,
  };
}

/**
 * How often a signal changed within [from, to), as the aggregate NumberOfTransitions (OPC 10000-13, 5.4.3.24): unusable values
 * are skipped, the first usable one is held against the last usable one before the interval, and counts as a change where
 * there is none. A change at the very end belongs to the next interval. Undefined as above.
 */
export function transitionsIn<Value>(
  samples: readonly Sample<Value>[],
  window: Window,
  uncertainIsBad = true,
): number | undefined {
  if (noData(samples, window)) return undefined;
  let before: Sample<Value> | undefined;
  let transitions = 0;
  for (const sample of samples) {
    if (sample.at >= window.to) break;
    if (!usable(sample, uncertainIsBad)) continue;
    if (sample.at >= window.from && (!before || before.value !== sample.value)) transitions += 1;
    before = sample;
  }
  return transitions;
}

function noData(samples: readonly Sample<unknown>[], { from, to, knownUntil }: Window): boolean {
  const [first] = samples;
  return !first || first.at >= to || knownUntil <= from;
}
