import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Instant } from '../../model/units/units.ts';
import { type Playing, ReplaySession } from './session.ts';

const CLOSED: Playing = { progress: { kind: 'opening', share: 0 }, frame: undefined };
const nobody = () => () => {};

/** The replay of a stretch, opened when the screen shows it and ended when it shows another. */
export function useReplay(
  line: string,
  from: Instant | undefined,
  to: Instant | undefined,
): readonly [ReplaySession | undefined, Playing] {
  const [session, set] = useState<ReplaySession>();
  useEffect(() => {
    if (from === undefined || to === undefined) return;
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
    const opened = new ReplaySession(worker, line, from, to);
    set(opened);
    return () => {
      opened.end();
      set(undefined);
    };
  }, [line, from, to]);
  const playing = useSyncExternalStore(session?.subscribe ?? nobody, session?.get ?? (() => CLOSED));
  return [session, playing];
}
