import { betaQuantile, betaUpperQuantile } from './beta.ts';
import { binomialAtLeast, binomialAtMost, binomialPoint } from './binomial.ts';
import type { Interval } from './interval.ts';
import { leastCount } from './leastCount.ts';
import { normalQuantile } from './normal.ts';

/**
 * Between which shares the true one lies when `count` of `trials` were of a kind, with at least this confidence (0.95),
 * whatever the true share is. Exact (Clopper and Pearson, Biometrika 1934; R binom.test). Undefined without trials.
 */
export function clopperPearson(count: number, trials: number, confidence: number): Interval | undefined {
  if (trials <= 0) return undefined;
  const each = (1 - confidence) / 2;
  return {
    lower: count === 0 ? 0 : betaQuantile(each, count, trials - count + 1),
    upper: count === trials ? 1 : betaUpperQuantile(each, count + 1, trials - count),
  };
}

/**
 * The score interval of Wilson (1927; R prop.test without correction): near the exact one, often a little shorter, and it
 * does not keep its confidence for every share. Stands here to be held beside; calls follow the exact one.
 */
export function wilson(count: number, trials: number, confidence: number): Interval | undefined {
  if (trials <= 0) return undefined;
  const z = normalQuantile(1 - (1 - confidence) / 2);
  const share = count / trials;
  const middle = share + (z * z) / (2 * trials);
  const half = z * Math.sqrt((share * (1 - share)) / trials + (z * z) / (4 * trials * trials));
  const whole = 1 + (z * z) / trials;
  return { lower: Math.max(0, (middle - half) / whole), upper: Math.min(1, (middle + half) / whole) };
}

/** Points that differ by no more than this are equally likely: R's binom.test and poisson.test use the same. */
const TIE = 1 + 1e-7;

/**
 * Two-sided chance of a count as unlikely as this one or unlikelier, if the true share is `share`: the sum over all counts
 * whose point is not above this one's, as R's binom.test has it. 1 without trials: nothing was seen.
 */
export function binomialTest(count: number, trials: number, share: number): number {
  const mean = trials * share;
  if (count === mean) return 1;
  const most = binomialPoint(count, trials, share) * TIE;
  const rare = (k: number) => binomialPoint(k, trials, share) <= most;
  if (count < mean) {
    const start = Math.ceil(mean);
    const other = start + leastCount((steps) => start + steps > trials || rare(start + steps));
    return Math.min(1, binomialAtMost(count, trials, share) + binomialAtLeast(other, trials, share));
  }
  const start = Math.floor(mean);
  const other = start - leastCount((steps) => start - steps < 0 || rare(start - steps));
  return Math.min(1, binomialAtLeast(count, trials, share) + binomialAtMost(other, trials, share));
}
