import { type CounterStep, resetTo, SLACK } from '../counters/counters.ts';
import type { Signal } from '../signals/signals.ts';
import type { Stepping } from './stepping.ts';

/** Falls of one gap that are kept until it ends; of more, each is taken as it looks. */
const FALLS_KEPT = 100;

/**
 * [CO3] In a gap a counter may have rolled over, or its PLC may have been reset: what else is heard by the gap's end
 * tells. True where this fall is kept until then, and counts nothing yet. `most`: what may have been made meanwhile.
 */
export function keepFall(
  { state }: Stepping,
  signal: Signal,
  { gained, mark }: CounterStep,
  now: number,
  most: number,
): boolean {
  const { gap } = state;
  if (!gap || mark !== 'rollover' || gap.falls.length >= FALLS_KEPT) return false;
  // one step after another, as they were queued through an outage, is as good as seen
  if (gained <= SLACK && state.ats[signal.index]! >= gap.from) return false;
  gap.falls.push({ signal: signal.index, rolled: gained, asReset: resetTo(now, most).gained });
  return true;
}

/** A counter of a server was reset for certain: so may others be that fell in the same gap. */
export function noteReset({ state }: Stepping, server: string): void {
  if (state.gap && !state.gap.reset.includes(server)) state.gap.reset.push(server);
}

/** What each fall kept in the gap was, as it ends, in the order in which they came. They are kept no longer. */
export function takeFalls({
  state,
  index,
}: Stepping): readonly (CounterStep & { readonly signal: Signal })[] {
  const { gap } = state;
  if (!gap) return [];
  return gap.falls.splice(0).map(({ signal: place, rolled, asReset }) => {
    const signal = index.line.signals[place]!;
    return gap.reset.includes(signal.server)
      ? { signal, gained: asReset, mark: 'reset' }
      : { signal, gained: rolled, mark: 'rollover' };
  });
}
