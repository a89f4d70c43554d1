import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../../gateway/api/entrySchema.ts';
import { FileError } from '../../../gateway/binding/faults.ts';
import { parseOrders, readOrders } from '../../../gateway/binding/orders.ts';
import { ENTRY_MOST } from '../../../model/entries/entries.ts';
import { bound, small } from './smallFile.ts';

const frame = bound(small).line;
const head = 'number,size,blend,quantity,due\n';

function wrong(text: string): string[] {
  try {
    parseOrders(text, 'lists/orders.csv', frame);
  } catch (error) {
    if (!(error instanceof FileError)) throw error;
    return error.faults.map(({ at, what }) => `${at.line}:${at.column} ${what}`);
  }
  return [];
}

describe('the list of orders', () => {
  it('beside the bundled line is read', async () => {
    const path = resolve(import.meta.dirname, '../../../simulator/lines/orders.csv');
    const sizes = ['sachet-20', 'sachet-48', 'sampler-12'].map((id) => ({ ...frame.sizes[0]!, id }));
    const orders = await readOrders(path, { ...frame, sizes });
    expect(orders[1]).toEqual({ number: '4471', size: 'sachet-48', blend: 'mint', quantity: 18480 });
    expect(orders).toHaveLength(4);
  });

  it('reads due times in the line’s zone, or with an offset', () => {
    const text = `${head}1,s20,mint,10,2026-03-17 14:00\n2,s20,mint,10,2026-07-01T14:00\n3,s20,mint,10,2026-03-17T14:00:00-05:00\n`;
    expect(parseOrders(text, 'o', frame).map(({ due }) => due)).toEqual([
      '2026-03-17T13:00:00.000Z',
      '2026-07-01T12:00:00.000Z',
      '2026-03-17T19:00:00.000Z',
    ]);
  });

  it('reads quoted values, other line ends, columns in another order and none that may be left out', () => {
    const text = 'quantity,number,size,blend\r\n"5","a ""b"", c",s20,"two\nlines"\r\n\r\n6,x,s20,\r\n';
    expect(parseOrders(text, 'o', frame)).toEqual([
      { number: 'a "b", c', size: 's20', blend: 'two\nlines', quantity: 5 },
      { number: 'x', size: 's20', blend: '', quantity: 6 },
    ]);
    expect(parseOrders('number,size,quantity\n', 'o', frame)).toEqual([]);
  });

  it('tells all mistakes at once, each at its place', () => {
    const text = `${head}1,s21,mint,1.5,\n,s20,mint,1,\n1,s20,mint,7,2026-02-30 10:00\n2,s20,mint\n`;
    expect(wrong(text)).toEqual([
      '2:3 There is no size “s21”.',
      '2:12 “1.5” is no number of cartons.',
      '3:1 The order has no number.',
      '4:1 The order “1” stands twice.',
      '4:14 “2026-02-30 10:00” is no date and time.',
      '5:1 This line has 3 values instead of 5.',
    ]);
  });

  it.each([
    ['', '1:1 The first line has no number, size, quantity.'],
    ['number,size,quantity,quantty\n', '1:22 “quantty” is not known here.'],
    ['number,size,quantity,size\n', '1:22 The column “size” stands twice.'],
    [`${head}1,"s20,mint,1,\n`, '2:3 A quote is not closed.'],
    [`${head}1,s"20,mint,1,\n`, '2:3 A quote stands where none can be.'],
    [
      head + Array.from({ length: 201 }, (_, n) => `${n},s20,mint,1,\n`).join(''),
      '202:1 The list is longer than 200 orders.',
    ],
  ])('%j', (text, expected) => {
    expect(wrong(text)).toEqual([expected]);
  });

  it('takes whatever an entry may hold, and no more, so that each of its orders can be chosen', () => {
    const { orderNumber, blend, cartons } = ENTRY_MOST;
    const row = (over: number) =>
      `${head}${'n'.repeat(orderNumber + over)},s20,${'b'.repeat(blend + over)},${cartons + over},\n`;
    const [order] = parseOrders(row(0), 'o', frame);
    const { number, quantity } = order!;
    const author = { kind: 'screen', screen: 'desk' };
    const chosen = { id: 'e', author, kind: 'order', ...order, starts: 'now' };
    expect(readEntry({ line: 'l', entry: chosen }, 0).entry).toMatchObject({ number, quantity });
    const handed = { id: 'e', author, kind: 'handedOver', order: number, cartons: quantity };
    expect(readEntry({ line: 'l', entry: handed }, 0).entry).toMatchObject(handed);
    expect(wrong(row(1))).toEqual([
      '2:1 The number is longer than 100 characters.',
      '2:107 The blend is longer than 100 characters.',
      '2:209 “1000000000” is no number of cartons.',
    ]);
    for (const over of [{ number: `${number}n` }, { blend: `${order!.blend}b` }, { quantity: quantity + 1 }])
      expect(() => readEntry({ line: 'l', entry: { ...chosen, ...over } }, 0)).toThrow();
  });

  it('that is not there is told with its path', async () => {
    await expect(readOrders('/nowhere/orders.csv', frame)).rejects.toMatchObject({
      why: 'There is no such file.',
    });
  });
});
