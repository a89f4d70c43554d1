import { describe, expect, it } from 'vitest';
import { CELLS_MOST, cellsOf } from '../../../model/past/balanceCells.ts';
import { balancePast } from '../../../model/past/balancePast.ts';
import { orderBalances } from '../../../model/past/orderBalance.ts';
import type { RecordBodies } from '../../../model/records/records.ts';
import { epochMs, HOUR, type Instant, MINUTE } from '../../../model/units/units.ts';
import { countedLine } from '../handWorked.ts';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import { at, goods, MORNING, type Rows, running, smallLine } from '../smallLine.ts';
import { recorded } from './recorded.ts';

const line = countedLine();
const index = indexOf(line);
const minute = (n: number) => (MORNING + n * MINUTE) as Instant;
type Flow = NonNullable<RecordBodies['minute']['flow']>;
type Told = readonly [number, Flow | null];

/** Minutes in which nothing but this was told: after so many minutes, picked, good, rejected, crushed, in pockets, unaccounted. */
function balance(
  told: readonly Told[],
  to: number,
  more: Partial<Pick<Parameters<typeof balancePast>[0], 'gaps' | 'entries' | 'from'>> = {},
) {
  const minutes = told.map(([n, flow]) => ({ at: minute(n), flow }));
  return balancePast({
    index,
    from: minute(0),
    to: minute(to),
    counted: true,
    begun: minute(0),
    gaps: [],
    entries: [],
    minuteAt: (when) => minutes.findLast((one) => one.at <= when),
    minutesIn: (stretch) => minutes.filter((one) => one.at > stretch.from && one.at <= stretch.to),
    ...more,
  });
}

function takenOut(n: number, cartons: number, why: 'sample' | 'byHand' | 'broughtBack') {
  const author = { kind: 'position', position: 'front' } as const;
  const entry = { id: `e${n}`, at: epochMs(minute(n)), author, kind: 'takenOut', cartons, why } as const;
  return { at: minute(n), entry };
}

describe('the balance of a stretch', () => {
  it('[BA1] begins where the pockets were known first, and adds up', () => {
    const { parts, points, unknown } = balance(
      [
        [1, [50, 30, 0, 0, null, null]],
        [2, [100, 78, 2, 0, 20, 0]],
        [60, [3000, 2960, 10, 3, 25, 2]],
        [90, [4500, 4440, 18, 3, 25, 14]],
      ],
      90,
    );
    expect(parts).toEqual({
      from: epochMs(minute(2)),
      to: epochMs(minute(90)),
      before: 20,
      picked: 4400,
      good: 4362,
      rejected: 16,
      crushed: 3,
      inPockets: 25,
      takenOut: 0,
      sample: 0,
      byHand: 0,
      broughtBack: 0,
      unaccounted: 14,
      notSeen: 0,
    });
    expect(points.map(({ picked, unaccounted }) => [picked, unaccounted])).toEqual([
      [3000, 2],
      [1500, 14],
    ]);
    expect(unknown).toEqual([]);
  });

  it('[BA1] what a counter that began anew did not count is told apart, and is not unaccounted for', () => {
    const { parts } = balance(
      [
        [1, [100, 80, 0, 0, 20, 1]],
        // good was reset: forty were made that it never showed
        [2, [160, 100, 0, 0, null, null]],
        [4, [240, 178, 0, 0, 20, 1]],
      ],
      5,
    );
    expect(parts).toMatchObject({
      before: 20,
      picked: 140,
      good: 98,
      inPockets: 20,
      unaccounted: 0,
      notSeen: 42,
    });
  });

  it('[BA4] what was entered is taken from the unaccounted, from its moment on', () => {
    const { parts, points, changes } = balance(
      [
        [1, [100, 80, 0, 0, 20, 0]],
        [50, [3000, 2970, 0, 0, 25, 5]],
        [110, [6000, 5970, 0, 0, 25, 5]],
        [130, [7000, 6971, 0, 0, 25, 4]],
      ],
      130,
      { entries: [takenOut(65, 4, 'sample'), takenOut(128, 1, 'broughtBack')] },
    );
    expect(parts).toMatchObject({ takenOut: 3, sample: 4, byHand: 0, broughtBack: 1, unaccounted: 1 });
    expect(points.map(({ unaccounted }) => unaccounted)).toEqual([5, 1, 1]);
    expect(changes).toMatchObject([
      { to: epochMs(minute(50)), by: 5, entered: 4 },
      { to: epochMs(minute(130)), by: -1, entered: -1 },
    ]);
  });

  it('[BA3] where the pockets are not known at the end of a part nothing is told, and the next part goes on', () => {
    const { points, parts, unknown } = balance(
      [
        [1, [100, 80, 0, 0, 20, 0]],
        [29, [1000, 980, 0, 0, 20, 0]],
        [95, [2000, 1900, 0, 0, null, null]],
        [150, [3000, 2972, 0, 0, 25, 3]],
      ],
      180,
      { gaps: [{ from: minute(30), to: minute(90), kind: 'unknown' }] },
    );
    expect(points.map(({ unaccounted }) => unaccounted)).toEqual([undefined, undefined, 3]);
    expect(points.map(({ picked }) => picked)).toEqual([1000, 1000, 1000]);
    expect(parts).toMatchObject({ picked: 2900, unaccounted: 3, notSeen: 0 });
    expect(unknown).toEqual([{ from: epochMs(minute(30)), to: epochMs(minute(90)) }]);
  });

  it('[BA3] where they were never known there are no parts, and all of it is told as unknown', () => {
    const { parts, points, changes, unknown } = balance([[1, [100, 80, 0, 0, null, null]]], 60);
    expect([parts, changes]).toEqual([undefined, []]);
    expect(points).toMatchObject([{ picked: 100, unaccounted: undefined }]);
    expect(unknown).toEqual([{ from: epochMs(minute(0)), to: epochMs(minute(60)) }]);
  });

  it('[BA1] a line without the counters for it has none', () => {
    const none = balancePast({
      index: indexOf(smallLine()),
      from: minute(0),
      to: minute(60),
      counted: false,
      begun: minute(0),
      gaps: [],
      entries: [],
      minuteAt: () => undefined,
      minutesIn: () => [],
    });
    expect(none).toMatchObject({ counted: false, parts: undefined, unknown: [], changes: [] });
    expect(none.points.map(({ picked }) => picked)).toEqual([undefined]);
  });

  it('[BA2] finds the largest changes of a long stretch among many small ones', () => {
    const told: Told[] = [];
    let missing = 0;
    for (let n = 1; n <= 10 * 24 * 60; n += 1) {
      if (n % 1000 === 7) missing += 1;
      if (n === 9_003) missing += 30;
      if (n === 11_555) missing -= 12;
      told.push([n, [n * 50 + missing, n * 50 - 25, 0, 0, 25, missing]]);
    }
    const { changes, step, points } = balance(told, 10 * 24 * 60);
    expect(changes.slice(0, 2)).toMatchObject([
      { from: epochMs(minute(9_002)), to: epochMs(minute(9_003)), by: 30 },
      { from: epochMs(minute(11_554)), to: epochMs(minute(11_555)), by: -12 },
    ]);
    expect(changes.slice(2).map(({ by }) => by)).toEqual([1, 1, 1, 1, 1, 1]);
    expect([step, points.length]).toEqual(['shift', 30]);
    expect(points[0]).toMatchObject({ name: 'early shift' });
  });
});

describe('parts of a stretch', () => {
  const of = (days: number, hours = 0) => {
    const from = (MORNING + hours * HOUR) as Instant;
    return cellsOf(line, { from, to: (from + days * 24 * HOUR) as Instant });
  };

  it('are hours of two days, shifts of some weeks, and days of more, never more than 160', () => {
    expect(of(1)).toMatchObject({ step: 'hour', days: 1 });
    expect(of(2).cells.length).toBe(48);
    expect(of(30)).toMatchObject({ step: 'shift' });
    expect(of(10).cells.length).toBe(30);
    expect(of(100)).toMatchObject({ step: 'day', days: 1 });
    expect(of(365)).toMatchObject({ step: 'day', days: 3 });
    const lengths = Array.from({ length: 120 }, (_, n) => 150 + 3 * n);
    for (const days of [1, 3, 53, 54, ...lengths, 1000, 1120, 1121, 200_000]) {
      const { cells } = of(days, 0.3);
      expect(cells.length).toBeLessThanOrEqual(CELLS_MOST);
      for (const [place, cell] of cells.entries()) expect(cells[place + 1]?.from ?? cell.to).toBe(cell.to);
    }
  });

  it('are days from midnight to midnight where the clock is set, too', () => {
    const { cells } = of(100);
    const day = cells.find(({ from }) => epochMs(from) === Date.parse('2026-03-28T23:00:00Z'))!;
    // 29 March: the clock goes on from 2 to 3
    expect((day.to - day.from) / HOUR).toBe(23);
  });
});

describe('orders of a stretch', () => {
  const rows: Rows = [
    ...running(),
    [0.5, 'order', '7701'],
    ...goods(61, 160, 1),
    [250, 'order', '7702'],
    ...goods(311, 580, 101),
    [580.5, 'order', '7703'],
    ...goods(581, 680, 371),
  ];
  const asked = (to: number, entries: readonly (readonly [string, number])[] = []) => {
    const { fold, of, tallyAt } = recorded(smallLine(), rows);
    return orderBalances({
      index: fold.index,
      from: at(0),
      to: at(to),
      now: at(681),
      orders: of('order'),
      sizes: of('size'),
      gaps: [],
      kept: [],
      entries: entries.map(([order, cartons], n) => ({
        at: at(650 + n),
        entry: {
          id: `h${n}`,
          at: epochMs(at(650 + n)),
          author: { kind: 'screen', screen: 'desk' },
          kind: 'handedOver',
          order,
          cartons,
        },
      })),
      tallyAt: (when) => (when >= at(681) ? fold.state.tally : tallyAt(when)),
      tallyFrom: (from, until) => of('minute').find((one) => one.at >= from && one.at < until)?.tally,
    });
  };

  it('[OR3] an order that ends while the line stands is counted exactly, one that ends while it runs within a minute', () => {
    const { list, further } = asked(681);
    expect(further).toBe(0);
    expect(list.map(({ number, to, counted }) => [number, to, counted])).toEqual([
      ['7703', undefined, { least: 81, most: 141 }],
      ['7702', epochMs(at(580.5)), { least: 229, most: 289 }],
      ['7701', epochMs(at(250)), { least: 100, most: 100 }],
    ]);
  });

  it('[OR3] what was entered last as handed over stands beside it, and the difference is as sure as the count', () => {
    const { list } = asked(200, [
      ['7701', 90],
      ['7701', 98],
      ['7702', 5],
    ]);
    expect(list).toMatchObject([
      { number: '7701', size: 'Sachet 20', handedOver: 98, apart: { least: -2, most: -2 } },
    ]);
  });

  it('[OR3] another order of the same number, weeks later, is a row of its own, with what was handed over of it', () => {
    const day = 24 * 3600;
    const again: Rows = [
      ...running(),
      [0.5, 'order', '7701'],
      ...goods(61, 160, 1),
      [250, 'order', '7702'],
      [14 * day, 'order', '7701'],
      ...goods(14 * day + 61, 14 * day + 90, 101),
      [14 * day + 200, 'order', '7703'],
      ...goods(14 * day + 261, 14 * day + 270, 131),
    ];
    const { fold, of, tallyAt } = recorded(smallLine(), again);
    const now = at(14 * day + 400);
    const handedOver = (second: number, cartons: number) => ({
      at: at(second),
      entry: {
        id: `h${second}`,
        at: epochMs(at(second)),
        author: { kind: 'screen', screen: 'desk' } as const,
        kind: 'handedOver' as const,
        order: '7701',
        cartons,
      },
    });
    const { list } = orderBalances({
      index: fold.index,
      from: at(0),
      to: now,
      now,
      orders: of('order'),
      sizes: of('size'),
      gaps: [],
      kept: [],
      entries: [handedOver(300, 97), handedOver(14 * day + 300, 29)],
      tallyAt: (when) => (when >= now ? fold.state.tally : tallyAt(when)),
      tallyFrom: (from, until) => of('minute').find((one) => one.at >= from && one.at < until)?.tally,
    });
    expect(list.map(({ number, handedOver: handed }) => [number, handed])).toEqual([
      ['7703', undefined],
      ['7701', 29],
      ['7702', undefined],
      ['7701', 97],
    ]);
    expect(list.map(({ counted }) => counted.most)).toEqual([10, 30, 0, 100]);
  });
});
