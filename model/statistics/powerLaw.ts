import { chiSquareAbove, chiSquareBelow } from './chiSquare.ts';
import type { Truncation } from './mtbfBounds.ts';

/** A rate of failures that falls or rises as a power of the time: expected by t are (t / scale)^shape. */
export interface PowerLaw {
  /** 2 Σ ln(T/t), which is chi-square on `degrees` if the rate is steady. Large where failures grow rarer. */
  readonly statistic: number;
  readonly degrees: number;
  /** Chance of so large a statistic, or larger, at a steady rate: small says that failures grow rarer. */
  readonly rarer: number;
  /** Chance of so small a one, or smaller: small says that they grow more frequent. */
  readonly moreFrequent: number;
  /** Maximum likelihood; below 1 failures grow rarer. */
  readonly shape: number;
  /** The same without its bias; undefined for fewer than two failures, three where the time ended with one. */
  readonly shapeCorrected: number | undefined;
  /** Mean time between failures as it is at the end, by either shape. */
  readonly mtbfNow: number;
  readonly mtbfNowCorrected: number | undefined;
}

/**
 * The test and growth model of MIL-HDBK-189 (Crow, AMSAA; from memory) on failures at moments above 0 of the time 0 to `end`.
 * Where the time ended with a failure, that one only marks the end. Undefined without a failure before the end.
 */
export function powerLaw(
  moments: readonly number[],
  end: number,
  truncation: Truncation = 'time',
): PowerLaw | undefined {
  const counted = truncation === 'failure' ? moments.slice(0, -1) : moments;
  const sum = counted.reduce((total, at) => total + Math.log(end / at), 0);
  if (!(sum > 0 && Number.isFinite(sum))) return undefined;
  const failures = moments.length;
  const shape = failures / sum;
  const unbiased = failures - (truncation === 'time' ? 1 : 2);
  const shapeCorrected = unbiased > 0 ? unbiased / sum : undefined;
  const degrees = 2 * counted.length;
  return {
    statistic: 2 * sum,
    degrees,
    rarer: chiSquareAbove(2 * sum, degrees),
    moreFrequent: chiSquareBelow(2 * sum, degrees),
    shape,
    shapeCorrected,
    mtbfNow: end / (failures * shape),
    mtbfNowCorrected: shapeCorrected && end / (failures * shapeCorrected),
  };
}
