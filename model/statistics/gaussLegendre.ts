/** Places and weights by which an integral is a weighted sum of values. */
export interface Quadrature {
  readonly nodes: readonly number[];
  readonly weights: readonly number[];
}

/**
 * Gauss-Legendre quadrature of `count` places between `low` and `high`: exact for polynomials up to twice the count. The
 * places are the zeros of the Legendre polynomial, by Newton's method from Tricomi's guess (Abramowitz and Stegun 25.4.29).
 */
export function gaussLegendre(count: number, low: number, high: number): Quadrature {
  const [middle, half] = [(low + high) / 2, (high - low) / 2];
  const nodes: number[] = [];
  const weights: number[] = [];
  for (let place = count; place >= 1; place -= 1) {
    let x = Math.cos((Math.PI * (place - 0.25)) / (count + 0.5));
    let slope = 1;
    for (let round = 0; round < 100; round += 1) {
      const legendre = legendreAt(count, x);
      slope = legendre.slope;
      const step = legendre.value / slope;
      x -= step;
      if (Math.abs(step) < 1e-15) break;
    }
    nodes.push(middle + half * x);
    weights.push((2 * half) / ((1 - x * x) * slope * slope));
  }
  return { nodes, weights };
}

function legendreAt(degree: number, x: number): { readonly value: number; readonly slope: number } {
  let [before, value] = [1, x];
  for (let n = 2; n <= degree; n += 1)
    [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n];
  return { value, slope: (degree * (x * value - before)) / (x * x - 1) };
}
