import { assert } from '../trouble/trouble.ts';
import { incompleteGamma } from './incompleteGamma.ts';
import { rootNear } from './root.ts';
import { poissonMass } from './saddlePoint.ts';

/*
 * The gamma distribution of a shape and a rate, both above 0: mean shape / rate. It says how a rate of stops is known after
 * `shape` stops in a time `rate`.
 */

export function gammaDensity(x: number, shape: number, rate = 1): number {
  return x > 0 ? (poissonMass(shape, rate * x) * shape) / x : x === 0 && shape === 1 ? rate : 0;
}

export function gammaBelow(x: number, shape: number, rate = 1): number {
  return incompleteGamma(shape, rate * x).below;
}

export function gammaAbove(x: number, shape: number, rate = 1): number {
  return incompleteGamma(shape, rate * x).above;
}

/** The place that has the chance `below` below it. */
export function gammaQuantile(below: number, shape: number, rate = 1): number {
  return placeWith(below, 1 - below, shape) / rate;
}

/** The place that has the chance `above` above it: for small chances more exact than the quantile of 1 − above. */
export function gammaUpperQuantile(above: number, shape: number, rate = 1): number {
  return placeWith(1 - above, above, shape) / rate;
}

/** Looked for on logarithms of both place and chance, where the distribution is almost straight, by the smaller tail. */
function placeWith(below: number, above: number, shape: number): number {
  assert(below >= 0 && above >= 0 && shape > 0, `a gamma quantile of ${below} with shape ${shape}`);
  if (below === 0) return 0;
  if (above === 0) return Infinity;
  const excess =
    below < above
      ? (log: number) => Math.log(incompleteGamma(shape, Math.exp(log)).below) - Math.log(below)
      : (log: number) => Math.log(above) - Math.log(incompleteGamma(shape, Math.exp(log)).above);
  return Math.exp(rootNear(excess, Math.log(shape)));
}
