import { stirlingRest } from './logGamma.ts';

/*
 * Points of the Poisson and binomial distributions by the saddle-point form (C. Loader, Fast and Accurate Computation of
 * Binomial Probabilities, 2000, from memory): nothing large is taken from anything large, so a point of a million trials is
 * as exact as one of ten. The counts may be broken numbers: the incomplete gamma and beta functions begin with such points.
 */

/** e^−m m^k / Γ(k + 1): the chance of k where m are expected. 0 where k is below 0. */
export function poissonMass(k: number, mean: number): number {
  if (k < 0) return 0;
  if (k === 0) return Math.exp(-mean);
  if (mean === 0) return 0;
  return Math.exp(-stirlingRest(k) - deviance(k, mean)) / Math.sqrt(2 * Math.PI * k);
}

/**
 * Γ(n + 1) / (Γ(k + 1) Γ(n − k + 1)) p^k q^(n − k): the chance of k in n trials. `q` is 1 − p, given beside it because one of
 * the two is often known better than their difference to 1.
 */
export function binomialMass(k: number, n: number, p: number, q: number): number {
  if (k < 0 || k > n) return 0;
  if (k === 0) return Math.exp(n === 0 ? 0 : n * logOf(q, p));
  if (k === n) return Math.exp(n * logOf(p, q));
  if (p === 0 || q === 0) return 0;
  const rests = stirlingRest(n) - stirlingRest(k) - stirlingRest(n - k);
  const exponent = rests - deviance(k, n * p) - deviance(n - k, n * q);
  return Math.exp(exponent) * Math.sqrt(n / (2 * Math.PI * k * (n - k)));
}

/** The logarithm of a share, by the other share where that is the small one. */
function logOf(share: number, other: number): number {
  return other < 0.5 ? Math.log1p(-other) : Math.log(share);
}

/** k log(k / m) + m − k, by its series where the two are near each other and would cancel. */
function deviance(k: number, mean: number): number {
  const ratio = (k - mean) / (k + mean);
  if (Math.abs(ratio) >= 0.1) return k * Math.log(k / mean) + mean - k;
  let sum = (k - mean) * ratio;
  let term = 2 * k * ratio;
  for (let odd = 3; ; odd += 2) {
    term *= ratio * ratio;
    const next = sum + term / odd;
    if (next === sum) return sum;
    sum = next;
  }
}
