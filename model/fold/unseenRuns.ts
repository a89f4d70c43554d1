import { counterStep } from '../counters/counters.ts';
import { between, type Instant } from '../units/units.ts';
import { isProduceMode } from './modes.ts';
import type { GapRecord } from './state.ts';
import type { Stepping } from './stepping.ts';
import { beginStop, endStop, openStop } from './stops.ts';

/**
 * [ST11] Whether the line ran and stood again while nobody was looking: the stop that was open when the gap began is
 * open still, but cycles were made, all of them in produce mode. A mode that moved meanwhile may have been a jog.
 */
export function ranUnseen(stepping: Stepping, gap: GapRecord, at: Instant): boolean {
  const { state, index } = stepping;
  const stop = openStop(stepping);
  if (!stop || stop.id !== gap.stop || stop.class === 'changeover') return false;
  if (index.stateSignal < 0 || index.cycleSignal < 0) return false; // [ST7] cycles themselves end a derived stop
  if (!gap.producedMode || !isProduceMode(stepping)) return false;
  if (index.modeSignal >= 0 && state.ats[index.modeSignal]! > gap.from) return false;
  const cycles = state.known[index.cycleSignal] === 0 ? null : state.values[index.cycleSignal];
  if (typeof cycles !== 'number' || typeof gap.cycles !== 'number') return false;
  const wraps = index.line.signals[index.cycleSignal]!.wraps ?? 2 ** 32;
  const elapsed = between(gap.from, at);
  const { gained, mark } = counterStep(gap.cycles, cycles, wraps, elapsed, index.line.settings.rateMax);
  return gained > 0 && (mark === 'plain' || mark === 'rollover');
}

/**
 * [ST11] The stop ended while nobody was looking, where the gap began or later. Another began with the moment that the
 * state which ended the run carries, or is first seen at the gap's end.
 */
export function splitStop(stepping: Stepping, gap: GapRecord, at: Instant): void {
  const { state, index } = stepping;
  const first = openStop(stepping)!;
  const told = state.ats[index.stateSignal]!;
  const second = told > gap.from ? told : at;
  first.endSeen = false;
  endStop(stepping, gap.from, false);
  state.cartonsSinceRestart -= gap.cartons;
  beginStop(stepping, second, first.from);
}
