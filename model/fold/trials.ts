import type { Change, Signal } from '../signals/signals.ts';
import { active } from './lineIndex.ts';
import type { Stepping } from './stepping.ts';

/** [CH5] Since when the line's tag says so. */
export function trialTold({ state }: Stepping, signal: Signal, { value, at }: Change): void {
  if (!active(signal, value)) state.trialSince = null;
  else state.trialSince ??= at;
}

/**
 * [CH5] How much of what a counter gained in produce mode are trial cartons: all of it while the line's tag says so; else as many as
 * the check has yet to see of the first cartons after a changeover, where the line's file says how many those are. Before the check
 * a carton is one as long as the check has not seen them all.
 */
export function trialPart({ state, index }: Stepping, { role }: Signal, gained: number): number {
  const { changeover } = state;
  if (!changeover) return 0;
  const tag = index.line.signals[index.trialSignal];
  if (tag && active(tag, state.values[tag.index] ?? null)) return gained;
  const left = Math.max(0, index.line.settings.trialCartons - changeover.trialCartons);
  if (left === 0) return 0;
  return role === 'goodCount' || role === 'rejectCount' ? Math.min(left, gained) : gained;
}
