import { poissonMass } from './saddlePoint.ts';

/** The share of a gamma distribution below a place, and the share above: each is exact where it is the small one. */
export interface Tails {
  readonly below: number;
  readonly above: number;
}

/**
 * The regularized incomplete gamma functions P(a, x) and Q(a, x), for a above 0: below and above x. By the series where x is
 * left of a + 1, else by the continued fraction (DLMF 8.11.4 and 8.9.2). Both begin with a Poisson point, which keeps
 * them exact for a in the millions. The number of steps grows with the root of a.
 */
export function incompleteGamma(a: number, x: number): Tails {
  if (!(x > 0)) return { below: 0, above: 1 };
  if (x === Infinity) return { below: 1, above: 0 };
  if (x < a + 1) {
    const below = Math.min(1, poissonMass(a, x) * series(a, x));
    return { below, above: 1 - below };
  }
  const above = Math.min(1, poissonMass(a, x) * a * fraction(a, x));
  return { below: 1 - above, above };
}

/** 1 + x/(a+1) + x²/((a+1)(a+2)) + … */
function series(a: number, x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; ; n += 1) {
    term *= x / (a + n);
    const next = sum + term;
    if (next === sum) return sum;
    sum = next;
  }
}

/** 1/(x+1−a − 1(1−a)/(x+3−a − 2(2−a)/(x+5−a − …))), worked out from the front by Lentz's method. */
function fraction(a: number, x: number): number {
  let part = x + 1 - a;
  let numerator = 1 / Number.MIN_VALUE;
  let denominator = 1 / part;
  let value = denominator;
  for (let n = 1; ; n += 1) {
    const step = -n * (n - a);
    part += 2;
    denominator = 1 / awayFromZero(step * denominator + part);
    numerator = awayFromZero(part + step / numerator);
    const factor = denominator * numerator;
    value *= factor;
    if (Math.abs(factor - 1) <= Number.EPSILON) return value;
  }
}

/** Lentz's method divides by these; one that comes out as 0 stands for a very small one. */
export function awayFromZero(value: number): number {
  return Math.abs(value) < 1e-300 ? 1e-300 : value;
}
