import type { PersonEntryBody } from '../../model/entries/entries.ts';
import { useEnter } from '../store/use.tsx';

/** Once it is kept, what stands on it is asked for again after so long. */
const AGAIN_MS = 1_200;

/** Enters something, and asks again for what it changes. */
export function useEntering(again: () => void): (body: PersonEntryBody) => void {
  const enter = useEnter();
  return (body) => {
    enter(body);
    setTimeout(again, AGAIN_MS);
  };
}
