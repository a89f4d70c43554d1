import { stat } from 'node:fs/promises';
import type { Logger } from 'pino';
import type { Entry } from '../../model/entries/entries.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { EpochMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Bound } from '../binding/binding.ts';
import { readOrders } from '../binding/orders.ts';
import type { LiveLine } from '../live/liveLine.ts';

const words = wordsIn('en').gateway;

/** Puts new and changed rows of the order list on the tape, so that a replay knows what was known then. */
export async function listOrders(
  bound: Bound,
  live: LiveLine,
  newId: () => string,
  at: number,
): Promise<void> {
  if (bound.ordersFile === undefined) return;
  const known = new Map(live.fold().state.orders.map((order) => [order.number, order]));
  for (const row of await readOrders(bound.ordersFile, bound.line)) {
    const before = known.get(row.number);
    const same =
      before?.size === row.size &&
      before.blend === row.blend &&
      before.quantity === row.quantity &&
      before.due === row.due;
    if (same) continue;
    const entry: Entry = {
      id: newId(),
      at: Math.round(at) as EpochMs,
      author: { kind: 'file', file: 'orders' },
      kind: 'orderListed',
      number: row.number,
      size: row.size,
      blend: row.blend,
      quantity: row.quantity,
      ...(row.due === undefined ? {} : { due: row.due }),
    };
    await live.enter(entry);
  }
}

/** The list is looked at this often. Milliseconds. */
const LOOK_MS = 5000;

export interface OrderShell {
  readonly newId: () => string;
  readonly now: () => number;
  readonly log: Pick<Logger, 'warn'>;
  /** For tests. Milliseconds. */
  readonly lookMs?: number;
}

/**
 * Takes the list again whenever its file changes. What is wrong in it, or with recording it, is logged once and tried
 * again; the orders stay as they were. The first look always reads: the file may have changed since the start did.
 */
export function followOrders(
  bound: Bound,
  live: LiveLine,
  { newId, now, log, lookMs = LOOK_MS }: OrderShell,
): () => Promise<void> {
  const file = bound.ordersFile;
  if (file === undefined) return () => Promise.resolve();
  let taken: string | undefined;
  let told: string | undefined;
  const take = async () => {
    const stamp = await stampOf(file);
    if (stamp === taken) return;
    try {
      await listOrders(bound, live, newId, now());
      taken = stamp;
      told = undefined;
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      const trouble = words.inOneLine(error);
      if (trouble !== told) log.warn(trouble);
      told = trouble;
    }
  };
  let taking = Promise.resolve();
  let busy = false;
  const timer = setInterval(() => {
    if (busy) return;
    busy = true;
    taking = take().finally(() => {
      busy = false;
    });
  }, lookMs);
  timer.unref();
  return async () => {
    clearInterval(timer);
    await taking;
  };
}

/** Tells one state of a file from another; the same for every file that is not there. */
async function stampOf(file: string): Promise<string> {
  const found = await stat(file).catch(() => undefined);
  return found ? `${found.ino} ${found.size} ${found.mtimeMs}` : 'none';
}
