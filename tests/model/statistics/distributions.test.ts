import * as cephes from 'cephes';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import * as beta from '../../../model/statistics/beta.ts';
import * as binomial from '../../../model/statistics/binomial.ts';
import * as chiSquare from '../../../model/statistics/chiSquare.ts';
import * as gamma from '../../../model/statistics/gamma.ts';
import { logGamma } from '../../../model/statistics/logGamma.ts';
import * as negative from '../../../model/statistics/negativeBinomial.ts';
import * as normal from '../../../model/statistics/normal.ts';
import * as poisson from '../../../model/statistics/poisson.ts';

/*
 * Held against the Cephes library, an independent implementation in C by S. Moshier, at random places; and against figures
 * worked out to 40 digits where that library itself loses some.
 */

/** Cephes keeps about this much of an incomplete beta function. */
const NEAR = 1e-11;

function near(ours: number, theirs: number | undefined, within: number): void {
  // past a chance of 1e-260 the last digit of its logarithm is the chance's eleventh
  if (theirs === undefined || Math.abs(theirs) < 1e-260)
    expect(Math.min(ours, 1 - ours)).toBeLessThan(1e-259);
  else expect(Math.abs(ours / theirs - 1), `${ours} against ${theirs}`).toBeLessThan(within);
}

/** Undefined where the library gives up, because one of the tails is nearer to 0 than any number it has. */
function unlessTooSmall(theirs: () => number): number | undefined {
  try {
    return theirs();
  } catch (error) {
    if (error instanceof Error && error.message.includes('underflow')) return undefined;
    throw error;
  }
}

/** Spread evenly over the orders of magnitude. */
const between = (low: number, high: number) =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map(Math.exp);
const counts = fc.integer({ min: 0, max: 400 });
const runs = { seed: 20_260_101, numRuns: 400 };

function forAll<Values extends unknown[]>(
  values: { readonly [Place in keyof Values]: fc.Arbitrary<Values[Place]> },
  holds: (...values: Values) => void,
): void {
  fc.assert(
    fc.property(fc.tuple(...values), (drawn) => holds(...(drawn as unknown as Values))),
    runs,
  );
}

describe('distributions, beside an independent library', () => {
  beforeAll(() => cephes.compiled);

  it('gamma and chi-square have its tails', () => {
    forAll([between(1.001, 1000), between(0.1, 5)], (shape, part) => {
      near(
        gamma.gammaBelow(shape * part, shape),
        unlessTooSmall(() => cephes.igam(shape, shape * part)),
        NEAR,
      );
      near(
        gamma.gammaAbove(shape * part, shape),
        unlessTooSmall(() => cephes.igamc(shape, shape * part)),
        NEAR,
      );
      near(
        chiSquare.chiSquareAbove(shape * part, shape),
        unlessTooSmall(() => cephes.chdtrc(shape, shape * part)),
        NEAR,
      );
      near(
        chiSquare.chiSquareBelow(shape * part, shape),
        unlessTooSmall(() => cephes.chdtr(shape, shape * part)),
        NEAR,
      );
    });
  });

  it('gamma and chi-square have its quantiles', () => {
    forAll([between(1.001, 500), between(1e-9, 0.999)], (shape, chance) => {
      near(
        gamma.gammaUpperQuantile(chance, shape),
        unlessTooSmall(() => cephes.igami(shape, chance)),
        NEAR,
      );
      near(
        chiSquare.chiSquareUpperQuantile(chance, shape),
        unlessTooSmall(() => cephes.chdtri(shape, chance)),
        NEAR,
      );
    });
  });

  it('beta has its tails and quantiles', () => {
    forAll([between(0.5, 500), between(0.5, 500), between(1e-4, 0.999)], (a, b, x) => {
      near(
        beta.betaBelow(x, a, b),
        unlessTooSmall(() => cephes.incbet(a, b, x)),
        NEAR,
      );
      near(
        beta.betaAbove(x, a, b),
        unlessTooSmall(() => cephes.incbet(b, a, 1 - x)),
        NEAR,
      );
      near(
        beta.betaQuantile(x, a, b),
        unlessTooSmall(() => cephes.incbi(a, b, x)),
        NEAR,
      );
    });
  });

  it('Poisson has its tails', () => {
    forAll([counts, between(0.01, 400)], (count, mean) => {
      near(
        poisson.poissonAtMost(count, mean),
        unlessTooSmall(() => cephes.pdtr(count, mean)),
        NEAR,
      );
      near(
        poisson.poissonAtLeast(count + 1, mean),
        unlessTooSmall(() => cephes.pdtrc(count, mean)),
        NEAR,
      );
    });
  });

  it('binomial has its tails', () => {
    forAll([counts, counts, between(1e-4, 0.999)], (count, more, share) => {
      const trials = count + more + 1;
      near(
        binomial.binomialAtMost(count, trials, share),
        unlessTooSmall(() => cephes.bdtr(count, trials, share)),
        NEAR,
      );
      near(
        binomial.binomialAtLeast(count + 1, trials, share),
        unlessTooSmall(() => cephes.bdtrc(count, trials, share)),
        NEAR,
      );
    });
  });

  it('negative binomial has its tails', () => {
    forAll([counts, fc.integer({ min: 1, max: 200 }), between(0.01, 0.99)], (count, size, p) => {
      near(
        negative.negativeBinomialAtMost(count, size, p),
        unlessTooSmall(() => cephes.nbdtr(count, size, p)),
        NEAR,
      );
      near(
        negative.negativeBinomialAtLeast(count + 1, size, p),
        unlessTooSmall(() => cephes.nbdtrc(count, size, p)),
        NEAR,
      );
    });
  });

  it('normal has its tails and quantiles', () => {
    forAll([fc.double({ min: -12, max: 12, noNaN: true }), between(1e-12, 0.999)], (z, chance) => {
      near(
        normal.normalBelow(z),
        unlessTooSmall(() => cephes.ndtr(z)),
        NEAR,
      );
      near(
        normal.normalAbove(z),
        unlessTooSmall(() => cephes.ndtr(-z)),
        NEAR,
      );
      expect(normal.normalQuantile(chance)).toBeCloseTo(cephes.ndtri(chance), 12);
    });
  });

  it('the logarithm of gamma is its', () => {
    forAll([between(0.01, 1e6)], (x) => {
      const theirs = cephes.lgam(x);
      expect(Math.abs(logGamma(x) - theirs)).toBeLessThan(1e-13 * Math.max(1, Math.abs(theirs)));
    });
  });
});

describe('distributions, beside figures of 40 digits', () => {
  it.each([
    ['Poisson, 30 or more of 3.5', poisson.poissonAtLeast(30, 3.5), 2.69254699558857e-18],
    ['Poisson, at most 997,000 of a million', poisson.poissonAtMost(997_000, 1e6), 0.0013462037182411],
    ['binomial, half of a million', binomial.binomialPoint(500_000, 1e6, 0.5), 0.00079788436133175],
    ['binomial, 100 of 3e8 at 3e-7', binomial.binomialPoint(100, 3e8, 3e-7), 0.02332082542514124],
    ['binomial, 60 or more of 300,000 at 1e-4', binomial.binomialAtLeast(60, 3e5, 1e-4), 9.23805236444801e-7],
    ['negative binomial, 25 or more', negative.negativeBinomialAtLeast(25, 2.5, 0.4), 7.92247246751231e-5],
    ['gamma quantile of 1e-10', gamma.gammaQuantile(1e-10, 0.5), 7.85398163397448e-21],
    ['chi-square, 2.5 % above', chiSquare.chiSquareUpperQuantile(0.025, 4), 11.1432867818778],
    ['beta, 97.5 % below', beta.betaQuantile(0.975, 4, 397), 0.0217606685144171],
    ['normal, one in a million below', normal.normalQuantile(1e-6), -4.7534243088229],
  ])('%s', (_name, ours, theirs) => {
    near(ours, theirs, 1e-10);
  });
});

describe('distributions', () => {
  it('points are what two tails differ by, and add up to 1', () => {
    let sum = 0;
    for (let count = 0; count <= 60; count += 1) {
      const point = negative.negativeBinomialPoint(count, 2.5, 0.6);
      sum += point;
      expectPoint(
        point,
        (k) => negative.negativeBinomialAtMost(k, 2.5, 0.6),
        (k) => negative.negativeBinomialAtLeast(k, 2.5, 0.6),
        count,
      );
      expectPoint(
        poisson.poissonPoint(count, 30),
        (k) => poisson.poissonAtMost(k, 30),
        (k) => poisson.poissonAtLeast(k, 30),
        count,
      );
      expectPoint(
        binomial.binomialPoint(count, 60, 0.4),
        (k) => binomial.binomialAtMost(k, 60, 0.4),
        (k) => binomial.binomialAtLeast(k, 60, 0.4),
        count,
      );
    }
    expect(sum).toBeCloseTo(1, 12);
  });

  it('densities are the slope of the tails', () => {
    for (const [density, below, x] of [
      [gamma.gammaDensity(2, 3.5, 0.7), (at: number) => gamma.gammaBelow(at, 3.5, 0.7), 2],
      [beta.betaDensity(0.3, 2.5, 4), (at: number) => beta.betaBelow(at, 2.5, 4), 0.3],
      [normal.normalDensity(-0.8), normal.normalBelow, -0.8],
    ] as const) {
      expect((below(x + 1e-5) - below(x - 1e-5)) / 2e-5).toBeCloseTo(density, 8);
    }
    expect([gamma.gammaDensity(0, 1, 3), gamma.gammaDensity(-1, 1), beta.betaDensity(1, 2, 2)]).toEqual([
      3, 0, 0,
    ]);
  });

  it('ends are exact: no stops of none, all of all, nothing below nothing', () => {
    expect([poisson.poissonPoint(0, 0), poisson.poissonPoint(1, 0), poisson.poissonAtMost(0, 0)]).toEqual([
      1, 0, 1,
    ]);
    expect([poisson.poissonAtMost(-1, 3), poisson.poissonAtLeast(0, 3), poisson.poissonPoint(-1, 3)]).toEqual(
      [0, 1, 0],
    );
    expect([
      binomial.binomialPoint(5, 5, 1),
      binomial.binomialPoint(0, 5, 0),
      binomial.binomialPoint(1, 5, 0),
    ]).toEqual([1, 1, 0]);
    expect([
      binomial.binomialAtMost(5, 5, 0.3),
      binomial.binomialAtLeast(6, 5, 0.3),
      binomial.binomialPoint(0, 0, 0.3),
    ]).toEqual([1, 0, 1]);
    expect([negative.negativeBinomialPoint(0, 2, 1), negative.negativeBinomialAtLeast(1, 2, 1)]).toEqual([
      1, 0,
    ]);
    expect([gamma.gammaQuantile(0, 2), gamma.gammaUpperQuantile(0, 2)]).toEqual([0, Infinity]);
    expect([beta.betaQuantile(0, 2, 3), beta.betaUpperQuantile(0, 2, 3)]).toEqual([0, 1]);
    expect([normal.normalQuantile(0), normal.normalQuantile(0.5), normal.normalQuantile(1)]).toEqual([
      -Infinity,
      0,
      Infinity,
    ]);
    expect([normal.normalBelow(Infinity), normal.normalBelow(-Infinity)]).toEqual([1, 0]);
  });

  it('a quantile of a count is the least with the chance of it or fewer', () => {
    forAll([between(1e-6, 0.999999), between(0.01, 500)], (chance, mean) => {
      const count = poisson.poissonQuantile(chance, mean);
      expect(poisson.poissonAtMost(count, mean)).toBeGreaterThanOrEqual(chance);
      expect(poisson.poissonAtMost(count - 1, mean)).toBeLessThan(chance);
      const rejects = binomial.binomialQuantile(chance, 700, mean / 501);
      expect(binomial.binomialAtMost(rejects, 700, mean / 501)).toBeGreaterThanOrEqual(chance);
      expect(binomial.binomialAtMost(rejects - 1, 700, mean / 501)).toBeLessThan(chance);
      const stops = negative.negativeBinomialQuantile(chance, mean, 0.3);
      expect(negative.negativeBinomialAtMost(stops, mean, 0.3)).toBeGreaterThanOrEqual(chance);
      expect(negative.negativeBinomialAtMost(stops - 1, mean, 0.3)).toBeLessThan(chance);
    });
  });

  it('a chance outside 0 to 1 is a mistake of ours', () => {
    expect(() => gamma.gammaQuantile(1.1, 2)).toThrow('Mistake in Scoreline');
    expect(() => beta.betaQuantile(0.5, 0, 2)).toThrow('Mistake in Scoreline');
  });
});

/** A point is what either tail loses by it; the smaller tail says it best. */
function expectPoint(
  point: number,
  atMost: (count: number) => number,
  atLeast: (count: number) => number,
  count: number,
): void {
  const lower = atMost(count) < atLeast(count);
  near(point, lower ? atMost(count) - atMost(count - 1) : atLeast(count) - atLeast(count + 1), 1e-9);
}
