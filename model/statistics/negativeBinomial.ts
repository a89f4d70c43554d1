import { incompleteBeta } from './incompleteBeta.ts';
import { leastCount } from './leastCount.ts';
import { binomialMass } from './saddlePoint.ts';

/*
 * The negative binomial distribution of a size above 0, also broken, and a chance 0 < p ≤ 1, as R writes it: mean
 * size (1 − p) / p, variance mean / p. It is what Poisson counts become where their rate itself varies as a gamma
 * distribution of shape `size`: the counts of stops of days that are not alike.
 */

/** The chance of exactly `count`. */
export function negativeBinomialPoint(count: number, size: number, p: number): number {
  return count < 0 ? 0 : (binomialMass(size, count + size, p, 1 - p) * size) / (count + size);
}

/** The chance of at most `count`. */
export function negativeBinomialAtMost(count: number, size: number, p: number): number {
  return count < 0 ? 0 : incompleteBeta(size, Math.floor(count) + 1, p).below;
}

/** The chance of at least `count`: exact also where it is very small. */
export function negativeBinomialAtLeast(count: number, size: number, p: number): number {
  return count <= 0 ? 1 : incompleteBeta(size, Math.ceil(count), p).above;
}

/** The least count with at least the chance `below`, under 1, of it or fewer. */
export function negativeBinomialQuantile(below: number, size: number, p: number): number {
  return leastCount((count) => negativeBinomialAtMost(count, size, p) >= below, (size * (1 - p)) / p);
}
