import { gammaUpperQuantile } from './gamma.ts';
import { incompleteGamma } from './incompleteGamma.ts';

/* The normal distribution of mean 0 and standard deviation 1. Half of a chi-square distribution of one degree each side. */

export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

export function normalAbove(z: number): number {
  const { below, above } = incompleteGamma(0.5, 0.5 * z * z);
  return z > 0 ? 0.5 * above : 0.5 + 0.5 * below;
}

export function normalBelow(z: number): number {
  return normalAbove(-z);
}

/** The place that has the chance `below` below it; −∞ and ∞ at 0 and 1. */
export function normalQuantile(below: number): number {
  if (below > 0.5) return -normalQuantile(1 - below);
  return below === 0.5 ? 0 : -Math.sqrt(2 * gammaUpperQuantile(2 * below, 0.5));
}
