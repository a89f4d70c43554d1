import { useEffect, useState, useSyncExternalStore } from 'react';
import type { Instant } from '../../model/units/units.ts';
import { type Playing, ReplaySession } from './session.ts';

const CLOSED: Playing = { progress: { kind: 'opening', share: 0 }, frame: undefined };
const nobody = () => () => {};

function beside(): Worker {
  return new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
}

/** A page that begins with a replay reads its worker's code while it asks the gateway what there is. */
let spare = globalThis.location?.pathname.startsWith('/replay') ? beside() : undefined;

/** The replay of a stretch, opened when the screen shows it and ended when it shows another. */
export function useReplay(
  line: string,
  from: Instant | undefined,
  to: Instant | undefined,
): readonly [ReplaySession | undefined, Playing] {
  const [session, set] = useState<ReplaySession>();
  useEffect(() => {
    if (from === undefined || to === undefined) return;
    const opened = new ReplaySession(spare ?? beside(), line, from, to);
    spare = undefined;
    set(opened);
    return () => {
      opened.end();
      set(undefined);
    };
  }, [line, from, to]);
  const playing = useSyncExternalStore(session?.subscribe ?? nobody, session?.get ?? (() => CLOSED));
  return [session, playing];
}
