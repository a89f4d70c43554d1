import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gaussLegendre } from '../../../model/statistics/gaussLegendre.ts';
import { leastCount } from '../../../model/statistics/leastCount.ts';
import { solve } from '../../../model/statistics/linearSystem.ts';
import { rootBetween, rootNear } from '../../../model/statistics/root.ts';

describe('numerics', () => {
  it('a root is found to the last digits, from anywhere', () => {
    expect(rootBetween((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 15);
    expect(rootNear((x) => x ** 3 - 27, 1000)).toBeCloseTo(3, 14);
    expect(rootNear((x) => Math.exp(x) - 1e-9, 0)).toBeCloseTo(Math.log(1e-9), 12);
    expect(rootNear((x) => x, 5)).toBeCloseTo(0, 15);
    // infinite until just before it crosses
    expect(rootNear((x) => (x < -3 ? -Infinity : x + 2), 40)).toBeCloseTo(-2, 14);
  });

  it('a least count is found from any guess', () => {
    fc.assert(
      fc.property(fc.nat(5000), fc.integer({ min: -3, max: 9000 }), (least, near) => {
        expect(leastCount((count) => count >= least, near)).toBe(least);
      }),
      { seed: 7 },
    );
  });

  it('a quadrature of n places is exact for polynomials of degree 2n − 1', () => {
    const { nodes, weights } = gaussLegendre(5, -1, 3);
    const integral = (power: number) =>
      nodes.reduce((sum, x, place) => sum + weights[place]! * x ** power, 0);
    for (const power of [0, 1, 4, 9])
      expect(integral(power)).toBeCloseTo((3 ** (power + 1) - (-1) ** (power + 1)) / (power + 1), 8);
    expect(nodes).toEqual(nodes.toSorted((a, b) => a - b));
  });

  it('a system of equations is solved, also where it must be turned round first', () => {
    const rows = [
      [0, 2, 1],
      [1, -2, 4],
      [3, 1, 0],
    ];
    // x = 1, y = 2, z = 3
    expect(solve(rows, [7, 9, 5]).map((x) => Math.round(x * 1e12) / 1e12)).toEqual([1, 2, 3]);
    expect(rows[0]).toEqual([0, 2, 1]);
    expect(() =>
      solve(
        [
          [1, 1],
          [2, 2],
        ],
        [1, 2],
      ),
    ).toThrow('Mistake in Scoreline');
  });
});
