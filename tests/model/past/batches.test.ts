import { describe, expect, it } from 'vitest';
import { batchLimit } from '../../../model/normal/batchLimit.ts';
import { batchTrend } from '../../../model/past/batches.ts';
import { BATCHES_MEASURED } from '../../../model/normal/measured.ts';
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
/** Three runs of 4,000 cartons in all with 8 rejects, then one of 12 minutes with a bad batch in its third. */
const rows: Rows = [
  ...running(),
  ...run(0, 40, { good: 0, open: 0 }, { 5: 4, 20: 4 }),
  [FIRST, 'state', 11],
  [FIRST + 30, 'state', 6],
  ...run(FIRST + 60, 11, { good: 4000, open: 8 }, { 1: 1, 6: 21, 7: 9 }),
  [FIRST + 60 * 13, 'good', 5100],
];
const runs = [
  { from: at(0), to: at(60 * 15) },
  { from: at(60 * 15), to: at(60 * 27) },
  { from: at(60 * 27), to: at(FIRST) },
  { from: at(FIRST), to: at(FIRST + 60 * 12) },
];

/** What comes one by one, in runs that are all of one level. */
const EVEN = { uneven: 1, spread: 0.05 };

function trend(wish: { from?: number; gaps?: typeof runs; most?: number } = {}) {
  const { fold, of, tallyAt } = recorded(line, rows);
  return batchTrend({
    judged: judgedBy(fold.index, 'fold')!,
    runs,
    from: at(wish.from ?? FIRST),
    tallyAt,
    minutesOf: ({ from, to }) => of('minute').filter((minute) => minute.at >= from && minute.at <= to),
    gaps: wish.gaps ?? [],
    limitOf: (_, past) => batchLimit(past, EVEN),
    most: wish.most ?? 100,
  });
}

describe('batches of a station', () => {
  it('are the first whole minutes that bring 300 cartons, from the run’s beginning on, each with its own cartons', () => {
    const { batches, all, leftOut } = trend();
    // one reject more makes 301; thirty rejects make 330 of three minutes
    expect(batches.map(({ of, counted }) => [of, counted])).toEqual([
      [301, 1],
      [300, 0],
      [330, 30],
    ]);
    expect(batches.map(({ apart }) => apart)).toEqual([true, false, false]);
    expect(all).toBe(3);
    // the last two minutes bring only 200
    expect(leftOut).toBe(200);
  });

  it('are drawn beside the runs with the size before their own run, and never beside themselves', () => {
    const { normal, earlier, batches, above } = trend();
    expect(earlier).toBe(4008);
    // 8 of 4,008 make 0.6 of 300; three runs leave a level that may be somewhat higher
    expect(normal!.mean).toBeGreaterThan(0.55);
    expect(normal!.mean).toBeLessThan(0.85);
    expect(normal).toMatchObject({ onceIn: BATCHES_MEASURED.onceIn, worst: BATCHES_MEASURED.worst });
    expect(batches.map((batch) => batch.above)).toEqual([false, false, true]);
    expect(above).toBe(1);
    expect(batches[2]!.most).toBeLessThan(30);
  });

  it('[NW4] without enough of a past there is no line, and nothing is above it', () => {
    const first = trend({ from: 0 });
    const own = first.batches.filter(({ from }) => from < Date.parse('2026-03-17T05:40:00Z'));
    expect(own).toHaveLength(13);
    expect(own.every(({ most, above }) => most === undefined && !above)).toBe(true);
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
    const { batches, all, above } = trend({ most: 1, from: 0 });
    expect(batches.map(({ counted }) => counted)).toEqual([30]);
    expect([all, above]).toEqual([16, 1]);
  });
});
