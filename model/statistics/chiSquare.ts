import { gammaAbove, gammaBelow, gammaQuantile, gammaUpperQuantile } from './gamma.ts';

/* The chi-square distribution of `degrees` of freedom, above 0: a gamma distribution of half as large a shape. */

export function chiSquareBelow(x: number, degrees: number): number {
  return gammaBelow(x, degrees / 2, 0.5);
}

export function chiSquareAbove(x: number, degrees: number): number {
  return gammaAbove(x, degrees / 2, 0.5);
}

/** The place that has the chance `below` below it. */
export function chiSquareQuantile(below: number, degrees: number): number {
  return gammaQuantile(below, degrees / 2, 0.5);
}

/** The place that has the chance `above` above it. */
export function chiSquareUpperQuantile(above: number, degrees: number): number {
  return gammaUpperQuantile(above, degrees / 2, 0.5);
}
