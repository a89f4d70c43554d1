import type { Author } from '../../model/entries/entries.ts';
import type { NewEntry } from '../../model/view/protocol.ts';
import type { Store } from './store.ts';

/** An entry that waited longer may no longer be meant: it is given back to the person. Milliseconds. */
const OLD_MS = 10 * 60_000;

interface Waiting {
  readonly entry: NewEntry;
  /** When it was made, by the time of day of this screen. */
  readonly at: number;
}

/**
 * Keeps entries that are still on their way beside the page, so that loading it again, or a browser that dies, loses
 * none: they are sent again under the same id, which the gateway takes once. One that has grown old is refused in words
 * instead. A browser that keeps nothing goes on without.
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
  const made = new Map<string, number>();
  for (const { entry, at } of read(kept, key)) {
    const isOld = !(parts.now() - at < OLD_MS);
    made.set(entry.id, at);
    const taken = store.enter(entry, parts.full);
    if (isOld && taken === 'taken') store.answered(entry.id, { ok: false, ...parts.old });
  }
  let written = store.get().sent;
  const write = () => {
    const { sent } = store.get();
    if (sent === written) return;
    written = sent;
    const waiting = sent.filter(({ state }) => state === 'onItsWay');
    const rows = waiting.map(({ entry }): Waiting => {
      const at = made.get(entry.id) ?? parts.now();
      made.set(entry.id, at);
      return { entry, at };
    });
    if (rows.length === 0) made.clear();
    try {
      kept.setItem(key, JSON.stringify(rows));
    } catch {
      // no room, or not allowed: the bar on the screen says for each entry that it is still on its way
    }
  };
  store.subscribe(write);
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
