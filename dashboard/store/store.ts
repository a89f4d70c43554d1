import type { EntryAnswer, NewEntry } from '../../model/view/protocol.ts';
import type { LineView } from '../../model/view/view.ts';
import { shared } from './shared.ts';

/** An entry made on this screen and how far it has come. */
export interface Sent {
  readonly entry: NewEntry;
  readonly state: 'onItsWay' | 'kept' | 'refused';
  /** When its state last changed, by this screen's own clock. */
  readonly since: number;
  readonly trouble?: string;
  readonly mend?: string;
}

export interface Held {
  readonly view: LineView | undefined;
  readonly number: number | undefined;
  /** When the newest message came, by this screen's own clock. */
  readonly received: number;
  readonly link: 'joining' | 'up' | 'down' | 'refused';
  readonly trouble: string | undefined;
  /** This screen's own clock, moved on once a second. Never the time of day. */
  readonly clock: number;
  readonly sent: readonly Sent[];
}

/** More entries than this on their way are refused here, in words: a person must know that none is kept. */
export const SENT_MOST = 20;
/** How long a kept entry stays said. */
const KEPT_SHOWN_MS = 6_000;

export interface Store {
  readonly get: () => Held;
  readonly subscribe: (told: () => void) => () => void;
  readonly whole: (number: number, view: LineView, clock: number) => void;
  /** False when a part before this one is missing: the whole has to be asked for. */
  readonly parts: (number: number, parts: Partial<LineView>, clock: number) => boolean;
  readonly linked: (link: Held['link'], trouble?: string) => void;
  readonly tick: (clock: number) => void;
  /** Takes an entry on its way; `full` when too many are. */
  readonly enter: (
    entry: NewEntry,
    full: { readonly trouble: string; readonly mend: string },
  ) => 'taken' | 'full';
  readonly answered: (id: string, answer: EntryAnswer) => void;
  readonly dismiss: (id: string) => void;
}

/** The one place where the dashboard keeps anything. What did not change keeps its identity, so a slice is compared by it. */
export function createStore(clock: number, view?: LineView): Store {
  let held: Held = {
    view,
    number: view ? 0 : undefined,
    received: clock,
    link: view ? 'up' : 'joining',
    trouble: undefined,
    clock,
    sent: [],
  };
  const listeners = new Set<() => void>();
  const set = (next: Partial<Held>) => {
    held = { ...held, ...next };
    for (const told of listeners) told();
  };
  const change = (id: string, to: (sent: Sent) => Sent) =>
    set({ sent: held.sent.map((sent) => (sent.entry.id === id ? to(sent) : sent)) });

  return {
    get: () => held,
    subscribe: (told) => {
      listeners.add(told);
      return () => listeners.delete(told);
    },
    whole: (number, next, at) =>
      set({ view: next, number, received: at, clock: at, link: 'up', trouble: undefined }),
    parts: (number, parts, at) => {
      if (held.view === undefined || held.number === undefined || number !== held.number + 1) return false;
      set({ view: { ...held.view, ...shared(held.view, known(parts)) }, number, received: at, clock: at });
      return true;
    },
    linked: (link, trouble) => set({ link, trouble }),
    tick: (at) =>
      set({
        clock: at,
        sent: held.sent.some((sent) => fades(sent, at))
          ? held.sent.filter((sent) => !fades(sent, at))
          : held.sent,
      }),
    enter: (entry, full) => {
      const waiting = held.sent.filter((sent) => sent.state === 'onItsWay').length;
      if (waiting >= SENT_MOST) {
        const others = held.sent.filter((sent) => sent.state !== 'refused');
        set({ sent: [...others, { entry, state: 'refused', since: held.clock, ...full }] });
        return 'full';
      }
      const same = held.sent.filter((sent) => !(sent.state === 'refused' && sent.entry.kind === entry.kind));
      set({ sent: [...same, { entry, state: 'onItsWay', since: held.clock }] });
      return 'taken';
    },
    answered: (id, answer) =>
      change(id, ({ entry }) =>
        answer.ok
          ? { entry, state: 'kept', since: held.clock }
          : { entry, state: 'refused', since: held.clock, trouble: answer.trouble, mend: answer.mend },
      ),
    dismiss: (id) => set({ sent: held.sent.filter((sent) => sent.entry.id !== id) }),
  };
}

/** JSON has no undefined: a part that has become undefined travels as null. */
function known(parts: Partial<LineView>): Partial<LineView> {
  return Object.fromEntries(Object.entries(parts).map(([part, value]) => [part, value ?? undefined]));
}

function fades(sent: Sent, clock: number): boolean {
  return sent.state === 'kept' && clock - sent.since > KEPT_SHOWN_MS;
}
