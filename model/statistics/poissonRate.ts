import { gammaQuantile, gammaUpperQuantile } from './gamma.ts';
import type { Interval } from './interval.ts';
import { binomialTest, clopperPearson } from './proportion.ts';

/** So many stops in so long a time, in hours or in whatever the rate is to be told in. */
export interface Stops {
  readonly count: number;
  readonly time: number;
}

/**
 * Between which means the true one lies when `count` stops came, with at least this confidence (0.95). Exact (Garwood,
 * Biometrika 1936; R poisson.test). Of no stops the upper end says what can still be so.
 */
export function countInterval(count: number, confidence: number): Interval {
  const each = (1 - confidence) / 2;
  return {
    lower: count === 0 ? 0 : gammaQuantile(each, count),
    upper: gammaUpperQuantile(each, count + 1),
  };
}

/** Between which rates the true one lies. Undefined over no time. */
export function rateInterval({ count, time }: Stops, confidence: number): Interval | undefined {
  if (!(time > 0)) return undefined;
  const { lower, upper } = countInterval(count, confidence);
  return { lower: lower / time, upper: upper / time };
}

export interface RateComparison {
  /** First rate to second; undefined where the second has no stops. */
  readonly ratio: number | undefined;
  readonly interval: Interval;
  /** Two-sided chance of so unlike a split or an unliker one if both rates are one; 1 where there was no stop at all. */
  readonly chance: number;
}

/**
 * Whether two rates differ, exactly: given how many stops came in all, the first's part is binomial with its share of the
 * time (Przyborowski and Wilenski 1940; R poisson.test). Stops that come in bursts are no Poisson stream: for those
 * see overdispersed.ts. Undefined where either has no time.
 */
export function compareRates(first: Stops, second: Stops, confidence: number): RateComparison | undefined {
  if (!(first.time > 0 && second.time > 0)) return undefined;
  const all = first.count + second.count;
  const share = clopperPearson(first.count, all, confidence);
  const times = second.time / first.time;
  const odds = (part: number) => (part < 1 ? (part / (1 - part)) * times : Infinity);
  return {
    ratio: second.count > 0 ? (first.count / second.count) * times : undefined,
    interval: share ? { lower: odds(share.lower), upper: odds(share.upper) } : { lower: 0, upper: Infinity },
    chance: binomialTest(first.count, all, first.time / (first.time + second.time)),
  };
}
