import { useEffect, useMemo, useState } from 'react';
import type { NoticeSettings } from '../../model/notices/settings.ts';
import { useEnter, useHeld } from '../store/use.tsx';
import type { Sent } from '../store/store.ts';

/** What somebody changed and has not saved yet: kept in this browser, so that neither a refusal nor a reload loses it. */
interface Draft {
  readonly settings: NoticeSettings;
  readonly why: string;
  /** Of which settings it was made: when those were chosen. */
  readonly base: number | undefined;
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
  readonly back: () => void;
  readonly save: () => void;
}

interface InUse {
  readonly settings: NoticeSettings;
  readonly at?: number | undefined;
}

/** The settings as they are being changed on this page; `taken` is told when they are on the tape. */
export function useDraft(line: string, inUse: InUse, taken: () => void): Drafting {
  const key = `notice settings ${line}`;
  const [draft, set] = useState<Draft | undefined>(() => readDraft(localStorage, key));
  const enter = useEnter();
  const sent = useHeld((held) => held.sent);
  const settings = draft?.settings ?? inUse.settings;
  const state = useMemo(() => stateOf(sent, draft), [sent, draft]);
  const keep = (next: Draft | undefined) => {
    keepDraft(localStorage, key, next);
    set(next);
  };
  useEffect(() => {
    if (state !== 'kept') return;
    keepDraft(localStorage, key, undefined);
    set(undefined);
    taken();
  }, [state, key, taken]);
  const base = draft === undefined ? inUse.at : draft.base;
  const why = draft?.why ?? '';
  return {
    settings,
    why,
    isChanged: draft !== undefined && JSON.stringify(settings) !== JSON.stringify(inUse.settings),
    isMoved: draft !== undefined && draft.base !== inUse.at,
    isSending: state === 'onItsWay',
    change: (next) => keep({ settings: next, why, base }),
    say: (next) => keep({ settings, why: next, base }),
    back: () => keep(undefined),
    save: () => enter({ kind: 'noticeSettings', settings, why: why.trim() }),
  };
}

/** How far the draft has come as an entry; undefined while it is none. */
function stateOf(sent: readonly Sent[], draft: Draft | undefined): Sent['state'] | undefined {
  if (draft === undefined) return undefined;
  const same = JSON.stringify(draft.settings);
  return sent.findLast(
    ({ entry }) =>
      entry.kind === 'noticeSettings' &&
      entry.why === draft.why.trim() &&
      JSON.stringify(entry.settings) === same,
  )?.state;
}

/** A number that is half typed is none, which JSON writes as null: it is none again. */
export function readDraft(kept: Pick<Storage, 'getItem'>, key: string): Draft | undefined {
  try {
    const text = kept.getItem(key);
    const draft = text === null ? undefined : (JSON.parse(text, noNumber) as Partial<Draft>);
    return draft?.settings?.when === undefined || draft.settings.who === undefined
      ? undefined
      : { settings: draft.settings, why: draft.why ?? '', base: draft.base };
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
