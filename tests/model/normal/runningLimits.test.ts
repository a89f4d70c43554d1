import { describe, expect, it } from 'vitest';
import { chancesOf } from '../../../model/normal/chances.ts';
import type { Levels } from '../../../model/normal/levels.ts';
import { type LimitsAsked, runningLimits, runningSums } from '../../../model/normal/runningLimits.ts';
import { binomialLimit } from '../../../model/statistics/falseCallLimit.ts';
import { chancesFrom } from '../statistics/chance.ts';

const known = (rate: number): Levels => ({
  rates: Float64Array.of(rate),
  chances: Float64Array.of(1),
  mean: rate,
});
/** Looks at so many cartons each that may spend the same. */
const spending = (wanted: number, looks: readonly number[]) => looks.map((of) => ({ of, wanted }));
const adding = { parts: 1, reference: () => 0 };

/** Share of simulated runs that call up to each look. */
function called(asked: LimitsAsked, wanted: number, looks: readonly number[], runs: number): number[] {
  const chance = chancesFrom(17);
  const limits = runningLimits(asked, spending(wanted, looks));
  const drawn = (chances: Iterable<number>) => {
    let [rest, count] = [chance(), 0];
    for (const one of chances) {
      rest -= one;
      if (rest < 0) break;
      count += 1;
    }
    return count;
  };
  const tables = [...asked.levels.rates].map((rate) =>
    looks.map((cartons) => chancesOf(rate * cartons, asked.uneven * (1 - rate))),
  );
  const calls = looks.map(() => 0);
  for (let run = 0; run < runs; run += 1) {
    const level = drawn(asked.levels.chances);
    const counts = looks.map((of, look) => ({ count: drawn(tables[level]![look]!), of }));
    const first = runningSums(counts, asked).findIndex((sum, look) => sum >= limits[look]!);
    if (first >= 0) for (let look = first; look < looks.length; look += 1) calls[look]! += 1;
  }
  return calls.map((one) => one / runs);
}

describe('limits of a running sum', () => {
  it('[NW1] are those of coins worked by hand: two tosses, then two more', () => {
    // of two: 1/4, 1/2, 1/4, so that two call with 1/4. What is left, 1/4 at none and 1/2 at one, becomes 1/16, 1/4, 5/16
    // and 1/8 at three; 3/4 of 1/4 may call, and 1/8 + 5/16 would be too much
    const asked = { levels: known(0.5), uneven: 1, ...adding };
    expect(runningLimits(asked, spending(0.25, [2, 2]))).toEqual([2, 3]);
    expect(runningLimits(asked, spending(0.24, [2, 2]))[0]).toBe(3);
  });

  it('[NW1] are at the first look the exact limit of a batch', () => {
    for (const [cartons, rate, wanted] of [
      [300, 0.004, 1 / 1500],
      [317, 0.02, 1 / 18_000],
      [3000, 0.001, 0.01],
    ] as const) {
      const [first] = runningLimits(
        { levels: known(rate), uneven: 1, ...adding },
        spending(wanted, [cartons]),
      );
      expect(first! - 1).toBe(binomialLimit(cartons, rate, wanted).most);
    }
  });

  it('[NW1] [NW2] are passed by chance as often as wished for and no oftener, by sums with a reference and without', () => {
    const levels: Levels = {
      rates: Float64Array.of(0.003, 0.005, 0.009),
      chances: Float64Array.of(0.3, 0.5, 0.2),
      mean: 0.0052,
    };
    const looks = [310, 300, 342, 305, 300, 318, 300, 366, 300, 301, 300, 305];
    const wanted = 0.004;
    const falling = { parts: 4, reference: (cartons: number) => Math.round(4 * 1.44 * 0.0052 * cartons) };
    for (const sum of [adding, falling]) {
      const shares = called({ levels, uneven: 1.3, ...sum }, wanted, looks, 60_000);
      shares.forEach((share, look) => {
        const error = 4 * Math.sqrt((wanted * (look + 1)) / 60_000);
        expect(share).toBeLessThan(wanted * (look + 1) + error);
      });
      // whole counts leave little of it unspent in the end
      expect(shares.at(-1)!).toBeGreaterThan(0.6 * wanted * looks.length);
    }
  });

  it('[NW1] never come down, and are wider where levels are less known', () => {
    const looks = Array.from({ length: 30 }, (_, look) => 300 + (look % 7));
    const of = (levels: Levels) => runningLimits({ levels, uneven: 1, ...adding }, spending(1e-4, looks));
    const wide = of({
      rates: Float64Array.of(0.003, 0.005, 0.008),
      chances: Float64Array.of(0.25, 0.5, 0.25),
      mean: 0.00525,
    });
    const narrow = of(known(0.00525));
    expect(wide).toEqual([...wide].sort((a, b) => a - b));
    expect(wide.every((limit, look) => limit >= narrow[look]!)).toBe(true);
  });
});
