import type { Entry } from '../entries/entries.ts';
import type { OrderRecord } from './state.ts';
import type { Stepping } from './stepping.ts';

/** Orders kept in the state at most; ended ones leave first. */
const ORDERS_KEPT = 200;

type OrderEntry = Entry & { kind: 'order' | 'orderListed' };

/** An order became known, or was chosen to run now or next. */
export function takeOrder(stepping: Stepping, entry: OrderEntry): void {
  const { state } = stepping;
  const known = state.orders.find((candidate) => candidate.number === entry.number);
  const record: OrderRecord = {
    number: entry.number,
    size: entry.size,
    blend: entry.blend,
    quantity: entry.quantity,
    ...(entry.kind === 'orderListed' && entry.due !== undefined ? { due: entry.due } : {}),
    good: known?.good ?? 0,
    ended: known?.ended ?? false,
    handedOver: known?.handedOver ?? null,
  };
  if (known) state.orders[state.orders.indexOf(known)] = { ...known, ...record };
  else keep(state.orders, record);
  if (entry.kind === 'orderListed') return;
  if (entry.starts === 'now') orderRuns(stepping, entry.number);
  else state.orderNext = entry.number;
}

/** From here on cartons belong to this order; the one before has ended. */
export function orderRuns(stepping: Stepping, number: string): void {
  const { state } = stepping;
  if (state.order === number) return;
  const before = state.orders.find((candidate) => candidate.number === state.order);
  if (before) before.ended = true;
  const now = state.orders.find((candidate) => candidate.number === number);
  if (now) now.ended = false;
  state.order = number;
  if (state.orderNext === number) state.orderNext = null;
}

function keep(orders: OrderRecord[], record: OrderRecord): void {
  orders.push(record);
  if (orders.length <= ORDERS_KEPT) return;
  const oldest = orders.findIndex((candidate) => candidate.ended);
  orders.splice(Math.max(0, oldest), 1);
}
