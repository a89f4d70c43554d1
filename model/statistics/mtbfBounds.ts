import { chiSquareQuantile, chiSquareUpperQuantile } from './chiSquare.ts';
import type { Interval } from './interval.ts';

/**
 * How the time under watch ended: at a moment fixed beforehand, such as the end of a shift, or with a failure. A line is
 * watched until a moment.
 */
export type Truncation = 'time' | 'failure';

/** Mean time between failures over a stretch, in the unit of its time. */
export interface MtbfBounds extends Interval {
  /** Time through failures. Undefined without a failure: neither infinite nor the time itself. */
  readonly mtbf: number | undefined;
}

/**
 * Mean time between failures and its two-sided bounds, if failures come at a steady rate: 2T / χ²(1 − a/2; 2r + 2) and
 * 2T / χ²(a/2; 2r), where the time ended with a failure both with 2r (NIST e-Handbook 8.4.5.1). Without a failure nothing
 * bounds it above. Undefined over no time. `time` is whatever basis is named with it: running time, or running and set-up.
 */
export function mtbfBounds(
  time: number,
  failures: number,
  confidence: number,
  truncation: Truncation = 'time',
): MtbfBounds | undefined {
  if (!(time > 0) || (truncation === 'failure' && failures < 1)) return undefined;
  const each = (1 - confidence) / 2;
  const degrees = 2 * failures + (truncation === 'time' ? 2 : 0);
  return {
    mtbf: failures > 0 ? time / failures : undefined,
    lower: (2 * time) / chiSquareUpperQuantile(each, degrees),
    upper: failures > 0 ? (2 * time) / chiSquareQuantile(each, 2 * failures) : Infinity,
  };
}

/**
 * The one-sided lower bound: with this confidence the mean time is longer. What can be said of a stretch without a failure,
 * where it is T / −ln(1 − confidence): "no failure in T". Undefined over no time.
 */
export function mtbfLowerBound(time: number, failures: number, confidence: number): number | undefined {
  return time > 0 ? (2 * time) / chiSquareUpperQuantile(1 - confidence, 2 * failures + 2) : undefined;
}
