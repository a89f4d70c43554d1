import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { levelsOf, spreadBy } from '../../../model/normal/levels.ts';
import { predicted } from '../../../model/normal/predicted.ts';
import { unevenness, wander } from '../../../model/normal/scatter.ts';
import { SETTINGS } from '../../../model/normal/settings.ts';

const runs = (...counts: readonly number[]) => counts.map((count) => ({ count, of: 10_000 }));
const range = (counts: readonly number[]) =>
  predicted(levelsOf(runs(...counts), 'rejects'), { of: 10_000, uneven: 1, share: 0.95 });

describe('levels that a run may have', () => {
  it('[NW4] are spread wider by few runs than by many that are as unlike', () => {
    const few = range([40, 60, 50]);
    const many = range(Array.from({ length: 30 }, (_, place) => [40, 60, 50][place % 3]!));
    expect(few.interval.lower).toBeLessThan(many.interval.lower);
    expect(few.interval.upper).toBeGreaterThan(1.3 * many.interval.upper);
    expect(many.expected).toBeGreaterThan(48);
    expect(many.expected).toBeLessThan(54);
  });

  it('[NW1] are spread by how unlike runs are, with the run as the unit', () => {
    const alike = range(Array.from({ length: 20 }, (_, place) => 48 + (place % 5)));
    const unlike = range(Array.from({ length: 20 }, (_, place) => 10 + 20 * (place % 5)));
    // Poisson counts of a mean of 50 lie from 37 to 64; runs from 10 to 90 are no Poisson counts
    expect(alike.interval.upper).toBeLessThan(72);
    expect(unlike.interval.upper).toBeGreaterThan(90);
    expect(unlike.interval.lower).toBeLessThan(15);
  });

  it('[NW3] of stops are never nothing, however few there were', () => {
    const none = levelsOf(runs(0, 0, 0, 0), 'stops');
    expect(none.mean).toBeGreaterThan(0);
    expect(predicted(none, { of: 10_000, uneven: 1, share: 0.95 }).interval.lower).toBe(0);
    expect(predicted(none, { of: 10_000, uneven: 1, share: 0.95 }).interval.upper).toBeGreaterThan(0);
  });

  it('add up to 1, with their mean near that of the runs', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 400 }), { minLength: 3, maxLength: 40 }),
        fc.constantFrom('rejects' as const, 'stops' as const),
        (counts, kind) => {
          const { chances, rates, mean } = levelsOf(runs(...counts), kind);
          expect(chances.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 6);
          expect(rates).toEqual(rates.toSorted());
          const pooled = counts.reduce((sum, one) => sum + one, 0) / counts.length / 10_000;
          expect(mean).toBeGreaterThan(pooled / 2);
          expect(mean).toBeLessThan(pooled * 3);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('stay where they are when spread, and add up to 1', () => {
    const levels = levelsOf(runs(40, 60, 50, 52), 'rejects');
    const wider = spreadBy(levels, 0.3);
    expect(wider.chances.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 6);
    // a factor whose logarithm is normal has the mean e^(0.3²/2)
    expect(wider.mean / levels.mean).toBeCloseTo(Math.exp(0.045), 1);
  });
});

describe('how unevenly rejects come within a run', () => {
  const { unevenFirst, unevenWeight, wanderFirst, wanderWeight } = SETTINGS;

  it('[NW1] is Pearson’s statistic to its degrees, held to what is assumed first by so many', () => {
    // a mean of 3 of 300: (0 + 9 + 9) / (3 × 0.99) on two degrees
    const batches = [3, 0, 6].map((count) => ({ count, of: 300 }));
    const pearson = 18 / (3 * 0.99);
    expect(unevenness([batches])).toBeCloseTo(
      (pearson + unevenWeight * unevenFirst) / (2 + unevenWeight),
      12,
    );
    expect(unevenness([])).toBe(unevenFirst);
    const even = Array.from({ length: 500 }, () => ({ count: 3, of: 300 }));
    expect(unevenness([even])).toBe(1);
  });

  it('[NW2] is from half to half what chance leaves unexplained, worked by hand', () => {
    const halves = [
      { count: 100, of: 5000 },
      { count: 200, of: 5000 },
    ] as const;
    // (100 × 5000 − 200 × 5000)² less 5000² × 300, to 5000² × 100 × 200
    const found = (100 ** 2 - 300) / 20_000;
    expect(wander([halves], 1)).toBeCloseTo(
      Math.sqrt((found + wanderWeight * wanderFirst ** 2) / (1 + wanderWeight)),
      12,
    );
    expect(wander([], 1)).toBeCloseTo(wanderFirst, 12);
  });
});
