import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { binomialAtLeast, binomialAtMost, binomialPoint } from '../../../model/statistics/binomial.ts';
import { poissonAtLeast, poissonAtMost } from '../../../model/statistics/poisson.ts';
import { compareRates, countInterval, rateInterval } from '../../../model/statistics/poissonRate.ts';
import { binomialTest, clopperPearson, wilson } from '../../../model/statistics/proportion.ts';
import { fisherExact, pooledTest } from '../../../model/statistics/twoProportions.ts';

const runs = { seed: 11, numRuns: 150 };

describe('exact intervals', () => {
  it('at either end of the interval of a share what was seen is as rare as half of what is left of the confidence', () => {
    fc.assert(
      fc.property(
        fc.nat(200),
        fc.nat(200),
        fc.constantFrom(0.8, 0.95, 0.999),
        (count, others, confidence) => {
          const trials = count + others;
          const interval = clopperPearson(count, trials, confidence);
          if (trials === 0) return expect(interval).toBeUndefined();
          const each = (1 - confidence) / 2;
          if (count > 0) expect(binomialAtLeast(count, trials, interval!.lower)).toBeCloseTo(each, 11);
          else expect(interval!.lower).toBe(0);
          if (others > 0) expect(binomialAtMost(count, trials, interval!.upper)).toBeCloseTo(each, 11);
          else expect(interval!.upper).toBe(1);
        },
      ),
      runs,
    );
  });

  it('so they are at the ends of the interval of a count', () => {
    fc.assert(
      fc.property(fc.nat(500), fc.constantFrom(0.8, 0.95, 0.999), (count, confidence) => {
        const { lower, upper } = countInterval(count, confidence);
        expect(poissonAtMost(count, upper)).toBeCloseTo((1 - confidence) / 2, 11);
        if (count > 0) expect(poissonAtLeast(count, lower)).toBeCloseTo((1 - confidence) / 2, 11);
        else expect(lower).toBe(0);
      }),
      runs,
    );
  });

  it('no time and no cartons have no interval, not one of 0', () => {
    expect(rateInterval({ count: 0, time: 0 }, 0.95)).toBeUndefined();
    expect(wilson(0, 0, 0.95)).toBeUndefined();
    expect(compareRates({ count: 1, time: 0 }, { count: 1, time: 8 }, 0.95)).toBeUndefined();
    expect(pooledTest({ count: 0, trials: 0 }, { count: 1, trials: 5 })).toBeUndefined();
    expect(pooledTest({ count: 0, trials: 4 }, { count: 0, trials: 5 })).toBeUndefined();
  });
});

describe('exact comparisons', () => {
  it('the two-sided chance is the sum of all counts that are no likelier', () => {
    fc.assert(
      fc.property(
        fc.nat(60),
        fc.nat(60),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (count, others, share) => {
          const trials = count + others;
          const most = binomialPoint(count, trials, share) * (1 + 1e-7);
          let sum = 0;
          for (let k = 0; k <= trials; k += 1) {
            const point = binomialPoint(k, trials, share);
            if (point <= most) sum += point;
          }
          const expected = count === trials * share ? 1 : Math.min(1, sum);
          expect(binomialTest(count, trials, share)).toBeCloseTo(expected, 11);
        },
      ),
      runs,
    );
  });

  it('two rates compare the same either way round', () => {
    fc.assert(
      fc.property(fc.nat(40), fc.nat(40), fc.double({ min: 0.1, max: 50, noNaN: true }), (a, b, hours) => {
        const [first, second] = [
          { count: a, time: hours },
          { count: b, time: 8 },
        ];
        const [one, other] = [compareRates(first, second, 0.9)!, compareRates(second, first, 0.9)!];
        expect(one.chance).toBeCloseTo(other.chance, 10);
        expect(one.interval.lower * other.interval.upper || 1).toBeCloseTo(1, 8);
        if (a > 0 && b > 0) expect(one.ratio! * other.ratio!).toBeCloseTo(1, 10);
      }),
      runs,
    );
  });

  it('without stops nothing can be told of two rates, and of one without stops only how small the ratio is', () => {
    expect(compareRates({ count: 0, time: 8 }, { count: 0, time: 8 }, 0.95)).toEqual({
      ratio: undefined,
      interval: { lower: 0, upper: Infinity },
      chance: 1,
    });
    const none = compareRates({ count: 0, time: 8 }, { count: 5, time: 8 }, 0.95)!;
    expect([none.ratio, none.interval.lower]).toEqual([0, 0]);
    // five all in one half: 2 / 2⁵
    expect(none.chance).toBeCloseTo(1 / 16, 12);
    expect(none.interval.upper).toBeLessThan(1.1);
  });

  it('two shares: the lady who tasted four of eight cups right but one, and figures of 40 digits', () => {
    expect(fisherExact({ count: 3, trials: 4 }, { count: 1, trials: 4 })).toBeCloseTo(17 / 35, 12);
    expect(fisherExact({ count: 2, trials: 400 }, { count: 9, trials: 400 })).toBeCloseTo(
      0.063619296170041,
      12,
    );
    const cans = fisherExact({ count: 301, trials: 1400 }, { count: 133, trials: 1200 });
    expect(cans / 7.628399186419381e-13).toBeCloseTo(1, 9);
    expect(fisherExact({ count: 0, trials: 10 }, { count: 0, trials: 5 })).toBe(1);
    expect(fisherExact({ count: 10, trials: 10 }, { count: 5, trials: 5 })).toBe(1);
  });
});
