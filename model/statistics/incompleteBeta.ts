import { awayFromZero, type Tails } from './incompleteGamma.ts';
import { binomialMass } from './saddlePoint.ts';

/**
 * The regularized incomplete beta functions I_x(a, b) and I_y(b, a), for a and b above 0: below and above x. `y` is 1 − x,
 * given beside it because one of the two is often known better than their difference to 1. By the continued fraction of
 * whichever side converges (DLMF 8.17.22), begun with a binomial point, which keeps it exact for a and b in the millions.
 */
export function incompleteBeta(a: number, b: number, x: number, y: number = 1 - x): Tails {
  if (!(x > 0)) return { below: 0, above: 1 };
  if (!(y > 0)) return { below: 1, above: 0 };
  if (x * (a + b + 2) < a + 1) {
    const below = side(a, b, x, y);
    return { below, above: 1 - below };
  }
  const above = side(b, a, y, x);
  return { below: 1 - above, above };
}

/** x^a y^b / (a B(a, b)) times the fraction. */
function side(a: number, b: number, x: number, y: number): number {
  const front = (binomialMass(a, a + b, x, y) * b) / (a + b);
  return Math.min(1, front * fraction(a, b, x));
}

/** 1/(1 + d1/(1 + d2/(1 + …))), worked out from the front by Lentz's method, two steps at a time. */
function fraction(a: number, b: number, x: number): number {
  let numerator = 1;
  let denominator = 1 / awayFromZero(1 - ((a + b) * x) / (a + 1));
  let value = denominator;
  for (let m = 1; ; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    denominator = 1 / awayFromZero(1 + even * denominator);
    numerator = awayFromZero(1 + even / numerator);
    value *= denominator * numerator;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    denominator = 1 / awayFromZero(1 + odd * denominator);
    numerator = awayFromZero(1 + odd / numerator);
    const factor = denominator * numerator;
    value *= factor;
    if (Math.abs(factor - 1) <= Number.EPSILON) return value;
  }
}
