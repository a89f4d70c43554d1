import type { LineFold } from '../fold/fold.ts';
import { type AroundLane, laneOf } from '../past/around.ts';
import type { Change, Role, Signal } from '../signals/signals.ts';
import type { Instant } from '../units/units.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import { GOOD } from '../status/status.ts';

/** Of the whole machine, beside a station's own: why it stood, and how it ran. */
const OF_MACHINE: ReadonlySet<Role> = new Set([
  'state',
  'stopReason',
  'alarmNumber',
  'alarmText',
  'speedActual',
  'condition',
]);
/** Readings of one signal that are drawn; a faster one keeps its first ones, and says how many more there are. */
const READINGS_MOST = 6_000;

/**
 * What the signals of a station read in a stretch, and those of the machine that say why it stood. `before`: the line at its
 * beginning; `changes`: all of the stretch, in line time. Readings count from its beginning.
 */
export function stationLanes(
  before: LineFold,
  changes: readonly Change[],
  { station, from }: { readonly station: string; readonly from: Instant },
): readonly AroundLane[] {
  const { index, state } = before;
  const told = new Map<number, Change[]>();
  for (const change of changes) {
    const list = told.get(change.signal);
    if (list) list.push(change);
    else told.set(change.signal, [change]);
  }
  return index.line.signals
    .filter((signal) => isOf(index, signal, station))
    .map((signal) => {
      const value = state.known[signal.index] === 0 ? null : (state.values[signal.index] ?? null);
      const first: Change = { signal: signal.index, at: from, received: from, status: GOOD, value };
      const readings = [first, ...(told.get(signal.index) ?? [])];
      return laneOf(index, signal, readings, { from, zero: from, most: READINGS_MOST });
    });
}

function isOf({ line }: LineIndex, { role, of }: Signal, station: string): boolean {
  if (OF_MACHINE.has(role)) return true;
  if (role === 'adjustment') return line.adjustments.find(({ number }) => number === of)?.station === station;
  if (role === 'rejectCount') return line.rejects.find(({ id }) => id === of)?.station === station;
  if (role === 'notLoadedCount') return line.loading.station === station;
  return of === station;
}
