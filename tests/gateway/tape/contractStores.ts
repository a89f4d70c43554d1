import { afterEach } from 'vitest';
import type { Tape } from '../../../gateway/tape/tape.ts';
import type { Change, Signal } from '../../../model/signals/signals.ts';
import { gathered, signals } from './stretch.ts';

/** One place where a tape can be kept: opened, closed, and opened again with the same content. */
export interface Store {
  open(lines: ReadonlyMap<string, readonly Signal[]>): Promise<Tape>;
  /** Everything is closed by then. */
  remove(): Promise<void>;
}

/** Stores and tapes of one engine, which are closed and removed after each test. */
export interface Stores {
  readonly newStore: () => Promise<Store>;
  readonly openIn: (store: Store, of?: ReadonlyMap<string, readonly Signal[]>) => Promise<Tape>;
  readonly open: (of?: ReadonlyMap<string, readonly Signal[]>) => Promise<Tape>;
  readonly all: (tape: Tape, id?: string) => Promise<Change[]>;
}

/** Far beyond what the slowest machine needs. Milliseconds. */
export const CEILING = 300_000;
export const three = signals('cycles', 'starved', 'lot');
export const line = 'line-3';
export const lines = new Map([[line, three]]);

/** To be called where tests are described. */
export function storesOf(makeStore: () => Promise<Store>): Stores {
  const stores: Store[] = [];
  const tapes: Tape[] = [];
  const newStore = async () => {
    const store = await makeStore();
    stores.push(store);
    return store;
  };
  const openIn = async (store: Store, of: ReadonlyMap<string, readonly Signal[]> = lines) => {
    const tape = await store.open(of);
    tapes.push(tape);
    return tape;
  };
  afterEach(async () => {
    for (const tape of tapes.splice(0)) await tape.close();
    for (const store of stores.splice(0)) await store.remove();
  }, CEILING);
  return {
    newStore,
    openIn,
    open: async (of = lines) => openIn(await newStore(), of),
    all: (tape, id = line) => gathered(tape.read(id, 0, Number.POSITIVE_INFINITY)),
  };
}
