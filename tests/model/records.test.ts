import { describe, expect, it } from 'vitest';
import { CARTON } from '../../model/fold/account.ts';
import type { LineEvent } from '../../model/fold/events.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { at, changes, foldOf, goods, type Rows, running, smallLine } from './smallLine.ts';

const line = smallLine();
const jam: Rows = [
  ...running(),
  ...goods(1, 10, 1),
  [10.5, 'state', 11],
  [10.5, 'reason', 51],
  [12, 'reason', 52],
  [30, 'state', 6],
  [30, 'reason', 0],
  ...goods(33, 70, 11),
];

function eventsOf(rows: Rows, chunk = rows.length): LineEvent[] {
  const fold = new LineFold(line);
  const all = changes(line, rows);
  const events: LineEvent[] = [];
  for (let from = 0; from < all.length; from += chunk)
    events.push(...fold.take(all.slice(from, from + chunk)));
  return events;
}

const minutesIn = (events: readonly LineEvent[]) =>
  events.flatMap((event) => (event.kind === 'MinuteEnded' ? [[event.at, event.tally]] : []));

describe('what tables are made of', () => {
  it('[LO3] a stop keeps what was lost to it, from the last good carton before it to the first one after it', () => {
    const fold = foldOf(jam);
    // 23 s from carton 10 to carton 11 at one a second, and 22 cartons short of it
    expect(fold.state.stops[0]!.lost).toBe(22 * CARTON);
    const { account } = fold.state.shift;
    const charged = account.charged.filter((parts) => parts > 0).reduce((a, b) => a + b, 0);
    expect(charged).toBe(22 * CARTON);
  });

  it('[LO3] [CV1] what passed in a gap is lost to no stop', () => {
    const fold = foldOf([
      ...jam.slice(0, -goods(33, 70, 11).length - 2),
      [20, 'link', false],
      [28, 'state', 6],
      [29, 'good', 11],
      [40, 'link', true],
      ...goods(41, 50, 12),
    ]);
    expect(fold.state.stops).toHaveLength(1);
    // 10 s from carton 10 until the link was lost
    expect(fold.state.stops[0]!.lost).toBe(10 * CARTON);
  });

  it('[ST3] a stop keeps its first fault and what that set off, with their moments', () => {
    expect(foldOf(jam).state.stops[0]).toMatchObject({
      size: 'sachet-20',
      chain: [
        { at: at(10.5), number: 51 },
        { at: at(12), number: 52 },
      ],
    });
  });

  it('[TI3] each minute says once what was counted by its end, however the changes come', () => {
    const rows: Rows = [...jam, ...goods(71, 200, 49)];
    const minutes = minutesIn(eventsOf(rows));
    expect(minutes.map(([end]) => end)).toEqual([at(60), at(120), at(180)]);
    const sums = minutes.map(([, tally]) => Math.max(...(tally as number[])));
    expect(sums).toEqual([37, 97, 157]);
    for (const chunk of [1, 7, 50]) expect(minutesIn(eventsOf(rows, chunk))).toEqual(minutes);
  });

  it('[TI2] late data tells again all that is seen from it on, so that tables can be taken anew from there', () => {
    const fold = new LineFold(line);
    const rows: Rows = [...jam, ...goods(71, 200, 49)];
    const late: Rows = [[100.5, 'rejectOpen', 1]];
    fold.take(changes(line, rows));
    const amended = fold.take(changes(line, late)).find((event) => event.kind === 'Amended')!;
    const inOrder = new LineFold(line);
    const sorted = [...rows, ...late].sort((a, b) => a[0] - b[0]);
    const place = sorted.findIndex(([second]) => second === 100.5);
    inOrder.take(changes(line, sorted.slice(0, place)));
    const told = inOrder.take(changes(line, sorted.slice(place)));
    expect(amended.again).toEqual(told);
    expect(minutesIn(amended.again)).toHaveLength(2);
  });

  it('says when a size, an order and a finding begin', () => {
    const kinds = eventsOf([
      ...running(),
      [5, 'order', 'A-1'],
      [10, 'door', true],
      [20, 'state', 11],
      [21, 'size', 48],
    ]).map(({ kind }) => kind);
    expect(kinds.filter((kind) => ['SizeBegan', 'OrderBegan', 'FindingKept'].includes(kind))).toEqual([
      'SizeBegan',
      'OrderBegan',
      'FindingKept',
      'SizeBegan',
    ]);
  });

  it('[TI2] an entry older than the fold reaches back is not lost, and what is told again begins where it reaches', () => {
    const fold = new LineFold(line);
    fold.take(changes(line, [...running(), ...goods(1, 3 * 3600, 1)]));
    const listed = JSON.stringify({
      id: 'e-1',
      at: 0,
      author: { kind: 'file', file: 'orders.csv' },
      kind: 'orderListed',
      number: 'A-1',
      size: 'sachet-20',
      blend: 'mint',
      quantity: 100,
    });
    const events = fold.take(changes(line, [[-3600, 'entry', listed]]));
    expect(fold.state.orders.map(({ number }) => number)).toEqual(['A-1']);
    expect(fold.state.shift.account.good).toBe(3 * 3600);
    const amended = events.find((event) => event.kind === 'Amended')!;
    expect(amended.from).toBeGreaterThan(at(3600));
    expect(minutesIn(amended.again)[0]![0]).toBeGreaterThan(amended.from);
    expect(events.some(({ kind }) => kind === 'BeyondReach')).toBe(true);
  });
});
