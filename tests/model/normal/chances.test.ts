import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chancesOf } from '../../../model/normal/chances.ts';
import { binomialPoint } from '../../../model/statistics/binomial.ts';
import { negativeBinomialPoint } from '../../../model/statistics/negativeBinomial.ts';
import { poissonPoint } from '../../../model/statistics/poisson.ts';

const near = (chances: Float64Array, point: (count: number) => number) =>
  chances.forEach((chance, count) => {
    expect(Math.abs(chance - point(count)), String(count)).toBeLessThan(1e-11);
  });

describe('chances of counts of one level', () => {
  it('are the binomial, the Poisson and the negative binomial ones', () => {
    near(chancesOf(300 * 0.02, 1 - 0.02), (count) => binomialPoint(count, 300, 0.02));
    near(chancesOf(4.2, 1), (count) => poissonPoint(count, 4.2));
    // variance 1.5 times the mean of 6: p = 1 / 1.5, size = 6 p / (1 − p) = 12
    near(chancesOf(6, 1.5), (count) => negativeBinomialPoint(count, 12, 1 / 1.5));
  });

  it('end where the last carton is one: of two with a half each, a quarter, a half and a quarter', () => {
    expect([...chancesOf(1, 0.5)].map((chance) => Math.round(1e12 * chance) / 1e12)).toEqual([
      0.25, 0.5, 0.25,
    ]);
  });

  it('have the mean and the variance they are asked for, also where very many are expected', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 3000, noNaN: true }),
        fc.double({ min: 1, max: 4, noNaN: true }),
        (mean, factor) => {
          const chances = [...chancesOf(mean, factor)];
          const found = chances.reduce((sum, chance, count) => sum + chance * count, 0);
          const square = chances.reduce((sum, chance, count) => sum + chance * (count - mean) ** 2, 0);
          expect(found / mean).toBeCloseTo(1, 6);
          expect(square / (factor * mean)).toBeCloseTo(1, 5);
        },
      ),
    );
  });
});
