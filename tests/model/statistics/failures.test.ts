import { describe, expect, it } from 'vitest';
import { chiSquareAbove } from '../../../model/statistics/chiSquare.ts';
import { laplaceTrend } from '../../../model/statistics/laplaceTrend.ts';
import { mtbfBounds, mtbfLowerBound } from '../../../model/statistics/mtbfBounds.ts';
import { changePosterior, poissonChanges } from '../../../model/statistics/poissonChange.ts';
import { countInterval } from '../../../model/statistics/poissonRate.ts';
import { powerLaw } from '../../../model/statistics/powerLaw.ts';
import {
  chanceOfPairs,
  gapsBetween,
  reverseArrangements,
} from '../../../model/statistics/reverseArrangements.ts';

describe('mean time between failures', () => {
  it('its bounds are those of the count of failures, turned round', () => {
    for (const failures of [1, 4, 30]) {
      const bounds = mtbfBounds(500, failures, 0.9)!;
      const { lower, upper } = countInterval(failures, 0.9);
      expect(bounds.lower).toBeCloseTo(500 / upper, 9);
      expect(bounds.upper).toBeCloseTo(500 / lower, 9);
    }
  });

  it('without a failure there is no mean and no upper bound, and the lower one is exact', () => {
    const none = mtbfBounds(480, 0, 0.9)!;
    expect([none.mtbf, none.upper]).toEqual([undefined, Infinity]);
    expect(none.lower).toBeCloseTo(480 / -Math.log(0.05), 9);
    expect(mtbfLowerBound(480, 0, 0.95)).toBeCloseTo(480 / -Math.log(0.05), 9);
    expect([mtbfBounds(0, 0, 0.9), mtbfLowerBound(0, 0, 0.9), mtbfBounds(480, 0, 0.9, 'failure')]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});

describe('trend of failures', () => {
  it('evenly spread failures show none, late ones show more, and none shows nothing', () => {
    expect(laplaceTrend([10, 30, 50, 70, 90], 100)).toEqual({ z: 0, chance: 1 });
    expect(laplaceTrend([70, 80, 90, 95], 100)!.z).toBeGreaterThan(2);
    expect(laplaceTrend([], 100)).toBeUndefined();
    expect(laplaceTrend([100], 100, 'failure')).toBeUndefined();
    expect(powerLaw([], 100)).toBeUndefined();
    expect(powerLaw([100], 100, 'failure')).toBeUndefined();
    expect(reverseArrangements([3])).toBeUndefined();
  });

  it('where the time ended with a failure, that one only marks the end', () => {
    const told = powerLaw([20, 50, 100], 100, 'failure')!;
    const sum = Math.log(5) + Math.log(2);
    expect(told.statistic).toBeCloseTo(2 * sum, 12);
    expect([told.degrees, told.rarer]).toEqual([4, chiSquareAbove(told.statistic, 4)]);
    expect(told.rarer + told.moreFrequent).toBeCloseTo(1, 12);
    expect(told.shape).toBeCloseTo(3 / sum, 12);
    expect(told.shapeCorrected).toBeCloseTo(1 / sum, 12);
    expect(powerLaw([40], 100)!.shapeCorrected).toBeUndefined();
    expect(powerLaw([40], 100)!.mtbfNowCorrected).toBeUndefined();
  });

  it('the chance of a number of pairs is the share of all orders that have it', () => {
    const orders = permutations([1, 2, 3, 4, 5, 6]);
    expect(orders).toHaveLength(720);
    for (const least of [0, 5, 8, 12, 15]) {
      const share = orders.filter((order) => reverseArrangements(order)!.later >= least).length / 720;
      expect(chanceOfPairs(least, 6)).toBeCloseTo(share, 12);
    }
    expect(reverseArrangements([5, 9, 9])).toEqual({ later: 2, pairs: 3, chance: undefined });
    expect(gapsBetween([4, 9, 9], 1)).toEqual([3, 5, 0]);
  });
});

describe('a change of rate', () => {
  it('lies where the counts change, and its places have chances that add up to 1', () => {
    const counts = [6, 7, 5, 6, 1, 0, 1, 2];
    expect(poissonChanges(counts)[0]).toMatchObject({ after: 4, rateBefore: 6, rateAfter: 1 });
    const chances = changePosterior(counts, 2, 1);
    expect(chances).toHaveLength(7);
    expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 12);
    expect(Math.max(...chances)).toBe(chances[3]);
    expect(poissonChanges([4])).toEqual([]);
  });

  it('a part without any is no trouble', () => {
    expect(poissonChanges([0, 0, 5])[0]).toMatchObject({ after: 2, rateBefore: 0, rateAfter: 5 });
  });
});

function permutations(values: readonly number[]): number[][] {
  if (values.length <= 1) return [[...values]];
  return values.flatMap((value, place) =>
    permutations(values.toSpliced(place, 1)).map((rest) => [value, ...rest]),
  );
}
