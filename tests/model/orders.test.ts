import { describe, expect, it } from 'vitest';
import type { EntryBody } from '../../model/entries/entries.ts';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { at, boundSignals, changes, running, smallLine } from './smallLine.ts';

type Rows = Parameters<typeof changes>[1];

const line = smallLine();
/** A line whose PLC names no order, and one whose PLC names neither order nor size. */
const orderless = smallLine({}, without('order'));
const sizeless = smallLine({}, without('order', 'size'));

function without(...roles: readonly string[]) {
  return boundSignals.filter(({ role }) => !roles.includes(role));
}

function entry(seconds: number, body: EntryBody): Rows[number] {
  const author = { kind: 'screen', screen: 'desk' };
  return [seconds, 'entry', JSON.stringify({ id: `e${seconds}`, at: 0, author, ...body })];
}

function order(
  number: string,
  starts: 'now' | 'whenEnded',
  more: { readonly size?: string; readonly quantity?: number; readonly crew?: number } = {},
): EntryBody {
  return { kind: 'order', number, size: 'sachet-20', blend: 'mint', quantity: 5, starts, ...more };
}

function foldOf(rows: Rows, on: Line = line): LineFold {
  const fold = new LineFold(on);
  const known = new Set(on.signals.map(({ id }) => id));
  fold.take(
    changes(
      on,
      rows.filter(([, id]) => known.has(id)),
    ),
  );
  return fold;
}

describe('orders', () => {
  it('[OR1] cartons belong to the order that the tag names, and the one before has ended', () => {
    const fold = foldOf([
      entry(-2, order('1', 'now')),
      entry(-1, order('2', 'whenEnded')),
      ...running(),
      [1, 'good', 1],
      [2, 'order', '2'],
      [3, 'good', 3],
    ]);
    expect(fold.state).toMatchObject({ order: '2', orderNext: null });
    expect(fold.state.orders.map(({ number, good, endedAt }) => ({ number, good, endedAt }))).toEqual([
      { number: '1', good: 1, endedAt: at(2) },
      { number: '2', good: 2, endedAt: null },
    ]);
  });

  it('[OR1] its crew counts from its beginning on, not from the entry on', () => {
    const fold = foldOf([
      ...running(),
      entry(1, order('1', 'now', { crew: 2 })),
      entry(2, order('2', 'whenEnded', { crew: 3 })),
    ]);
    expect(fold.state.crew).toBe(2);
    const told = fold.take(changes(line, [[5, 'order', '2']]));
    expect(fold.state.crew).toBe(3);
    expect(told).toContainEqual(
      expect.objectContaining({ kind: 'OrderBegan', at: at(5), order: '2', crew: 3 }),
    );
  });

  it('[OR2] without an order tag the one chosen to follow begins with its size', () => {
    const fold = foldOf(
      [
        ...running(),
        entry(1, order('1', 'now')),
        entry(2, order('2', 'whenEnded', { size: 'sachet-48' })),
        [10, 'state', 2],
        [10, 'reason', 202],
      ],
      orderless,
    );
    expect(fold.state).toMatchObject({ order: '1', orderNext: '2' });
    fold.take(changes(orderless, [[60, 'size', 48]]));
    expect(fold.state).toMatchObject({ order: '2', orderNext: null, size: 'sachet-48' });
  });

  it('[OR2] or when production is back after a changeover that keeps the size', () => {
    const fold = foldOf(
      [
        ...running(),
        entry(1, order('1', 'now')),
        entry(2, order('2', 'whenEnded')),
        [10, 'state', 2],
        [10, 'reason', 202],
      ],
      orderless,
    );
    expect(fold.state.order).toBe('1');
    fold.take(
      changes(orderless, [
        [60, 'state', 6],
        [60, 'reason', 0],
      ]),
    );
    expect(fold.state.order).toBe('2');
  });

  it('[OR2] or at a stop once the running one’s quantity is made, and not before', () => {
    const rows: Rows = [
      ...running(),
      entry(1, order('1', 'now')),
      entry(2, order('2', 'whenEnded')),
      [3, 'good', 4],
      [4, 'state', 11],
      [4, 'reason', 51],
      [9, 'state', 6],
      [9, 'reason', 0],
    ];
    const fold = foldOf(rows, orderless);
    expect(fold.state.order).toBe('1');
    fold.take(
      changes(orderless, [
        [10, 'good', 5],
        [11, 'state', 2],
        [11, 'reason', 201],
      ]),
    );
    expect(fold.state.order).toBe('2');
  });

  it('[OR1] where no tag tells the size, the order’s size is it, and another size is a changeover', () => {
    const fold = foldOf([...running(), entry(1, order('1', 'now'))], sizeless);
    expect(viewOf(fold, at(2), { servers: [] }).rate.target).toBe(60);
    fold.take(changes(sizeless, [entry(3, order('2', 'now', { size: 'sachet-48' }))]));
    expect(viewOf(fold, at(4), { servers: [] }).rate.target).toBe(30);
    expect(fold.state.changeover).toMatchObject({ kind: 'size', from: 'sachet-20', to: 'sachet-48' });
  });

  it('[OR3] what was handed over stands beside what was counted', () => {
    const fold = foldOf([
      ...running(),
      entry(1, order('1', 'now')),
      [2, 'good', 5],
      entry(3, order('2', 'now')),
      entry(4, { kind: 'handedOver', order: '1', cartons: 3 }),
    ]);
    const { orders } = viewOf(fold, at(5), { servers: [] });
    expect(orders.find(({ number }) => number === '1')).toMatchObject({
      state: 'ended',
      good: 5,
      handedOver: 3,
      apart: -2,
    });
    expect(orders.find(({ number }) => number === '2')).toMatchObject({
      handedOver: undefined,
      apart: undefined,
    });
    expect(fold.state.shift.account.good).toBe(5);
  });
});
