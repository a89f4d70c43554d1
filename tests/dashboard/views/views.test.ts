import { describe, expect, it } from 'vitest';
import { sum } from './build.ts';
import { views } from './views.ts';

/** The long one is there for its length alone: its numbers are not of one shift. */
const { long: _long, ...ofOneShift } = views;

describe.each(Object.entries(ofOneShift))('the fixed view %s agrees with itself', (_name, view) => {
  it('[LO2] cartons lost are possible less good, by station and by cause, without a rest', () => {
    const { path } = view;
    expect(path.total).toBe(path.possible - path.good);
    expect(path.stations.reduce((lostSum, station) => lostSum + station.lost, 0) + path.none.lost).toBe(
      path.total,
    );
    for (const station of path.stations) expect(sum(station.causes)).toBe(station.lost);
    expect(sum(path.causes)).toBe(path.total);
  });

  it('[PL2] behind plan is planned so far less good', () => {
    expect(view.plan.behind).toBe(view.plan.plannedSoFar - view.plan.good);
    expect(view.plan.good).toBe(view.path.good);
  });

  it('the strip holds the shift’s good cartons and never more points than it may', () => {
    const { buckets } = view.trend;
    expect(buckets.length).toBeLessThanOrEqual(480);
    const made = buckets.reduce((all, { rate }) => all + (rate ?? 0), 0);
    if (view.sight.coverage === 1 && view.trend.now <= view.at)
      expect(Math.abs(made - view.path.good)).toBeLessThanOrEqual(1);
  });
});
