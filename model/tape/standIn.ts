import { byLineTime, type Change, type Signal } from '../signals/signals.ts';
import { BAD_DATA_LOST, GOOD } from '../status/status.ts';
import type { Instant } from '../units/units.ts';

/** A stretch of a tape that cannot be read, in the signals of its line. */
export interface Unread {
  /** Line time from what came before it to its end. */
  readonly from: Instant;
  readonly to: Instant;
  /** When the last of it was received. */
  readonly received: Instant;
  /** What each signal had told last at its end, where that is known. */
  readonly last: readonly Change[];
}

/** Which ends of the stretch are read: whoever stops within it learns no more than that nothing is known. */
export interface Ends {
  readonly begins: boolean;
  readonly ends: boolean;
}

/**
 * What is folded in place of a stretch of the tape that cannot be read: as if no server had been heard, and then every tag had
 * been read. So its time is unknown, what counters gained in it is counted, and everything else goes on. What a signal
 * had told at its end and nobody knows stays unknown until it tells something again; a server that was not heard then is not heard
 * still.
 */
export function standIn(signals: readonly Signal[], unread: Unread, { begins, ends }: Ends): Change[] {
  const { from, to, received, last } = unread;
  const links = signals.filter(({ role }) => role === 'link').map(({ index }) => index);
  const lost = links.map((signal): Change => ({ signal, at: from, received, status: GOOD, value: false }));
  if (!ends) return begins ? lost : [];
  const told = new Map(last.map((change) => [change.signal, change]));
  const read = signals
    .filter(({ role }) => role !== 'link' && role !== 'entry')
    .map(({ index }): Change => {
      const { status, value } = told.get(index) ?? { status: BAD_DATA_LOST, value: null };
      return { signal: index, at: to, received, status, value };
    });
  const back = links
    .filter((signal) => told.get(signal)?.value !== false)
    .map((signal): Change => ({ signal, at: to, received, status: GOOD, value: true }));
  return [...lost, ...[...read, ...back].sort(byLineTime)];
}
