import { describe, expect, it } from 'vitest';
import { batchTrend } from '../../../model/past/batches.ts';
import { judgedBy } from '../../../model/past/stationCounts.ts';
import { at, type Rows, running, smallLine } from '../smallLine.ts';
import { recorded } from './recorded.ts';

const line = smallLine();

/** So many minutes of a hundred good cartons each, and rejects at fold in some of them, by minute of the run. */
function run(
  from: number,
  minutes: number,
  first: { readonly good: number; readonly open: number },
  rejects: Readonly<Record<number, number>> = {},
): Rows {
  let { good, open } = first;
  return Array.from({ length: minutes }, (_, minute) => {
    const second = from + 60 * minute;
    good += 100;
    open += rejects[minute] ?? 0;
    return [
      [second + 20, 'rejectOpen', open],
      [second + 30, 'good', good],
    ] as Rows;
  }).flat();
}

const FIRST = 40 * 60;
/** A run of 4,000 cartons with 8 rejects, then one of 12 minutes with a bad batch in its third. */
const rows: Rows = [
  ...running(),
  ...run(0, 40, { good: 0, open: 0 }, { 5: 4, 20: 4 }),
  [FIRST, 'state', 11],
  [FIRST + 30, 'state', 6],
  ...run(FIRST + 60, 11, { good: 4000, open: 8 }, { 1: 1, 6: 9, 7: 3 }),
  [FIRST + 60 * 13, 'good', 5100],
];
const runs = [
  { from: at(0), to: at(FIRST) },
  { from: at(FIRST), to: at(FIRST + 60 * 12) },
];

function trend(wish: { from?: number; gaps?: typeof runs; most?: number } = {}) {
  const { fold, of, tallyAt } = recorded(line, rows);
  return batchTrend({
    judged: judgedBy(fold.index, 'fold')!,
    runs,
    from: at(wish.from ?? FIRST),
    tallyAt,
    minutesOf: ({ from, to }) => of('minute').filter((minute) => minute.at >= from && minute.at <= to),
    gaps: wish.gaps ?? [],
    most: wish.most ?? 100,
  });
}

describe('batches of a station', () => {
  it('are the first whole minutes that bring 300 cartons, from the run’s beginning on, each with its own cartons', () => {
    const { batches, all, leftOut } = trend();
    // one reject more makes 301; twelve rejects make 312 of three minutes
    expect(batches.map(({ of, counted }) => [of, counted])).toEqual([
      [301, 1],
      [300, 0],
      [312, 12],
    ]);
    expect(batches.map(({ apart }) => apart)).toEqual([true, false, false]);
    expect(all).toBe(3);
    // the last two minutes bring only 200
    expect(leftOut).toBe(200);
  });

  it('[RJ1] are held against the runs with the size before their own run, and never against themselves', () => {
    const { normal, earlier, batches, outside } = trend();
    expect(earlier).toBe(4008);
    expect(normal!.mean).toBeCloseTo((300 * 8) / 4008, 10);
    expect(normal!.onceIn).toBeGreaterThanOrEqual(1500);
    expect(batches.map((batch) => batch.outside)).toEqual([false, false, true]);
    expect(outside).toBe(1);
    expect(batches[2]!.most).toBeLessThan(12);
  });

  it('[RJ1] without enough of a past there is no limit, and nothing is outside', () => {
    const first = trend({ from: 0 });
    const own = first.batches.filter(({ from }) => from < Date.parse('2026-03-17T05:40:00Z'));
    expect(own).toHaveLength(13);
    expect(own.every(({ most, outside }) => most === undefined && !outside)).toBe(true);
  });

  it('[CV1] what came beside time that nobody saw is in no batch, and nothing is joined across it', () => {
    const gaps = [{ from: at(FIRST + 60 * 2 + 5), to: at(FIRST + 60 * 2 + 10) }];
    const { batches, leftOut } = trend({ gaps });
    // the run’s first 300 are left out with it
    expect(batches.map(({ apart }) => apart)).toEqual([true, false, false]);
    expect(batches[0]!.from).toBe(Date.parse('2026-03-17T05:43:00Z'));
    expect(leftOut).toBe(201);
  });

  it('shows the newest of them, and says how many there were', () => {
    const { batches, all, outside } = trend({ most: 1, from: 0 });
    expect(batches.map(({ counted }) => counted)).toEqual([12]);
    expect([all, outside]).toEqual([16, 1]);
  });
});
