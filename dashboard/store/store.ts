import { KEPT_KINDS } from '../../model/entries/sheetEntries.ts';
import type { EntryAnswer, NewEntry } from '../../model/view/protocol.ts';
import type { BegunHere } from '../../model/view/sheetKept.ts';
import type { Aside } from '../../model/view/sheetAside.ts';
import type { SheetsAhead } from '../../model/view/sheetsAhead.ts';
import type { LineView } from '../../model/view/view.ts';
import { shared } from './shared.ts';

/** An entry made on this screen and how far it has come. */
export interface Sent {
  readonly entry: NewEntry;
  /** [SH10] aside: the gateway has it, and it is of a sheet that is not open; said until somebody has read it. */
  readonly state: 'onItsWay' | 'kept' | 'aside' | 'refused';
  /** When its state last changed, by this screen's own clock. */
  readonly since: number;
  /** When it was made, by which a screen that kept it says later how long it had it. */
  readonly made: Made;
  /** The view that was held when the gateway took it: the next one has it. */
  readonly tookAt?: number | undefined;
  readonly trouble?: string;
  readonly why?: string | undefined;
  readonly mend?: string;
  readonly aside?: Aside;
}

/** A moment by this screen's own clock, which a reload ends, and by its time of day, which people set. Milliseconds. */
export interface Made {
  readonly clock: number | undefined;
  readonly day: number;
  /** By the line's clock, as far as this screen could tell it then. */
  readonly line?: number;
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
  /** [SH8] What a sheet would have that is begun now, as the gateway told it last. */
  readonly ahead: SheetsAhead | undefined;
  /** [SH8] The sheet that was begun here last, and what was known of it then: numbers do not change under somebody's hands. */
  readonly begun: BegunHere | undefined;
  /** [SH10] The sheet that something was entered in here last, by its name; undefined once its end was read here. */
  readonly ownSheet: string | undefined;
}

/** More entries than this on their way are refused here, in words: a person must know that none is kept. */
export const SENT_MOST = 20;
/** [SH6] Of a setter's sheet so many are kept here until the gateway answers: a whole sheet has room, several times over. */
export const KEPT_MOST = 200;
/** How long a kept entry stays said. */
const KEPT_SHOWN_MS = 6_000;

/** What came of an entry; of one that an earlier page had the answer of, what is to be read of it. */
export type Answered = EntryAnswer | { readonly ok: true; readonly aside: Aside };

export interface Store {
  readonly get: () => Held;
  readonly subscribe: (told: () => void) => () => void;
  readonly whole: (number: number, view: LineView, clock: number) => void;
  /** False when a part before this one is missing: the whole has to be asked for. */
  readonly parts: (number: number, parts: Partial<LineView>, clock: number) => boolean;
  readonly linked: (link: Held['link'], trouble?: string) => void;
  readonly keepAhead: (ahead: SheetsAhead, begun?: BegunHere) => void;
  readonly tick: (clock: number) => void;
  /** Takes an entry on its way; `full` when too many are. `made`: by the clock of the page, unless it is said. */
  readonly enter: (
    entry: NewEntry,
    full: { readonly trouble: string; readonly mend: string },
    made?: Made,
  ) => 'taken' | 'full';
  readonly answered: (id: string, answer: Answered) => void;
  readonly keepOwnSheet: (sheet: string | undefined) => void;
  readonly dismiss: (id: string) => void;
  /** What was refused is on its way again, as it was made then. */
  readonly again: (id: string) => void;
}

/** [SH6] Whether an entry is kept here as long as there is no network, and never lost. */
export function isKept({ kind }: Pick<NewEntry, 'kind'>): boolean {
  return (KEPT_KINDS as readonly string[]).includes(kind);
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
    ahead: undefined,
    begun: undefined,
    ownSheet: undefined,
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
    keepOwnSheet: (ownSheet) => set({ ownSheet }),
    keepAhead: (ahead, begun = held.begun) => set({ ahead, begun }),
    tick: (at) =>
      set({
        clock: at,
        sent: held.sent.some((sent) => fades(sent, at))
          ? held.sent.filter((sent) => !fades(sent, at))
          : held.sent,
      }),
    enter: (entry, full, made = { clock: held.clock, day: Number.NaN }) => {
      const row = { entry, since: held.clock, made };
      if (isFull(held.sent, entry)) {
        const others = held.sent.filter((sent) => sent.state !== 'refused' || isKept(sent.entry));
        set({ sent: [...others, { ...row, state: 'refused', ...full }] });
        return 'full';
      }
      const others = held.sent.filter((sent) => !(sent.state === 'refused' && isMendedBy(sent.entry, entry)));
      set({
        sent: [...others, { ...row, state: 'onItsWay' }],
        begun: begunBy(held, entry),
        ownSheet: sheetOf(entry) ?? held.ownSheet,
      });
      return 'taken';
    },
    answered: (id, answer) =>
      change(id, ({ entry, made }) =>
        answer.ok
          ? {
              ...{ entry, made, since: held.clock, tookAt: held.number },
              ...(answer.aside ? { state: 'aside', aside: answer.aside } : { state: 'kept' }),
            }
          : {
              ...{ entry, made, state: 'refused', since: held.clock },
              ...{ trouble: answer.trouble, why: answer.why, mend: answer.mend },
            },
      ),
    again: (id) => change(id, ({ entry, made }) => ({ entry, made, state: 'onItsWay', since: held.clock })),
    dismiss: (id) => set({ sent: held.sent.filter((sent) => sent.entry.id !== id) }),
  };
}

function isFull(sent: readonly Sent[], entry: NewEntry): boolean {
  const kept = isKept(entry);
  const waits = ({ state }: Sent) => state === 'onItsWay' || state === 'aside';
  const waiting = sent.filter((one) => waits(one) && isKept(one.entry) === kept);
  return waiting.length >= (kept ? KEPT_MOST : SENT_MOST);
}

function begunBy({ ahead, begun, view }: Held, { kind, id }: NewEntry): BegunHere | undefined {
  return kind === 'sheetBegun' && ahead && ahead.line === view?.line.id ? { id, ahead } : begun;
}

/** The sheet that it is entered in. */
function sheetOf(entry: NewEntry): string | undefined {
  if (entry.kind === 'sheetBegun') return entry.id;
  return 'sheet' in entry ? entry.sheet : undefined;
}

/** Another of its kind takes the place of what was refused; of a sheet or a notice only one of the same step or notice does. */
function isMendedBy(refused: NewEntry, entry: NewEntry): boolean {
  const isOfOne = isKept(entry) || 'notice' in entry;
  return refused.kind === entry.kind && (!isOfOne || ofWhat(refused) === ofWhat(entry));
}

function ofWhat(entry: NewEntry): string {
  const {
    adjustment = '',
    step = '',
    station = '',
    notice = '',
  } = entry as Readonly<Record<string, unknown>>;
  return [adjustment, step, station, notice].join(' ');
}

/** JSON has no undefined: a part that has become undefined travels as null. */
function known(parts: Partial<LineView>): Partial<LineView> {
  return Object.fromEntries(Object.entries(parts).map(([part, value]) => [part, value ?? undefined]));
}

function fades(sent: Sent, clock: number): boolean {
  return sent.state === 'kept' && clock - sent.since > KEPT_SHOWN_MS;
}
