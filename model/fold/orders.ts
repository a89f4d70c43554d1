import type { Entry } from '../entries/entries.ts';
import type { Instant } from '../units/units.ts';
import { beginSize, sizeChanged } from './changeovers.ts';
import type { OrderRecord } from './state.ts';
import type { Stepping } from './stepping.ts';
import { retarget } from './target.ts';

/** Orders kept in the state at most; ended ones leave first. */
const ORDERS_KEPT = 200;

type OrderEntry = Entry & { kind: 'order' | 'orderListed' };

/** An order became known, or was chosen to run now or next. */
export function takeOrder(stepping: Stepping, entry: OrderEntry, at: Instant): void {
  const { state } = stepping;
  const known = state.orders.find((candidate) => candidate.number === entry.number);
  const record: OrderRecord = {
    number: entry.number,
    size: entry.size,
    blend: entry.blend,
    quantity: entry.quantity,
    ...(entry.kind === 'orderListed' && entry.due !== undefined ? { due: entry.due } : {}),
    good: known?.good ?? 0,
    endedAt: known?.endedAt ?? null,
    crew: (entry.kind === 'order' ? entry.crew : known?.crew) ?? null,
    handedOver: known?.handedOver ?? null,
  };
  if (known) state.orders[state.orders.indexOf(known)] = { ...known, ...record };
  else keep(state.orders, record);
  if (entry.kind === 'orderListed') return;
  if (entry.starts === 'now') orderRuns(stepping, entry.number, at);
  else state.orderNext = entry.number;
}

/** [OR1] From here on cartons belong to this order; the one before has ended. */
export function orderRuns(stepping: Stepping, number: string, at: Instant): void {
  const { state, index } = stepping;
  if (state.orderNext === number) state.orderNext = null;
  if (state.order === number) return;
  const before = state.orders.find((candidate) => candidate.number === state.order);
  if (before) before.endedAt = at;
  state.order = number;
  const now = state.orders.find((candidate) => candidate.number === number);
  stepping.emit({
    kind: 'OrderBegan',
    at,
    order: number,
    crew: now?.crew ?? null,
    tally: state.tally.slice(),
  });
  if (!now) return;
  now.endedAt = null;
  if (now.crew !== null) {
    state.crew = now.crew;
    state.crewSaid = null;
  }
  if (index.sizeSignal < 0 && now.size !== state.size) {
    if (state.size === null) beginSize(stepping, now.size, at);
    else sizeChanged(stepping, now.size, at);
  }
  retarget(stepping, at);
}

/**
 * [OR2] The order chosen to follow begins, on a line whose PLC names no order: with its size, once production is back
 * after a changeover, or where the running one's quantity is made.
 */
export function nextOrderMayBegin(
  stepping: Stepping,
  when: 'size' | 'backAtWork' | 'stopped',
  at: Instant,
): void {
  const { state, index } = stepping;
  if (index.orderSignal >= 0 || state.orderNext === null) return;
  const next = state.orders.find((candidate) => candidate.number === state.orderNext);
  if (!next || (index.sizeSignal >= 0 && next.size !== state.size)) return;
  const running = state.orders.find((candidate) => candidate.number === state.order);
  const isMade = running === undefined || running.good >= running.quantity;
  if (when !== 'stopped' || isMade) orderRuns(stepping, next.number, at);
}

function keep(orders: OrderRecord[], record: OrderRecord): void {
  orders.push(record);
  if (orders.length <= ORDERS_KEPT) return;
  const oldest = orders.findIndex((candidate) => candidate.endedAt !== null);
  orders.splice(Math.max(0, oldest), 1);
}
