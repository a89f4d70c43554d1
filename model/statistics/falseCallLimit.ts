import { assert } from '../trouble/trouble.ts';
import { binomialAtLeast, binomialAtMost } from './binomial.ts';
import { leastCount } from './leastCount.ts';
import { negativeBinomialAtLeast } from './negativeBinomial.ts';
import { poissonAtLeast, poissonAtMost } from './poisson.ts';

/** The most that still is normal, and how rare more than that are by chance alone: never above what was wished for. */
export interface UpperLimit {
  readonly most: number;
  readonly byChance: number;
}

/** The least that still is normal; 0 where not even nothing would be rare enough, with the chance 0 of fewer. */
export interface LowerLimit {
  readonly least: number;
  readonly byChance: number;
}

/*
 * Limits that follow from a wanted chance of a false call in one look, by the exact distributions. As counts are whole, the
 * chance of a call is the wanted one or less. Each look has its own number of cartons or its own time, and so its own limit.
 */

/** Of `trials` cartons that are rejects with the chance `share` each. */
export function binomialLimit(trials: number, share: number, wanted: number): UpperLimit {
  return upper((count) => binomialAtLeast(count, trials, share), wanted, trials * share);
}

/** Of stops of which `mean` are expected in the time looked at. */
export function poissonLimit(mean: number, wanted: number): UpperLimit {
  return upper((count) => poissonAtLeast(count, mean), wanted, mean);
}

/** Of counts that vary more than by chance: negative binomial of a size and a chance, as negativeBinomial.ts has them. */
export function negativeBinomialLimit(size: number, p: number, wanted: number): UpperLimit {
  return upper((count) => negativeBinomialAtLeast(count, size, p), wanted, (size * (1 - p)) / p);
}

export function binomialLowerLimit(trials: number, share: number, wanted: number): LowerLimit {
  return lower((count) => binomialAtMost(count, trials, share), wanted, trials * share);
}

export function poissonLowerLimit(mean: number, wanted: number): LowerLimit {
  return lower((count) => poissonAtMost(count, mean), wanted, mean);
}

function upper(atLeast: (count: number) => number, wanted: number, near: number): UpperLimit {
  assert(wanted > 0, 'a limit that never calls');
  const most = leastCount((count) => atLeast(count + 1) <= wanted, near);
  return { most, byChance: atLeast(most + 1) };
}

function lower(atMost: (count: number) => number, wanted: number, near: number): LowerLimit {
  assert(wanted > 0, 'a limit that never calls');
  const least = leastCount((count) => atMost(count) > wanted, near);
  return { least, byChance: least > 0 ? atMost(least - 1) : 0 };
}
