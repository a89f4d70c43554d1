import {
  adjustedAt,
  emptiedAt,
  layRejects,
  producesAgain,
  sizeChanges,
  stoodNow,
  stoppedAt,
} from '../attribution/attribution.ts';
import { cycled, machineStood, nearMissed, passesMissed } from '../attribution/passes.ts';
import type { CounterStep } from '../counters/counters.ts';
import type { Signal } from '../signals/signals.ts';
import { isHeard } from './gaps.ts';
import { isProduceMode } from './modes.ts';
import type { StopRecord } from './state.ts';
import type { Stepping } from './stepping.ts';

/** What the fold sees is told to the estimate of who spoiled a rejected carton [AT1 to AT4]; it changes nothing else. */

/** The pace-setting machine made cycles. */
export function cyclesPassed(stepping: Stepping, gained: number, mark: CounterStep['mark']): void {
  const { state } = stepping;
  if (gained === 0 && mark === 'plain') return;
  const missed = state.gap !== null || (mark !== 'plain' && mark !== 'rollover');
  cycled(state.attribution.passes, { gained, missed, mode: modeOf(stepping) });
}

/** A jog may go either way; what a mode that the file does not name does is not known, so it is as one. */
function modeOf(stepping: Stepping): 'produce' | 'setup' | 'jog' {
  if (isProduceMode(stepping)) return 'produce';
  const { state, index } = stepping;
  return index.modes.get(state.values[index.modeSignal] as number) === 'setup' ? 'setup' : 'jog';
}

/** The mode is about to change: `wasProduce` says what it was. */
export function modeMoved(stepping: Stepping, wasProduce: boolean): void {
  if (wasProduce || !isProduceMode(stepping)) return;
  producesAgain(stepping.state.attribution, stepping.index.attribution);
}

/** What a station's own sensor saw, in any mode. */
export function nearMissesCounted(stepping: Stepping, signal: Signal, step: CounterStep): void {
  const { state, index } = stepping;
  const station = index.stationAt.get(signal.of ?? '');
  const plain = step.mark === 'plain' || step.mark === 'rollover';
  if (station === undefined || (step.gained === 0 && plain)) return;
  const { passes } = state.attribution;
  // what it counted while it was not heard, or could not be read, it may have counted at any time
  if (state.gap || state.known[signal.index] === 0 || !plain) passesMissed(passes);
  if (step.gained > 0) nearMissed(passes, station, step.gained, index.attribution.pocketsMost);
}

/** Rejects of production. One by itself, seen as it came, is known by its cycle. */
export function rejectsCounted(stepping: Stepping, reason: string | undefined, rejects: number): void {
  const { state, index } = stepping;
  const known = rejects === 1 && state.gap === null && index.cycleSignal >= 0;
  const hears = known ? index.attribution.sensors.map((signal) => isRead(stepping, signal)) : undefined;
  layRejects(index.attribution, state.attribution, reason ?? '', { rejects, hears });
}

function isRead({ state, index }: Stepping, place: number): boolean {
  const signal = index.line.signals[place];
  return signal !== undefined && state.known[place] !== 0 && isHeard(index, state, signal.server);
}

/** A server that only sensors or the like are served by is heard again. */
export function heardAgain({ state }: Stepping): void {
  passesMissed(state.attribution.passes);
}

/** Pockets of a station were emptied by hand. */
export function pocketsCleared({ state, index }: Stepping, station: number): void {
  if (station < index.line.stations.length) emptiedAt(state.attribution, index.attribution, station);
}

/** The machine left production. */
export function standsNow({ state, index }: Stepping): void {
  if (!machineStood(state.attribution.passes)) return;
  stoodNow(state.attribution, index.attribution);
}

/** A stop has its first fault. */
export function stopBlamed({ state, index }: Stepping, { kind, station }: StopRecord): void {
  const place = station === null ? undefined : index.stationAt.get(station);
  if (kind === 'machine' && place !== undefined) stoppedAt(state.attribution, index.attribution, place);
}

/** The reading of a numbered adjustment changed; setting it in a changeover says nothing by itself. */
export function adjustmentMoved({ state, index }: Stepping, signal: Signal): void {
  if (!state.producing || state.changeover) return;
  const station = index.line.adjustments.find(({ number }) => number === signal.of)?.station;
  const place = index.stationAt.get(station ?? '');
  if (place !== undefined) adjustedAt(state.attribution, index.attribution, place);
}

/** Cartons of another size. */
export function sizeMoved({ state }: Stepping): void {
  sizeChanges(state.attribution);
}
