import type { Author } from '../../model/entries/entries.ts';
import type { NewEntry } from '../../model/view/protocol.ts';
import type { Aside } from '../../model/view/sheetAside.ts';
import { isKept, type Sent, type Store } from './store.ts';

/** An entry that waited longer may no longer be meant: it is given back to the person. Milliseconds. */
const OLD_MS = 10 * 60_000;

interface Waiting {
  readonly entry: NewEntry;
  /** When it was made, by the time of day of this screen. */
  readonly at: number;
  /** It was refused, and nobody has read that yet. */
  readonly trouble?: string;
  readonly why?: string | undefined;
  readonly mend?: string;
  /** [SH10] It was taken, and nobody has read yet that its sheet is not open. */
  readonly aside?: Aside;
}

/**
 * Keeps entries that are still on their way beside the page, so that loading it again, or a browser that dies, loses
 * none: they are sent again under the same id, which the gateway takes once. One that has grown old is refused in words
 * instead; but [SH6] what a setter entered waits as long as it has to, and is kept refused as well, until somebody read that,
 * [SH10] as is what was taken of a sheet that is not open.
 * Another page of the same screen keeps its own in the same place: they are left there. A browser that keeps nothing goes on
 * without.
 */
export function keepWaiting(
  store: Store,
  kept: Pick<Storage, 'getItem' | 'setItem'>,
  author: Author,
  parts: {
    readonly now: () => number;
    readonly old: { readonly trouble: string; readonly mend: string };
    readonly full: { readonly trouble: string; readonly mend: string };
  },
): void {
  const key = `waiting ${JSON.stringify(author)}`;
  const own = new Map<string, number>();
  for (const { entry, at, trouble, why, mend, aside } of read(kept, key)) {
    own.set(entry.id, at);
    if (store.enter(entry, parts.full, { clock: undefined, day: at }) !== 'taken') continue;
    const isOld = !isKept(entry) && !(parts.now() - at < OLD_MS);
    if (aside !== undefined) store.answered(entry.id, { ok: true, aside });
    else if (trouble !== undefined)
      store.answered(entry.id, {
        ok: false,
        trouble,
        ...(why === undefined ? {} : { why }),
        mend: mend ?? '',
      });
    else if (isOld) store.answered(entry.id, { ok: false, ...parts.old });
  }
  let written = store.get().sent;
  const write = () => {
    const { sent } = store.get();
    if (sent === written) return;
    written = sent;
    const rows = sent.filter(waits).map((one): Waiting => {
      const at = own.get(one.entry.id) ?? (Number.isFinite(one.made.day) ? one.made.day : parts.now());
      own.set(one.entry.id, at);
      const { entry, trouble, why, mend = '', aside } = one;
      const refused = trouble === undefined ? {} : { trouble, why, mend };
      return { entry, at, ...refused, ...(aside === undefined ? {} : { aside }) };
    });
    const others = read(kept, key).filter(({ entry }) => !own.has(entry.id));
    try {
      kept.setItem(key, JSON.stringify([...others, ...rows]));
      // what is settled is not there any more, so nobody has to know that it was this page's
      const waiting = new Set(rows.map(({ entry }) => entry.id));
      for (const id of own.keys()) if (!waiting.has(id)) own.delete(id);
    } catch {
      // no room, or not allowed: the bar on the screen says for each entry that it is still on its way
    }
  };
  store.subscribe(write);
}

function waits({ state, entry }: Sent): boolean {
  return state === 'onItsWay' || (isKept(entry) && (state === 'refused' || state === 'aside'));
}

/** What an earlier page left; nothing where it cannot be read as that. */
function read(kept: Pick<Storage, 'getItem'>, key: string): readonly Waiting[] {
  try {
    const rows: unknown = JSON.parse(kept.getItem(key) ?? '[]');
    return Array.isArray(rows) ? (rows as unknown[]).filter(isWaiting) : [];
  } catch {
    return [];
  }
}

function isWaiting(row: unknown): row is Waiting {
  const { entry, at } = row as Partial<Waiting>;
  return typeof at === 'number' && typeof entry?.id === 'string' && typeof entry.kind === 'string';
}
