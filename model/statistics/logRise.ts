const SHIFTED_TO = 8;

/**
 * Logarithm of Γ(k + y) / Γ(k): for whole y of k (k + 1) … (k + y − 1); y may be broken. For k above 0 and y of 0 or more. Stirling's
 * series after a shift, to about ten digits: it is asked a million times where a chain is drawn.
 */
export function logRise(k: number, y: number): number {
  return y === 0 ? 0 : logGammaOf(k + y) - logGammaOf(k);
}

function logGammaOf(x: number): number {
  let z = x;
  let product = 1;
  while (z < SHIFTED_TO) {
    product *= z;
    z += 1;
  }
  const inverse = 1 / (z * z);
  const series = (1 / 12 - (1 / 360 - (1 / 1260 - inverse / 1680) * inverse) * inverse) / z;
  const log = (z - 0.5) * Math.log(z) - z + series;
  return product === 1 ? log : log - Math.log(product);
}
