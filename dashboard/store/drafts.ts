import { useState } from 'react';
import type { NewEntry } from '../../model/view/protocol.ts';
import type { Store } from './store.ts';
import { usePart } from './use.tsx';

/** What somebody typed or chose for an entry that is not on the tape yet. */
export type Fields = Readonly<Record<string, string>>;

interface Draft {
  readonly of: string;
  readonly fields: Fields;
}

const KEY = 'drafts';
/** So many of the newest are kept: whoever leaves more than these half said has forgotten the first. */
const DRAFTS_MOST = 40;

type Kept = Pick<Storage, 'getItem' | 'setItem'>;

/** What an entry is a draft of while it is typed; undefined for what is entered with one tap. */
export function draftOf(line: string, entry: NewEntry): string | undefined {
  switch (entry.kind) {
    case 'noticeClosed':
      return closingOf(line, entry.notice);
    case 'noticeShelved':
      return shelfOf(line, entry.notice);
    case 'closed':
      return findingOf(line, entry.finding);
    case 'correction':
      return entry.body?.kind === 'noticeClosed' ? closingOf(line, entry.body.notice) : undefined;
    default:
      return undefined;
  }
}

export const closingOf = (line: string, notice: string) => `closing ${line} ${notice}`;
export const shelfOf = (line: string, notice: string) => `shelf ${line} ${notice}`;
export const findingOf = (line: string, finding: string) => `finding ${line} ${finding}`;

export function readDraft(kept: Pick<Storage, 'getItem'>, of: string): Fields | undefined {
  return read(kept).find((draft) => draft.of === of)?.fields;
}

/** Without fields it is thrown away. */
export function keepDraft(kept: Kept, of: string, fields: Fields | undefined): void {
  const others = read(kept).filter((draft) => draft.of !== of);
  const next = fields === undefined ? others : [...others, { of, fields }];
  try {
    kept.setItem(KEY, JSON.stringify(next.slice(-DRAFTS_MOST)));
  } catch {
    // a browser that keeps nothing: it stays on the page as long as that is open
  }
}

/** A draft is there until the gateway has it on the tape: refused, without a network or loaded anew it stays. */
export function dropTakenDrafts(store: Store, kept: Kept): void {
  let seen = store.get().sent;
  store.subscribe(() => {
    const { sent, view } = store.get();
    if (sent === seen || view === undefined) return;
    const before = new Set(seen.filter(({ state }) => state === 'kept').map(({ entry }) => entry.id));
    seen = sent;
    for (const { entry, state } of sent) {
      if (state !== 'kept' || before.has(entry.id)) continue;
      const of = draftOf(view.line.id, entry);
      if (of !== undefined && readDraft(kept, of)) keepDraft(kept, of, undefined);
    }
  });
}

export interface Drafting<Typed extends Fields> {
  readonly fields: Typed;
  readonly change: (more: Partial<Typed>) => void;
  readonly drop: () => void;
}

/** What is typed here, which a refusal, a reload and the end of a log-in leave as it is. `first`: what stands there before. */
export function useDraft<Typed extends Fields>(of: (line: string) => string, first: Typed): Drafting<Typed> {
  const key = of(usePart('line').id);
  const [fields, set] = useState<Typed>(() => ({ ...first, ...readDraft(shelf(), key) }));
  return {
    fields,
    change: (more) => {
      const next = { ...fields, ...more };
      keepDraft(shelf(), key, next);
      set(next);
    },
    drop: () => {
      keepDraft(shelf(), key, undefined);
      set(first);
    },
  };
}

/** What was typed on this screen and is not on the tape, read once for many questions. */
export function keptDrafts(): (of: string) => Fields | undefined {
  const drafts = new Map(read(shelf()).map(({ of, fields }) => [of, fields]));
  return (of) => drafts.get(of);
}

const NOTHING_KEPT: Kept = { getItem: () => null, setItem: () => {} };

/** Where no browser draws it there is nothing to keep it in. */
function shelf(): Kept {
  return typeof localStorage === 'undefined' ? NOTHING_KEPT : localStorage;
}

/** What an earlier page left; nothing where it cannot be read as that. */
function read(kept: Pick<Storage, 'getItem'>): readonly Draft[] {
  try {
    const rows: unknown = JSON.parse(kept.getItem(KEY) ?? '[]');
    return Array.isArray(rows) ? (rows as unknown[]).filter(isDraft) : [];
  } catch {
    return [];
  }
}

function isDraft(row: unknown): row is Draft {
  const { of, fields } = (row ?? {}) as Partial<Draft>;
  return (
    typeof of === 'string' &&
    typeof fields === 'object' &&
    fields !== null &&
    Object.values(fields).every((field) => typeof field === 'string')
  );
}
