import type { SignalIndex } from '../../model/signals/signals.ts';
import type { Known } from '../intake/memory.ts';
import type { LiveLine } from './liveLine.ts';

/**
 * What the tape says last of a signal, so that an intake that begins anew does not record it again; undefined while it
 * says nothing. What was bad or uncertain is read anew: it may be good now with the very value and time it had before.
 */
export function lastKnown(live: LiveLine, signal: SignalIndex): Known | undefined {
  const { values, known, ats } = live.fold().state;
  const at = ats[signal];
  if (at === undefined || at < 0) return undefined;
  const isLink = live.line.signals[signal]!.role === 'link';
  return { at, value: isLink || known[signal] === 1 ? values[signal]! : null };
}
