import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { betaBinomialPoints, tailOfRejects } from '../../../model/statistics/betaBinomial.ts';
import { binomialAtLeast, binomialAtMost } from '../../../model/statistics/binomial.ts';
import { cChart, pChart, uChart } from '../../../model/statistics/controlChart.ts';
import {
  binomialLimit,
  binomialLowerLimit,
  negativeBinomialLimit,
  poissonLimit,
  poissonLowerLimit,
} from '../../../model/statistics/falseCallLimit.ts';
import {
  negativeBinomialAtLeast,
  negativeBinomialPoint,
} from '../../../model/statistics/negativeBinomial.ts';
import {
  compareOverdispersed,
  dispersion,
  overdispersedLimit,
} from '../../../model/statistics/overdispersed.ts';
import { poissonAtLeast, poissonAtMost } from '../../../model/statistics/poisson.ts';
import { compareRates } from '../../../model/statistics/poissonRate.ts';
import { chanceAfter, surprise, surpriseLimit } from '../../../model/statistics/surprise.ts';

const wishes = fc.double({ min: Math.log(1e-6), max: Math.log(0.2), noNaN: true }).map(Math.exp);
const runs = { seed: 5, numRuns: 200 };

describe('limits that follow from a wanted chance of a false call', () => {
  it('more than the limit come no oftener than wished for, and one carton less would', () => {
    fc.assert(
      fc.property(
        wishes,
        fc.integer({ min: 1, max: 3000 }),
        fc.double({ min: 0.001, max: 0.5, noNaN: true }),
        (wanted, trials, share) => {
          const { most, byChance } = binomialLimit(trials, share, wanted);
          expect(byChance).toBe(binomialAtLeast(most + 1, trials, share));
          expect(byChance).toBeLessThanOrEqual(wanted);
          if (most > 0) expect(binomialAtLeast(most, trials, share)).toBeGreaterThan(wanted);
          const lower = binomialLowerLimit(trials, share, wanted);
          expect(lower.byChance).toBeLessThanOrEqual(wanted);
          expect(binomialAtMost(lower.least, trials, share)).toBeGreaterThan(wanted);
          const stops = poissonLimit(trials * share, wanted);
          expect(poissonAtLeast(stops.most + 1, trials * share)).toBeLessThanOrEqual(wanted);
          if (stops.most > 0) expect(poissonAtLeast(stops.most, trials * share)).toBeGreaterThan(wanted);
          const few = poissonLowerLimit(trials * share, wanted);
          expect(few.byChance).toBeLessThanOrEqual(wanted);
          expect(poissonAtMost(few.least, trials * share)).toBeGreaterThan(wanted);
          const bursts = negativeBinomialLimit(trials * share, 0.5, wanted);
          expect(negativeBinomialAtLeast(bursts.most + 1, trials * share, 0.5)).toBeLessThanOrEqual(wanted);
        },
      ),
      runs,
    );
  });

  it('of a small sample nothing is too few, and three deviations call oftener than one believes', () => {
    expect(poissonLowerLimit(2, 0.00135)).toEqual({ least: 0, byChance: 0 });
    // three deviations above a mean of 1 is 4; 5 or more come with 0.0037, not 0.00135
    expect(cChart([1, 1, 1])!.points[0]!.upper).toBe(4);
    expect(poissonAtLeast(5, 1)).toBeCloseTo(0.0036598, 7);
    expect(poissonLimit(1, 0.00135)).toEqual({ most: 5, byChance: poissonAtLeast(6, 1) });
    expect(() => poissonLimit(1, 0)).toThrow('Mistake in Scoreline');
  });

  it('charts take stretches of any length, leave out those of none, and have no limit below 0 or above 1', () => {
    const chart = uChart([
      { count: 6, time: 4 },
      { count: 0, time: 0 },
      { count: 2, time: 1 },
      { count: 16, time: 3 },
    ])!;
    // 24 in 8 h: 3 an hour, ± 3 √(3 / time)
    expect(chart.centre).toBe(3);
    expect(chart.points.map(({ value }) => value)).toEqual([1.5, 2, 16 / 3]);
    expect(chart.points.map(({ upper }) => upper)).toEqual([
      3 + 3 * Math.sqrt(0.75),
      3 + 3 * Math.sqrt(3),
      6,
    ]);
    expect(chart.points.map(({ lower, out }) => [lower, out])).toEqual([
      [3 - 3 * Math.sqrt(0.75), false],
      [0, false],
      [0, false],
    ]);
    expect(pChart([{ count: 3, trials: 4 }])!.points[0]!.upper).toBe(1);
    expect([pChart([]), cChart([]), uChart([])]).toEqual([undefined, undefined, undefined]);
  });
});

describe('counts that vary more than by chance', () => {
  const days = [3, 9, 1, 12, 5].map((count) => ({ count, time: 8 }));

  it('how much more is told by Pearson’s statistic, worked out by hand', () => {
    // mean 6: (9 + 9 + 25 + 36 + 1) / 6 / 4
    const told = dispersion(days)!;
    expect(told.rate).toBe(0.75);
    expect(told.factor).toBeCloseTo(80 / 24, 12);
    // chi-square above 80/6 on 4 degrees: (1 + x/2) e^(−x/2)
    expect(told.chance).toBeCloseTo((1 + 40 / 6) * Math.exp(-40 / 6), 12);
    expect(dispersion(days.slice(0, 1))).toBeUndefined();
    expect(
      dispersion([
        { count: 0, time: 8 },
        { count: 0, time: 8 },
      ]),
    ).toBeUndefined();
  });

  it('the chance of a comparison is never smaller than it says, whatever the split', () => {
    const rule = { rate: 1.5, factor: 2.5 };
    for (const all of [5, 17, 40]) {
      // the exact distribution of the first's part: two counts of one factor, given their sum
      const [mine, other] = [(rule.rate * 8) / 1.5, (rule.rate * 20) / 1.5];
      const points = Array.from(
        { length: all + 1 },
        (_, k) => negativeBinomialPoint(k, mine, 0.4) * negativeBinomialPoint(all - k, other, 0.4),
      );
      const sum = points.reduce((total, point) => total + point, 0);
      for (const level of [0.01, 0.05, 0.2]) {
        const rejected = points.reduce((total, point, k) => {
          const chance = compareOverdispersed({ count: k, time: 8 }, { count: all - k, time: 20 }, rule)!;
          return chance <= level ? total + point / sum : total;
        }, 0);
        expect(rejected).toBeLessThanOrEqual(level);
      }
    }
  });

  it('with a factor of 1 it is the plain comparison, just above it nearly so, and larger with more', () => {
    const [first, second] = [
      { count: 18, time: 40 },
      { count: 7, time: 40 },
    ];
    const chance = (factor: number) => compareOverdispersed(first, second, { rate: 0.3, factor })!;
    expect(chance(1)).toBe(compareRates(first, second, 0.95)!.chance);
    expect(chance(0.5)).toBe(chance(1));
    expect(chance(1 + 1e-9)).toBeCloseTo(chance(1), 7);
    expect(chance(2)).toBeGreaterThan(chance(1.2));
    expect(compareOverdispersed(first, { count: 1, time: 0 }, { rate: 0.3, factor: 2 })).toBeUndefined();
  });

  it('its limit is the plain one with a factor of 1, and wider with more', () => {
    expect(overdispersedLimit(8, { rate: 0.5, factor: 1 }, 0.01)).toEqual(poissonLimit(4, 0.01));
    const wide = overdispersedLimit(8, { rate: 0.5, factor: 3 }, 0.01);
    expect(wide.most).toBeGreaterThan(poissonLimit(4, 0.01).most);
    // mean 4 and variance 12: size 2, chance 1/3
    expect(wide.byChance).toBe(negativeBinomialAtLeast(wide.most + 1, 2, 1 / 3));
  });

  it('beta-binomial points add up to 1 and are those of the limits of rejects', () => {
    const points = betaBinomialPoints(40, 3.5, 97.5);
    expect(points.reduce((sum, point) => sum + point, 0)).toBeCloseTo(1, 12);
    for (const least of [1, 3, 8]) {
      const tail = points.slice(least).reduce((sum, point) => sum + point, 0);
      expect(tail).toBeCloseTo(tailOfRejects(least, 40, 3, 100), 12);
    }
    expect([...betaBinomialPoints(0, 2, 2)]).toEqual([1]);
  });
});

describe('surprise', () => {
  it('a thin past surprises less than a long one of the same rate', () => {
    const bits = [1, 10, 100, 10_000].map(
      (times) => surprise({ count: 4, time: 1 }, { count: 0.3 * times - 0.5, time: times })!.bits,
    );
    expect(bits).toEqual(bits.toSorted((a, b) => a - b));
  });

  it('a long past is a known rate, and chances of all counts add up to 1', () => {
    const past = { count: 3_000_000, time: 1e7 };
    expect(surprise({ count: 3, time: 1 }, past)!.chance).toBeCloseTo(poissonAtLeast(3, 0.3), 6);
    const sum = Array.from(
      { length: 60 },
      (_, count) => chanceAfter({ count, time: 2 }, { count: 5, time: 10 })!,
    );
    expect(sum.reduce((total, chance) => total + chance, 0)).toBeCloseTo(1, 12);
  });

  it('its limit follows from the wanted chance, and nothing is told without a past', () => {
    const past = { count: 12, time: 40 };
    const { most, byChance } = surpriseLimit(1, past, 0.005)!;
    expect(byChance).toBe(surprise({ count: most + 1, time: 1 }, past)!.chance);
    expect(byChance).toBeLessThanOrEqual(0.005);
    expect(surprise({ count: most, time: 1 }, past)!.chance).toBeGreaterThan(0.005);
    expect(surprise({ count: 3, time: 1 }, { count: 0, time: 0 })).toBeUndefined();
    expect(surpriseLimit(0, past, 0.01)).toBeUndefined();
  });
});
