const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/** Stirling's series, shifted up to where its terms fall below 1e-15 (Abramowitz and Stegun 6.1.41). For x above 0. */
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

/** Logarithm of the beta function, for a and b above 0. */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}

/** Logarithm of the number of ways to choose k of n; both may be broken numbers, 0 ≤ k ≤ n. */
export function logChoose(n: number, k: number): number {
  return logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);
}

/**
 * What Stirling's formula misses: log Γ(n + 1) less (n + ½) log n − n + ½ log 2π. It stays small where the logarithms
 * themselves are huge and would cancel, so points of distributions stay exact at any size. For n above 0.
 */
export function stirlingRest(n: number): number {
  if (n <= 15) return logGamma(n + 1) - (n + 0.5) * Math.log(n) + n - HALF_LOG_TWO_PI;
  const inverse = 1 / (n * n);
  return (1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - inverse / 1188) * inverse) * inverse) * inverse) / n;
}
