import type { Truncation } from './mtbfBounds.ts';
import { normalAbove } from './normal.ts';

export interface LaplaceTrend {
  /** Below 0: failures grow rarer. Above: they grow more frequent. */
  readonly z: number;
  /** Two-sided chance of such a trend or a stronger one, if the rate is steady. */
  readonly chance: number;
}

/**
 * Whether failures of one machine grow rarer or more frequent (Laplace; Ascher and Feingold, Repairable Systems Reliability,
 * from memory): where their mean moment lies in the time under watch, 0 to `end`. Where the time ended with a failure, that
 * one only marks the end, and `end` is its moment. A normal approximation, good from about four failures. Undefined without.
 */
export function laplaceTrend(
  moments: readonly number[],
  end: number,
  truncation: Truncation = 'time',
): LaplaceTrend | undefined {
  const counted = truncation === 'failure' ? moments.slice(0, -1) : moments;
  if (counted.length === 0 || !(end > 0)) return undefined;
  const sum = counted.reduce((total, at) => total + at, 0);
  const z = (sum - (counted.length * end) / 2) / (end * Math.sqrt(counted.length / 12));
  return { z, chance: 2 * normalAbove(Math.abs(z)) };
}
