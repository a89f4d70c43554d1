import { wallClock } from '../../model/calendar/calendar.ts';
import { ENTRY_MOST } from '../../model/entries/entries.ts';
import type { Line, Order } from '../../model/line/line.ts';
import { epochMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { type Cell, readCsv } from './csv.ts';
import { type Fault, FileError, type Place } from './faults.ts';
import { likely } from './spelling.ts';
import { readText } from './textFile.ts';

const binding = wordsIn('en').gateway.binding;
const words = binding.orders;
const columns = ['number', 'size', 'blend', 'quantity', 'due'] as const;
type Column = (typeof columns)[number];
const needed: readonly Column[] = ['number', 'size', 'quantity'];

/** As many as the fold keeps: a longer list would push its own first rows out. */
const ORDERS_MAX = 200;
const LENGTH_MAX = 400_000;

/** What orders are checked against: sizes by id, and the zone in which a due time without an offset is meant. */
export type OrderFrame = Pick<Line, 'sizes' | 'zone'>;

/** Reads the list of orders. Throws one `LineError` with everything that is wrong in it. */
export async function readOrders(path: string, frame: OrderFrame): Promise<readonly Order[]> {
  return parseOrders(await readText(path), path, frame);
}

/** The same for text at hand. Columns may stand in any order; blend and due may be left out. */
export function parseOrders(text: string, name: string, frame: OrderFrame): readonly Order[] {
  if (text.length > LENGTH_MAX)
    throw new FileError(name, [{ at: { line: 1, column: 1 }, ...binding.tooLarge(LENGTH_MAX) }]);
  const { rows, faults } = readCsv(text);
  const [head, ...body] = rows;
  const heading = faults.length > 0 ? faults : headFaults(head ?? []);
  if (heading.length > 0) throw new FileError(name, heading);
  const read = body.map((row) => readOrder(row, head!, frame));
  const all = [...read.flatMap(({ faults }) => faults), ...listFaults(body, head!)];
  if (all.length > 0) throw new FileError(name, all);
  return read.flatMap(({ order }) => order ?? []);
}

function headFaults(head: readonly Cell[]): Fault[] {
  const names = head.map(({ text }) => text);
  const missing = needed.filter((column) => !names.includes(column));
  const unknown = head.filter(({ text }) => !(columns as readonly string[]).includes(text));
  const twice = head.filter(
    ({ text }, place) => names.indexOf(text) < place && !unknown.some((cell) => cell.text === text),
  );
  return [
    ...(missing.length > 0 ? [{ at: placeOf(head), ...words.columns(columns, missing) }] : []),
    ...unknown.map(({ text, at }) => ({ at, ...binding.unknownKey(text, likely(text, columns), columns) })),
    ...twice.map(({ text, at }) => ({ at, ...words.columnTwice(text) })),
  ];
}

function listFaults(body: readonly (readonly Cell[])[], head: readonly Cell[]): Fault[] {
  const first = new Map<string, Place>();
  const place = head.findIndex(({ text }) => text === 'number');
  const twice = body.flatMap((row) => {
    const cell = row[place];
    if (!cell || cell.text === '') return [];
    const before = first.get(cell.text);
    if (before) return [{ at: cell.at, ...binding.twice(binding.nouns.order, cell.text, before.line) }];
    first.set(cell.text, cell.at);
    return [];
  });
  const over = body[ORDERS_MAX];
  return over ? [...twice, { at: placeOf(over), ...words.tooMany(ORDERS_MAX) }] : twice;
}

function readOrder(
  row: readonly Cell[],
  head: readonly Cell[],
  frame: OrderFrame,
): { readonly order?: Order; readonly faults: readonly Fault[] } {
  if (row.length !== head.length)
    return { faults: [{ at: placeOf(row), ...words.cells(row.length, head.length) }] };
  const cell = (column: Column): Cell =>
    row[head.findIndex(({ text }) => text === column)] ?? { text: '', at: placeOf(row) };
  const [number, size, blend, quantity, due] = columns.map(cell) as [Cell, Cell, Cell, Cell, Cell];
  const dueAt = dueOf(due.text, frame.zone);
  const sizes = frame.sizes.map(({ id }) => id);
  const faults = [
    ...(number.text === '' ? [{ at: number.at, ...words.noNumber }] : []),
    ...tooLong(number, 'number', ENTRY_MOST.orderNumber),
    ...tooLong(blend, 'blend', ENTRY_MOST.blend),
    ...(sizes.includes(size.text)
      ? []
      : [
          {
            at: size.at,
            ...binding.unknownName(binding.nouns.size, size.text, likely(size.text, sizes), sizes),
          },
        ]),
    ...(isQuantity(quantity.text) ? [] : [{ at: quantity.at, ...words.quantity(quantity.text) }]),
    ...(due.text !== '' && dueAt === undefined ? [{ at: due.at, ...words.due(due.text) }] : []),
  ];
  if (faults.length > 0) return { faults };
  const order: Order = {
    number: number.text,
    size: size.text,
    blend: blend.text,
    quantity: Number(quantity.text),
    ...(dueAt === undefined ? {} : { due: dueAt }),
  };
  return { order, faults };
}

function tooLong({ text, at }: Cell, column: Column, most: number): Fault[] {
  return text.length > most ? [{ at, ...words.tooLong(column, most) }] : [];
}

function isQuantity(text: string): boolean {
  return /^[1-9]\d*$/.test(text) && Number(text) <= ENTRY_MOST.cartons;
}

/** `2026-03-17 14:00` in the line's zone, or with an offset of its own; as an ISO 8601 moment in UTC. */
function dueOf(written: string, zone: string): string | undefined {
  const form = /^(20\d\d)-(\d\d)-(\d\d)[T ]((?:[01]\d|2[0-3]):[0-5]\d)(?::[0-5]\d)?(Z|[+-]\d\d:\d\d)?$/;
  const [, year, month, day, clock, offset] = form.exec(written) ?? [];
  if (clock === undefined) return undefined;
  const date = { year: Number(year), month: Number(month), day: Number(day) };
  const real = new Date(Date.UTC(date.year, date.month - 1, date.day));
  if (real.getUTCMonth() !== date.month - 1 || real.getUTCDate() !== date.day) return undefined;
  const at =
    offset === undefined ? epochMs(wallClock(date, clock, zone)) : Date.parse(written.replace(' ', 'T'));
  return Number.isNaN(at) ? undefined : new Date(at).toISOString();
}

function placeOf(row: readonly Cell[]): Place {
  return row[0]?.at ?? { line: 1, column: 1 };
}
