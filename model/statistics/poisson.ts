import { incompleteGamma } from './incompleteGamma.ts';
import { leastCount } from './leastCount.ts';
import { poissonMass } from './saddlePoint.ts';

/* The Poisson distribution of a mean of 0 or more: how many stops come in a time, if they come one by one at a steady rate. */

/** The chance of exactly `count`. */
export function poissonPoint(count: number, mean: number): number {
  return poissonMass(count, mean);
}

/** The chance of at most `count`. */
export function poissonAtMost(count: number, mean: number): number {
  return count < 0 ? 0 : incompleteGamma(Math.floor(count) + 1, mean).above;
}

/** The chance of at least `count`: exact also where it is very small. */
export function poissonAtLeast(count: number, mean: number): number {
  return count <= 0 ? 1 : incompleteGamma(Math.ceil(count), mean).below;
}

/** The least count with at least the chance `below`, under 1, of it or fewer. */
export function poissonQuantile(below: number, mean: number): number {
  return leastCount((count) => poissonAtMost(count, mean) >= below, mean);
}
