import { useEffect, useState } from 'react';
import type { ReplayWindow } from '../../model/replay/asked.ts';
import { instantFromMs } from '../../model/units/units.ts';
import type { ReplaySession } from './session.ts';

/** The window keeps its place while the moment looked at is well within it, so that the lanes stand still under the cursor. */
export function windowAround(
  at: number,
  wide: number,
  { from, to }: { readonly from: number; readonly to: number },
): { readonly from: number; readonly to: number } {
  const step = wide / 2;
  const begin = Math.floor((at - from - step / 2) / step) * step + from;
  const last = Math.max(from, to - wide);
  const begun = Math.min(last, Math.max(from, begin));
  return { from: begun, to: Math.min(to, begun + wide) };
}

/** What was found of the window that was asked for last; while another is looked at the one before stays. */
export function useWindow(
  session: ReplaySession | undefined,
  open: boolean,
  { from, to }: { readonly from: number; readonly to: number },
  station: string | undefined,
): ReplayWindow | undefined {
  const [shown, set] = useState<ReplayWindow>();
  useEffect(() => {
    if (!session || !open) return;
    let wanted = true;
    void session
      .window(instantFromMs(from), instantFromMs(to), station)
      .then((found) => wanted && found && set(found));
    return () => {
      wanted = false;
    };
  }, [session, open, from, to, station]);
  return shown;
}
