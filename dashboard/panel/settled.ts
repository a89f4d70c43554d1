import { useEffect, useState } from 'react';

/** A finger that is already on its way comes down within this long after what it aims at was changed. */
const SETTLES_MS = 700;

/**
 * Whether what is asked has stood long enough to be meant. Keys that change under a finger would take an answer for
 * another stop than the one that was read, so they are dead until then.
 */
export function useSettled(asked: string): boolean {
  const [settled, settle] = useState<string | undefined>();
  useEffect(() => {
    const timer = setTimeout(() => settle(asked), SETTLES_MS);
    return () => clearTimeout(timer);
  }, [asked]);
  return settled === asked;
}
