import { describe, expect, it } from 'vitest';
import { clusterAfterwards, mostWithin } from '../../../model/statistics/clusterAfterwards.ts';
import {
  chanceOfCluster,
  chanceOfPair,
  metRate,
  newAlarmRate,
  smallestCount,
  timeBetweenClusters,
} from '../../../model/statistics/scanStatistic.ts';
import { chancesFrom, poissonStream } from './chance.ts';

/** How often a rule was met by a stop, and how often anew, as somebody would count it who watches. */
function watched(moments: readonly number[], window: number, count: number) {
  let [met, anew, armed, first] = [0, 0, true, 0];
  for (const [place, at] of moments.entries()) {
    while (moments[first]! <= at - window) {
      first += 1;
      // it re-arms when the oldest falls out and fewer are left
      if (place - first < count) armed = true;
    }
    if (place - first + 1 < count) armed = true;
    else {
      met += 1;
      if (armed) anew += 1;
      armed = false;
    }
  }
  return { met, anew };
}

describe('clusters by chance', () => {
  it('new calls and met stops come as often as in a simulated year of running time', () => {
    const rule = { rate: 1, window: 0.5, count: 3 };
    const hours = 60_000;
    const { met, anew } = watched(poissonStream(chancesFrom(1), rule.rate, hours), rule.window, rule.count);
    // calls come in clumps, so their spread is somewhat above that of a Poisson count
    expect(Math.abs(anew / hours - newAlarmRate(rule))).toBeLessThan((5 * Math.sqrt(anew)) / hours);
    expect(Math.abs(met / hours - metRate(rule))).toBeLessThan((7 * Math.sqrt(met)) / hours);
    expect(metRate(rule)).toBeCloseTo(1 - 1.5 * Math.exp(-0.5), 12);
  });

  it('a cluster in a shift comes as often as in simulated shifts', () => {
    const chance = chancesFrom(2);
    const shifts = 20_000;
    let seen = 0;
    for (let place = 0; place < shifts; place += 1)
      if ((mostWithin(poissonStream(chance, 1, 8), 0.5)?.count ?? 0) >= 4) seen += 1;
    const told = chanceOfCluster({ rate: 1, window: 0.5, count: 4 }, 8)!;
    expect(Math.abs(seen / shifts - told)).toBeLessThan(4 * Math.sqrt((told * (1 - told)) / shifts));
  });

  it('of two stops the product is exact for two and three windows', () => {
    const rule = { rate: 0.7, window: 0.4, count: 2 };
    for (const windows of [2, 3])
      expect(chanceOfCluster(rule, windows * 0.4)).toBeCloseTo(chanceOfPair(0.7, 0.4, windows * 0.4), 12);
    expect(chanceOfCluster(rule, 0.5)).toBeUndefined();
    expect(chanceOfPair(0.7, 0.4, 0)).toBe(0);
  });

  it('where clusters are rare they come as often as new calls', () => {
    const rule = { rate: 0.5, window: 0.25, count: 4 };
    expect(timeBetweenClusters(rule) * newAlarmRate(rule)).toBeCloseTo(1, 1);
  });

  it('the least count is above the usual one even where fewer would be new seldom', () => {
    // 20 are usual: a rule of one stop is new only after an hour without any
    expect(newAlarmRate({ rate: 20, window: 1, count: 1 })).toBeLessThan(1e-7);
    expect(smallestCount(20, 1, 0.01)).toBeGreaterThan(30);
    expect(smallestCount(0.001, 0.1, 1)).toBe(2);
    expect(() => smallestCount(1, 1, 0)).toThrow('Mistake in Scoreline');
  });
});

describe('clusters afterwards', () => {
  it('the most within a window leave out what lies a whole window back', () => {
    expect(mostWithin([0, 1, 1, 2, 4], 2)).toEqual({ count: 3, place: 2 });
    expect(mostWithin([0, 1, 1, 2, 4], 2.01)).toEqual({ count: 4, place: 3 });
    expect(mostWithin([], 2)).toBeUndefined();
  });

  it('they come as often as in simulated shifts where the formula is exact', () => {
    const chance = chancesFrom(6);
    for (const [count, all, share] of [
      [4, 6, 0.1],
      [2, 5, 0.05],
    ] as const) {
      let seen = 0;
      for (let place = 0; place < 20_000; place += 1) {
        const moments = Array.from({ length: all }, chance).sort((a, b) => a - b);
        if (mostWithin(moments, share)!.count >= count) seen += 1;
      }
      const told = clusterAfterwards(count, all, share);
      expect(told.exact).toBe(true);
      expect(Math.abs(seen / 20_000 - told.chance)).toBeLessThan(
        4 * Math.sqrt((told.chance * (1 - told.chance)) / 20_000),
      );
    }
  });

  it('says where it is not exact, and stays a chance', () => {
    expect(clusterAfterwards(3, 8, 1 / 16).exact).toBe(false);
    // simulated: 1, and 0.203; the bare formula has 0.655 for the first
    expect(clusterAfterwards(3, 30, 0.2)).toEqual({ chance: 1, exact: false });
    expect(clusterAfterwards(12, 30, 0.2).chance).toBeCloseTo(0.203, 2);
    expect(clusterAfterwards(5, 4, 0.1)).toEqual({ chance: 0, exact: true });
    expect(clusterAfterwards(1, 4, 0.1)).toEqual({ chance: 1, exact: true });
    expect(clusterAfterwards(2, 30, 0.1)).toEqual({ chance: 1, exact: true });
  });
});
