import { assert } from '../trouble/trouble.ts';
import { incompleteBeta } from './incompleteBeta.ts';
import { rootNear } from './root.ts';
import { binomialMass } from './saddlePoint.ts';

/*
 * The beta distribution of a and b, both above 0: mean a / (a + b). It says how a share is known after `a` cartons of one
 * kind and `b` of the other.
 */

export function betaDensity(x: number, a: number, b: number): number {
  if (!(x > 0 && x < 1)) return 0;
  return (binomialMass(a, a + b, x, 1 - x) * a * b) / ((a + b) * x * (1 - x));
}

export function betaBelow(x: number, a: number, b: number): number {
  return incompleteBeta(a, b, x).below;
}

export function betaAbove(x: number, a: number, b: number): number {
  return incompleteBeta(a, b, x).above;
}

/** The share that has the chance `below` below it. */
export function betaQuantile(below: number, a: number, b: number): number {
  return shareWith(below, 1 - below, a, b);
}

/** The share that has the chance `above` above it: for small chances more exact than the quantile of 1 − above. */
export function betaUpperQuantile(above: number, a: number, b: number): number {
  return shareWith(1 - above, above, a, b);
}

/** Looked for on the logarithm of the odds, where neither end is near, by the smaller tail. */
function shareWith(below: number, above: number, a: number, b: number): number {
  assert(below >= 0 && above >= 0 && a > 0 && b > 0, `a beta quantile of ${below} with ${a} and ${b}`);
  if (below === 0) return 0;
  if (above === 0) return 1;
  const tails = (odds: number) => incompleteBeta(a, b, 1 / (1 + Math.exp(-odds)), 1 / (1 + Math.exp(odds)));
  const excess =
    below < above
      ? (odds: number) => Math.log(tails(odds).below) - Math.log(below)
      : (odds: number) => Math.log(above) - Math.log(tails(odds).above);
  return 1 / (1 + Math.exp(-rootNear(excess, Math.log(a / b))));
}
