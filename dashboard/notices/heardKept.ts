import type { Heard } from './sounding.ts';

/** Under this name the browser's tab keeps what was heard in it: every screen is a page of its own. */
const KEPT = 'noticesHeard';

/** What was heard in this tab on the page before; nothing where it cannot be read. */
export function readHeard(kept: Pick<Storage, 'getItem'>): Heard {
  try {
    const rows: unknown = JSON.parse(kept.getItem(KEPT) ?? '[]');
    return new Map(Array.isArray(rows) ? (rows as unknown[]).filter(isHeard) : []);
  } catch {
    return new Map();
  }
}

export function keepHeard(kept: Pick<Storage, 'setItem'>, heard: Heard): void {
  try {
    kept.setItem(KEPT, JSON.stringify([...heard]));
  } catch {
    // a browser that keeps nothing: the next page sounds once more for what is still not taken
  }
}

function isHeard(row: unknown): row is readonly [string, number] {
  return Array.isArray(row) && typeof row[0] === 'string' && typeof row[1] === 'number';
}
