import { useEffect, useRef, useState } from 'react';

/** What came of a question to the gateway. With trouble, `data` is what it answered before. */
export interface Asked<Data> {
  readonly data: Data | undefined;
  readonly trouble: string | undefined;
  readonly state: 'asking' | 'answered' | 'refused' | 'noAnswer';
  /** Asks again now. */
  readonly again: () => void;
}

interface Answer<Data> {
  readonly path: string | undefined;
  readonly data: Data | undefined;
  readonly state: Asked<Data>['state'];
  readonly trouble: string | undefined;
}

/** Asks the gateway under a path, and again every so many milliseconds; nothing while the path is undefined. */
export function useAsked<Data>(path: string | undefined, everyMs: number): Asked<Data> {
  const [answer, set] = useState<Answer<Data>>({
    path,
    data: undefined,
    state: 'asking',
    trouble: undefined,
  });
  const askNow = useRef(() => {});
  useEffect(() => {
    if (path === undefined) return;
    const ends = new AbortController();
    const ask = async () => {
      const got = await askOnce<Data>(path, ends.signal);
      if (ends.signal.aborted) return;
      set((before) => ({ ...got, path, data: got.data ?? (before.path === path ? before.data : undefined) }));
    };
    askNow.current = () => void ask();
    void ask();
    const timer = setInterval(() => void ask(), everyMs);
    return () => {
      ends.abort();
      clearInterval(timer);
    };
  }, [path, everyMs]);
  const current = answer.path === path ? answer : { ...answer, data: undefined, state: 'asking' as const };
  return {
    data: current.data,
    state: current.state,
    trouble: current.trouble,
    again: () => askNow.current(),
  };
}

async function askOnce<Data>(path: string, signal: AbortSignal): Promise<Omit<Answer<Data>, 'path'>> {
  try {
    const response = await fetch(path, { signal });
    const body = (await response.json()) as Data & { readonly trouble?: string };
    if (response.ok) return { data: body, state: 'answered', trouble: undefined };
    return { data: undefined, state: 'refused', trouble: body.trouble ?? String(response.status) };
  } catch {
    return { data: undefined, state: 'noAnswer', trouble: undefined }; // the screen says so, and asks again
  }
}
