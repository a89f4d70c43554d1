import type { Author } from '../../model/entries/entries.ts';
import type { Store } from './store.ts';

/**
 * [SH10] Keeps beside the page in which sheet something was entered here last: a page that is loaded again can say that another took
 * its place meanwhile. A browser that keeps nothing goes on without.
 */
export function keepOwnSheet(
  store: Store,
  kept: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>,
  author: Author,
): void {
  const key = `own sheet ${JSON.stringify(author)}`;
  let written = kept.getItem(key) ?? undefined;
  store.keepOwnSheet(written);
  store.subscribe(() => {
    const { ownSheet } = store.get();
    if (ownSheet === written) return;
    written = ownSheet;
    try {
      if (ownSheet === undefined) kept.removeItem(key);
      else kept.setItem(key, ownSheet);
    } catch {
      // no room, or not allowed: this page knows it all the same
    }
  });
}
