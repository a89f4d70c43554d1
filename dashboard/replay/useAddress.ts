import { useEffect } from 'react';

/** The moment looked at stands in the address once it has rested so long. */
const REST_MS = 400;

/** [RP22] Where the same moment and view of the same line open: anywhere, by anybody who may look. */
export function addressNow(line: string, at: number): string {
  const search = new URLSearchParams(location.search);
  search.set('line', line);
  search.set('at', String(at));
  // the moment lies in the shift that is shown: it says by itself which that is
  search.delete('of');
  return `${location.origin}${location.pathname}?${search}`;
}

/** The address opens the same moment; it follows when the moment rests, and makes no history of its own. */
export function useAddress(line: string, at: number, plays: boolean): void {
  useEffect(() => {
    if (plays) return;
    const timer = setTimeout(() => {
      history.replaceState(null, '', addressNow(line, at));
    }, REST_MS);
    return () => clearTimeout(timer);
  }, [line, at, plays]);
}
