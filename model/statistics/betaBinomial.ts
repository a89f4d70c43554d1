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

function logChoose(n: number, k: number): number {
  return logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);
}

function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}

/** Stirling's series, shifted up to where its terms fall below 1e-15 (Abramowitz and Stegun 6.1.41). */
export function logGamma(x: number): number {
  let shift = 0;
  let z = x;
  while (z < 12) {
    shift += Math.log(z);
    z += 1;
  }
  const inverse = 1 / (z * z);
  const series =
    (1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - inverse / 1188) * inverse) * inverse) * inverse) / z;
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + series - shift;
}
