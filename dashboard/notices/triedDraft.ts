import { useEffect, useRef, useState } from 'react';
import type { NoticeSettings } from '../../model/notices/settings.ts';
import type { Tried } from '../../model/notices/tried.ts';
import { words } from '../app/words.ts';

export interface TriedDraft {
  /** What the settings as they are drafted would have done; undefined until it was asked for, and once they are others. */
  readonly tried: Tried | undefined;
  readonly isOnItsWay: boolean;
  readonly trouble: string | undefined;
  readonly ask: () => void;
}

interface Came {
  readonly of: string;
  readonly tried?: Tried;
  readonly trouble?: string;
}

/** Asks what drafted settings would have done, when somebody wants to know; given up when the page goes or asks again. */
export function useTriedDraft(path: string, settings: NoticeSettings): TriedDraft {
  const of = JSON.stringify(settings);
  const [came, set] = useState<Came>();
  const asking = useRef<AbortController>(undefined);
  useEffect(() => () => asking.current?.abort(), []);
  const ask = async () => {
    asking.current?.abort();
    const ends = new AbortController();
    asking.current = ends;
    set({ of });
    const got = await tryOn(path, of, ends.signal);
    if (!ends.signal.aborted) set({ of, ...got });
  };
  const now = came?.of === of ? came : undefined;
  return {
    tried: now?.tried,
    trouble: now?.trouble,
    isOnItsWay: now !== undefined && !now.tried && now.trouble === undefined,
    ask: () => void ask(),
  };
}

async function tryOn(path: string, settings: string, signal: AbortSignal): Promise<Omit<Came, 'of'>> {
  const headers = { 'content-type': 'application/json' };
  try {
    const body = `{"settings":${settings}}`;
    const response = await fetch(path, { method: 'POST', headers, body, signal });
    const answer = (await response.json()) as Tried & { readonly trouble?: string; readonly mend?: string };
    if (response.ok) return { tried: answer };
    return { trouble: [answer.trouble, answer.mend].filter(Boolean).join(' ') };
  } catch {
    return { trouble: words.screen.people.noAnswer }; // the sheet says so, and it can be asked again
  }
}
