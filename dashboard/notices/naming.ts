import { nameOf } from '../blank/told.ts';
import { useMoment, usePart } from '../store/use.tsx';

/** By what sentences of notices name moments and stations. */
export function useNaming() {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const { stations } = usePart('path');
  return { zone, now: clock, nameOf: (id: string) => nameOf(stations, id) ?? id };
}
