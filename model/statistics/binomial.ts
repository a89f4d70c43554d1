import { incompleteBeta } from './incompleteBeta.ts';
import { leastCount } from './leastCount.ts';
import { binomialMass } from './saddlePoint.ts';

/* The binomial distribution: how many of `trials` cartons are rejects, if each is one with the same chance `share`. */

/** The chance of exactly `count`. */
export function binomialPoint(count: number, trials: number, share: number): number {
  return binomialMass(count, trials, share, 1 - share);
}

/** The chance of at most `count`. */
export function binomialAtMost(count: number, trials: number, share: number): number {
  const whole = Math.floor(count);
  if (whole < 0) return 0;
  return whole >= trials ? 1 : incompleteBeta(whole + 1, trials - whole, share).above;
}

/** The chance of at least `count`: exact also where it is very small. */
export function binomialAtLeast(count: number, trials: number, share: number): number {
  const whole = Math.ceil(count);
  if (whole <= 0) return 1;
  return whole > trials ? 0 : incompleteBeta(whole, trials - whole + 1, share).below;
}

/** The least count with at least the chance `below` of it or fewer. */
export function binomialQuantile(below: number, trials: number, share: number): number {
  return leastCount((count) => binomialAtMost(count, trials, share) >= below, trials * share);
}
