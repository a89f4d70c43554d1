import { useEffect, useMemo, useState } from 'react';
import type { NoticeSettings } from '../../model/notices/settings.ts';
import { useEnter, useHeld } from '../store/use.tsx';
import type { Sent } from '../store/store.ts';

/** What somebody changed and has not saved yet: kept in this browser, so that neither a refusal nor a reload loses it. */
interface Draft {
  readonly settings: NoticeSettings;
  readonly why: string;
  /** What was in use when it was begun. */
  readonly from: NoticeSettings;
}

export interface Drafting {
  readonly settings: NoticeSettings;
  readonly why: string;
  readonly isChanged: boolean;
  /** Other settings were saved since it was begun. */
  readonly isMoved: boolean;
  readonly isSending: boolean;
  readonly change: (settings: NoticeSettings) => void;
  readonly say: (why: string) => void;
  /** What is saved by itself meanwhile changes here as well, so that saving the rest does not take it back. */
  readonly both: (to: (settings: NoticeSettings) => NoticeSettings) => void;
  readonly back: () => void;
  readonly save: () => void;
}

/** The settings as they are being changed on this page. */
export function useDraft(line: string, inUse: NoticeSettings): Drafting {
  const key = `notice settings ${line}`;
  const [draft, set] = useState<Draft | undefined>(() => readDraft(localStorage, key));
  const enter = useEnter();
  const sent = useHeld((held) => held.sent);
  const state = useMemo(() => stateOf(sent, draft), [sent, draft]);
  const keep = (next: Draft | undefined) => {
    keepDraft(localStorage, key, next);
    set(next);
  };
  useEffect(() => {
    if (state !== 'kept') return;
    keepDraft(localStorage, key, undefined);
    set(undefined);
  }, [state, key]);
  const { settings, why, from } = draft ?? { settings: inUse, why: '', from: inUse };
  return {
    settings,
    why,
    isChanged: !same(settings, inUse),
    isMoved: !same(from, inUse),
    isSending: state === 'onItsWay',
    change: (next) => keep({ settings: next, why, from }),
    say: (next) => keep({ settings, why: next, from }),
    both: (to) => draft && keep({ settings: to(settings), why, from: to(from) }),
    back: () => keep(undefined),
    save: () => enter({ kind: 'noticeSettings', settings, why: why.trim() }),
  };
}

function same(a: NoticeSettings, b: NoticeSettings): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** How far the draft has come as an entry; undefined while it is none. */
function stateOf(sent: readonly Sent[], draft: Draft | undefined): Sent['state'] | undefined {
  if (draft === undefined) return undefined;
  return sent.findLast(
    ({ entry }) =>
      entry.kind === 'noticeSettings' &&
      entry.why === draft.why.trim() &&
      same(entry.settings, draft.settings),
  )?.state;
}

/** A number that is half typed is none, which JSON writes as null: it is none again. */
export function readDraft(kept: Pick<Storage, 'getItem'>, key: string): Draft | undefined {
  try {
    const text = kept.getItem(key);
    const draft = text === null ? undefined : (JSON.parse(text, noNumber) as Partial<Draft>);
    return draft?.settings?.when && draft.settings.who && draft.from
      ? { settings: draft.settings, why: draft.why ?? '', from: draft.from }
      : undefined;
  } catch {
    return undefined; // nothing that this page wrote
  }
}

function noNumber(_name: string, value: unknown): unknown {
  return value === null ? Number.NaN : value;
}

export function keepDraft(
  kept: Pick<Storage, 'setItem' | 'removeItem'>,
  key: string,
  draft: Draft | undefined,
): void {
  try {
    if (draft === undefined) kept.removeItem(key);
    else kept.setItem(key, JSON.stringify(draft));
  } catch {
    // a browser that keeps nothing: it stays on the page as long as that is open
  }
}
