import { describe, expect, it } from 'vitest';
import { drawsFrom, normalFrom } from '../../../model/statistics/draws.ts';
import { logGamma } from '../../../model/statistics/logGamma.ts';
import { logRise } from '../../../model/statistics/logRise.ts';
import { type Density, metropolis } from '../../../model/statistics/metropolis.ts';

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function varianceOf(values: readonly number[]): number {
  const mean = meanOf(values);
  return meanOf(values.map((value) => (value - mean) ** 2));
}

/** A density of some numbers, asked for whole each time. */
function densityOf(start: readonly number[], log: (numbers: Float64Array) => number): Density {
  const numbers = Float64Array.from(start);
  let last: readonly [number, number] = [0, 0];
  return {
    numbers,
    scales: start.map(() => 1),
    tried: (place, value) => {
      last = [place, value];
      const changed = Float64Array.from(numbers);
      changed[place] = value;
      return log(changed) - log(numbers);
    },
    take: () => {
      numbers[last[0]] = last[1];
    },
  };
}

describe('numbers drawn by a seed', () => {
  it('are the published first outputs of mulberry32, and even', () => {
    // the generator's author gives its state step 0x6D2B79F5; worked by hand with whole numbers of 32 bits for seed 0
    const draw = drawsFrom(0);
    expect(draw() * 4_294_967_296).toBe(1_144_304_738);
    const many = Array.from({ length: 20_000 }, drawsFrom(5));
    expect(meanOf(many)).toBeCloseTo(0.5, 2);
    expect(varianceOf(many)).toBeCloseTo(1 / 12, 2);
  });

  it('make normal numbers of mean 0 and variance 1, of which one in twenty is beyond 1.96', () => {
    const draw = drawsFrom(7);
    const many = Array.from({ length: 40_000 }, () => normalFrom(draw));
    expect(Math.abs(meanOf(many))).toBeLessThan(0.02);
    expect(varianceOf(many)).toBeCloseTo(1, 1);
    expect(many.filter((one) => Math.abs(one) > 1.96).length / many.length).toBeCloseTo(0.05, 2);
  });
});

describe('the logarithm of a rising factorial', () => {
  it('is that of a product where it has whole steps, and that of two gamma functions otherwise', () => {
    expect(logRise(1, 5)).toBeCloseTo(Math.log(120), 10);
    expect(logRise(2.5, 3)).toBeCloseTo(Math.log(2.5 * 3.5 * 4.5), 10);
    expect(logRise(0.05, 0)).toBe(0);
    for (const [k, y] of [
      [0.05, 0.3],
      [3.7, 41.2],
      [400, 3],
      [2000, 900.5],
    ] as const)
      expect(logRise(k, y)).toBeCloseTo(logGamma(k + y) - logGamma(k), 8);
  });
});

describe('a chain drawn from a density', () => {
  const chain = { sweeps: 40_000, burnIn: 2_000, keepEvery: 1 };

  it('has the mean and variance of a gamma distribution, drawn on its logarithm', () => {
    // shape 3, rate 2: mean 3/2, variance 3/4
    const kept = metropolis(
      densityOf([0], ([log]) => 3 * log! - 2 * Math.exp(log!)),
      { ...chain, draw: drawsFrom(1) },
    ).map(([log]) => Math.exp(log!));
    expect(meanOf(kept)).toBeCloseTo(1.5, 1);
    expect(varianceOf(kept)).toBeCloseTo(0.75, 1);
  });

  it('has the covariance of two normal numbers that hang together, and is the same each time', () => {
    const log = ([x, y]: Float64Array) => -(x! * x! - 2 * 0.8 * x! * y! + y! * y!) / (2 * (1 - 0.8 ** 2));
    const drawn = () => metropolis(densityOf([3, -3], log), { ...chain, draw: drawsFrom(2) });
    const kept = drawn();
    expect(meanOf(kept.map(([x, y]) => x! * y!))).toBeCloseTo(0.8, 1);
    expect(varianceOf(kept.map(([x]) => x!))).toBeCloseTo(1, 1);
    expect(drawn()).toEqual(kept);
  });

  it('is the posterior of a rate after counts, whose form is known: gamma of all counts by all cartons', () => {
    // 4 and 9 spoiled in 1 and 2 thousand, prior 1/rate: shape 13, rate 3
    const kept = metropolis(
      densityOf([1], ([log]) => 13 * log! - 3 * Math.exp(log!)),
      { ...chain, draw: drawsFrom(3) },
    ).map(([log]) => Math.exp(log!));
    kept.sort((a, b) => a - b);
    // chi-square tables: gamma quantiles of shape 13 are half of those of 26 degrees, 15.379 and 38.885
    expect(kept[Math.round(0.05 * kept.length)]! / (15.379 / 2 / 3)).toBeCloseTo(1, 1);
    expect(kept[Math.round(0.95 * kept.length)]! / (38.885 / 2 / 3)).toBeCloseTo(1, 1);
  });
});
