import type { BegunHere } from '../../model/view/sheetKept.ts';
import type { SheetsAhead } from '../../model/view/sheetsAhead.ts';
import type { Store } from './store.ts';

const KEY = 'sheets ahead';

interface Kept {
  readonly ahead: SheetsAhead;
  readonly begun: BegunHere | undefined;
}

/**
 * [SH8] Keeps beside the page what a sheet would have that is begun now, and what the one begun here had: a page that is loaded again
 * has both. Of one line, as told last. A browser that keeps nothing goes on without.
 */
export function keepAhead(store: Store, kept: Pick<Storage, 'getItem' | 'setItem'>): void {
  const before = read(kept);
  if (before) store.keepAhead(before.ahead, before.begun);
  let { ahead: written, begun } = store.get();
  store.subscribe(() => {
    const now = store.get();
    if (now.ahead === undefined || (now.ahead === written && now.begun === begun)) return;
    written = now.ahead;
    begun = now.begun;
    try {
      kept.setItem(KEY, JSON.stringify({ ahead: written, begun } satisfies Kept));
    } catch {
      // no room, or not allowed: this page has it all the same, and only one that is loaded again does not
    }
  });
}

/** What an earlier page left; nothing where it cannot be read as that. */
function read(kept: Pick<Storage, 'getItem'>): Kept | undefined {
  try {
    const row = JSON.parse(kept.getItem(KEY) ?? 'null') as Partial<Kept> | null;
    return row?.ahead && isAhead(row.ahead) && (!row.begun || isAhead(row.begun.ahead))
      ? { ahead: row.ahead, begun: row.begun }
      : undefined;
  } catch {
    return undefined;
  }
}

function isAhead(ahead: Partial<SheetsAhead>): ahead is SheetsAhead {
  const { line, at, sizes, walk } = ahead;
  return typeof line === 'string' && typeof at === 'number' && Array.isArray(sizes) && Array.isArray(walk);
}
