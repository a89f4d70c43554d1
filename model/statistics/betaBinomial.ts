import { logBeta, logChoose } from './logGamma.ts';

/**
 * Chance of at least `rejects` among `cartons` when earlier cartons gave `earlierRejects` of `earlier`, by the exact
 * beta-binomial predictive distribution with the Jeffreys start (a = x + ½, b = n − x + ½). A thin past makes it
 * larger: nobody is called out of normal for want of data. (Bernardo and Smith, Bayesian Theory, from memory.)
 */
export function tailOfRejects(
  rejects: number,
  cartons: number,
  earlierRejects: number,
  earlier: number,
): number {
  const a = earlierRejects + 0.5;
  const b = earlier - earlierRejects + 0.5;
  let below = 0;
  for (let k = 0; k < rejects; k += 1) below += Math.exp(logPoint(k, cartons, a, b));
  return Math.max(0, 1 - below);
}

function logPoint(k: number, n: number, a: number, b: number): number {
  return logChoose(n, k) + logBeta(k + a, n - k + b) - logBeta(a, b);
}

/**
 * Chances of 0 to n of n where the share itself varies as a beta distribution of a and b, worked out from the likeliest one
 * outward and made to add up to 1, so that they stay exact where a and b are large.
 */
export function betaBinomialPoints(n: number, a: number, b: number): Float64Array {
  const points = new Float64Array(n + 1);
  const top = Math.min(n, Math.max(0, Math.round((n * a) / (a + b))));
  points[top] = 1;
  for (let k = top; k < n; k += 1) points[k + 1] = points[k]! * stepUp(k, n, a, b);
  for (let k = top; k > 0; k -= 1) points[k - 1] = points[k]! / stepUp(k - 1, n, a, b);
  const sum = points.reduce((total, point) => total + point, 0);
  return points.map((point) => point / sum);
}

/** How much likelier k + 1 is than k. */
function stepUp(k: number, n: number, a: number, b: number): number {
  return ((n - k) * (k + a)) / ((k + 1) * (n - k - 1 + b));
}
