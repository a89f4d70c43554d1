import type { Seen } from './seen.ts';
import type { PositionView } from './view.ts';

const POCKETS_SHOWN = 100;

/** Each loading position's own pockets: the last hundred, newest first. */
export function positionsView(seen: Seen): PositionView[] {
  const { index, state } = seen;
  return index.line.loading.positions.map((position, place) => {
    const shown = Math.min(POCKETS_SHOWN, state.loadingPockets);
    const at = new Set(state.notLoaded[place]?.at ?? []);
    const last: boolean[] = [];
    for (let back = 0; back < shown; back += 1) last.push(at.has(state.loadingPockets - back));
    return { ...position, notLoadedThisShift: state.shift.notLoadedByPosition[place] ?? 0, last };
  });
}
