import { describe, expect, it } from 'vitest';
import { binomialPoint } from '../../../model/statistics/binomial.ts';
import {
  binomialChance,
  binomialReference,
  countCusum,
  countCusumDecision,
  countCusumRunLength,
  poissonChance,
} from '../../../model/statistics/countCusum.ts';
import { cusum, cusumRunLength, shewhartRunLength } from '../../../model/statistics/cusum.ts';
import { ewma, ewmaLimit, ewmaRunLength } from '../../../model/statistics/ewma.ts';
import { poissonAtLeast } from '../../../model/statistics/poisson.ts';
import { chancesFrom, normalValue } from './chance.ts';

/** Mean of many runs, with four standard errors, each until a value makes it call. */
function simulated(runs: number, run: () => number): { readonly mean: number; readonly slack: number } {
  let [sum, squares] = [0, 0];
  for (let place = 0; place < runs; place += 1) {
    const length = run();
    sum += length;
    squares += length * length;
  }
  const mean = sum / runs;
  return { mean, slack: 4 * Math.sqrt((squares / runs - mean * mean) / runs) };
}

describe('run lengths', () => {
  it('an EWMA of weight 1 is a chart of single values', () => {
    for (const shift of [0, 0.7])
      expect(ewmaRunLength(1, 2, shift)).toBeCloseTo(shewhartRunLength(2, shift), 6);
  });

  it('an EWMA runs as long as simulated', () => {
    const chance = chancesFrom(3);
    const limit = ewmaLimit(1, 0.2, 2);
    const { mean, slack } = simulated(8000, () => {
      let [length, value] = [0, 0];
      while (Math.abs(value) <= limit) {
        value = 0.2 * (normalValue(chance) + 0.3) + 0.8 * value;
        length += 1;
      }
      return length;
    });
    expect(Math.abs(ewmaRunLength(0.2, 2, 0.3) - mean)).toBeLessThan(slack);
  });

  it('a CUSUM runs as long as simulated, both sides watched', () => {
    const chance = chancesFrom(4);
    const { mean, slack } = simulated(8000, () => {
      let [length, high, low] = [0, 0, 0];
      while (high < 2.5 && low < 2.5) {
        const value = normalValue(chance) + 0.4;
        high = Math.max(0, high + value - 0.5);
        low = Math.max(0, low - value - 0.5);
        length += 1;
      }
      return length;
    });
    expect(Math.abs(cusumRunLength(0.5, 2.5, 0.4) - mean)).toBeLessThan(slack);
  });

  it('a CUSUM of counts that calls at the first part runs as long as until a count above its reference', () => {
    const chart = { parts: 1, reference: 1, decision: 1 };
    expect(countCusumRunLength(poissonChance(0.4), chart)).toBeCloseTo(1 / poissonAtLeast(2, 0.4), 9);
  });

  it('a CUSUM of rejects in samples runs as long as worked out by hand', () => {
    // samples of 2, reference 1, decision 2: from 0 only two rejects move it, to 1, from where one reject holds it
    const [p0, p1, p2] = [0, 1, 2].map((count) => binomialPoint(count, 2, 0.3)) as [number, number, number];
    // L0 = 1 + (p0 + p1) L0 + p2 L1 and L1 = 1 + p0 L0 + p1 L1
    const first = (1 + p2 / (1 - p1)) / (1 - p0 - p1 - (p2 * p0) / (1 - p1));
    const chart = { parts: 1, reference: 1, decision: 2 };
    expect(countCusumRunLength(binomialChance(2, 0.3), chart)).toBeCloseTo(first, 9);
  });

  it('a decision keeps false calls as far apart as wanted, and one part less does not', () => {
    const usual = poissonChance(1);
    const chart = { parts: 2, reference: 3 };
    const decision = countCusumDecision(usual, chart, 500);
    expect(countCusumRunLength(usual, { ...chart, decision })).toBeGreaterThanOrEqual(500);
    expect(countCusumRunLength(usual, { ...chart, decision: decision - 1 })).toBeLessThan(500);
    expect(countCusumDecision(usual, chart, 1)).toBe(1);
  });
});

describe('sums and means', () => {
  it('a sum of counts calls where it reaches the decision, not only above it', () => {
    const chart = { parts: 2, reference: 3, decision: 4 };
    // halves: 2·2 − 3 = 1, then 2·3 − 3 + 1 = 4
    expect(countCusum([0, 2, 3, 0], chart)).toEqual({ sums: [0, 1, 4, 1], alarm: 2 });
    expect(countCusum([0, 2], chart).alarm).toBeUndefined();
  });

  it('so does a sum of values; both sides are kept', () => {
    expect(cusum([1, 2, -3], 0, 0.5, 2)).toEqual({ high: [0.5, 2, 0], low: [0, 0, 2.5], alarm: 1 });
    expect(cusum([0, -3], 0, 0.5, 2).alarm).toBe(1);
    expect(cusum([], 0, 0.5, 2)).toEqual({ high: [], low: [], alarm: undefined });
  });

  it('a mean of weight 1 is the value, its exact limit grows to the fixed one', () => {
    expect(ewma([3, 5], 1, 0)).toEqual([3, 5]);
    expect(ewma([4, 4], 0.5, 0)).toEqual([2, 3]);
    expect(ewmaLimit(2, 0.3, 3, 1)).toBeCloseTo(0.3 * 2 * 3, 12);
    expect(ewmaLimit(2, 0.3, 3, 500)).toBeCloseTo(ewmaLimit(2, 0.3, 3), 12);
  });

  it('the reference of rejects lies between the two shares’ means, and near the Poisson one where they are small', () => {
    const reference = binomialReference(10_000, 0.0002, 0.0004);
    expect(reference).toBeCloseTo(2 / Math.LN2, 2);
    expect(binomialReference(50, 0.1, 0.3)).toBeGreaterThan(5);
    expect(binomialReference(50, 0.1, 0.3)).toBeLessThan(15);
  });
});
