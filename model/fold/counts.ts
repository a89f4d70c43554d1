import { type CounterStep, counterStep, mostIn } from '../counters/counters.ts';
import type { Change, Signal } from '../signals/signals.ts';
import { between, type Instant, MINUTE, minutes, type Span } from '../units/units.ts';
import type { Pocket } from '../view/view.ts';
import { chargeCartons, creditGood, lossKey } from './account.ts';
import { cyclesPassed, nearMissesCounted, pocketsCleared, rejectsCounted } from './attributing.ts';
import { goodInRunUp } from './changeovers.ts';
import { flowBased, flowCounted, flowCycled } from './flow.ts';
import { keepFall, noteReset, takeFalls } from './falls.ts';
import { countedInGap, isHeard } from './gaps.ts';
import { isProduceMode } from './modes.ts';
import { judgeStation, judgeStations } from './normal.ts';
import { countPresses, forgetEdges, pressesFirstGood } from './presses.ts';
import { STATION_WINDOW } from './state.ts';
import type { Stepping } from './stepping.ts';
import { postOpenPause } from './stops.ts';
import { trialPart } from './trials.ts';

const OUTCOMES_KEPT = 160;
const MARKS_KEPT = 20;
const NOT_LOADED_KEPT = 100;
/** A counter is sent on at least this often while it counts. */
const SLOWEST_COUNTER = minutes(5);
const REJECTS_KEPT = STATION_WINDOW;

/** A counter's new reading: what it gained goes to what the counter means. */
export function countChange(stepping: Stepping, signal: Signal, change: Change): void {
  const read = stepOf(stepping, signal, change);
  if (!read) return flowBased(stepping, signal); // [CO1] the first reading is the base
  if (keepFall(stepping, signal, read.step, read.now, read.most)) return;
  counted(stepping, signal, read.step, change.at);
}

/** [CO3] The cycle counter moved: whether its PLC was reset in a gap is told by it, too. */
export function cyclesMoved(stepping: Stepping, signal: Signal, change: Change): void {
  const read = stepOf(stepping, signal, change);
  if (!read) return;
  const { step, now, before } = read;
  if (stepping.state.gap && step.mark === 'reset') noteReset(stepping, signal.server);
  if (signal.index === stepping.index.cycleSignal)
    pocketsMoved(stepping, step.mark === 'correction' ? now - before : step.gained, step.mark);
}

function pocketsMoved(stepping: Stepping, moved: number, mark: CounterStep['mark']): void {
  const { index } = stepping;
  const wraps = index.line.signals[index.cycleSignal]?.wraps ?? 2 ** 32;
  const cycles = mark === 'correction' ? overTheEnd(moved, wraps) : moved;
  flowCycled(stepping, cycles);
  cyclesPassed(stepping, cycles, mark);
}

/** A counter that was turned back from just after its roll-over to just before it seems to have moved far on. */
function overTheEnd(moved: number, wraps: number): number {
  if (moved > wraps / 2) return moved - wraps;
  return moved < -wraps / 2 ? moved + wraps : moved;
}

/** [CO3] A gap is about to end: what fell in it is counted as what it was. */
export function countFalls(stepping: Stepping, at: Instant): void {
  for (const { signal, ...step } of takeFalls(stepping)) counted(stepping, signal, step, at);
}

function stepOf(stepping: Stepping, signal: Signal, { value, at }: Change) {
  const { state, index } = stepping;
  const before = state.values[signal.index];
  if (typeof value !== 'number' || typeof before !== 'number') return undefined;
  const { rateMax } = index.line.settings;
  const elapsed = timeToCount(stepping, signal, at);
  const own = between(state.ats[signal.index]!, at);
  const step = counterStep(before, value, signal.wraps ?? 2 ** 32, elapsed, rateMax, own);
  return { step, now: value, before, most: mostIn(elapsed, rateMax) };
}

function counted(stepping: Stepping, signal: Signal, { gained, mark }: CounterStep, at: Instant): void {
  const { state, index } = stepping;
  if (mark !== 'plain' && mark !== 'rollover') {
    state.counterMarks.push({ signal: signal.index, at, mark });
    if (state.counterMarks.length > MARKS_KEPT) state.counterMarks.shift();
    stepping.emit({ kind: 'CounterMarked', at, signal: signal.index, mark });
    if (mark === 'reset') noteReset(stepping, signal.server);
  }
  flowCounted(stepping, signal, { gained, mark });
  if (signal.role === 'nearMissCount') nearMissesCounted(stepping, signal, { gained, mark });
  if (gained > 0) {
    const place = index.tallyAt[signal.index]!;
    // [CH3] [CH5] what is no production is counted apart, and nowhere else
    const trials = isProduceMode(stepping) ? trialPart(stepping, signal, gained) : gained;
    const counts = gained - trials;
    if (place >= 0 && counts > 0) {
      state.tally[place]! += counts;
      countedInGap(stepping, signal.index, place, counts, at);
    }
    if (trials > 0) notProduced(stepping, signal, trials, at);
    if (counts > 0) gain(stepping, signal, counts, at);
  }
  // what was seen before it began anew it does not count any more
  if (mark !== 'plain' && mark !== 'rollover' && signal.role === 'stopDeviceCount')
    forgetEdges(stepping, index.deviceAt.get(signal.of ?? '')!);
}

/**
 * Time in which a counter may have gained what it shows: since anything was heard, which is long only after a gap, or
 * since this counter itself moved, as one may be sent on once a minute. It may have stood still for hours before.
 */
function timeToCount({ state, index }: Stepping, signal: Signal, at: Instant): Span {
  const own = between(state.ats[signal.index]!, at);
  const wasHeard = state.known[signal.index] !== 0 && isHeard(index, state, signal.server);
  return Math.max(wasHeard ? Math.min(own, SLOWEST_COUNTER) : own, between(state.heardAt, at)) as Span;
}

function gain(stepping: Stepping, signal: Signal, gained: number, at: Instant): void {
  const { state, index } = stepping;
  switch (signal.role) {
    case 'goodCount':
      return good(stepping, gained, at);
    case 'rejectCount':
      return reject(stepping, signal.of, gained, at);
    case 'missedPickCount': {
      const pick = index.line.stations.findIndex((station) => station.drawing === 'pick');
      chargeCartons(
        state.shift.account,
        at,
        lossKey(pick < 0 ? index.line.stations.length : pick, 'missedPick'),
        gained,
      );
      return outcomes(stepping, 'missed', gained, at);
    }
    case 'crushedCount': {
      const station = index.stationAt.get(signal.of ?? '') ?? index.line.stations.length;
      pocketsCleared(stepping, station);
      return chargeCartons(state.shift.account, at, lossKey(station, 'crushed'), gained);
    }
    case 'notLoadedCount':
      return notLoaded(stepping, signal.of, gained, at);
    case 'presentedCount':
      if (signal.of === index.line.loading.station) state.loadingPockets += gained;
      return undefined;
    case 'stopDeviceCount':
      return countPresses(stepping, index.deviceAt.get(signal.of ?? '')!, gained, at);
    default:
      return undefined;
  }
}

/** What a counter gained in another mode than produce, or of trial cartons: no figure of production has it. */
function notProduced(stepping: Stepping, signal: Signal, gained: number, at: Instant): void {
  const { index } = stepping;
  switch (signal.role) {
    case 'goodCount':
      return trial(stepping, gained);
    case 'rejectCount':
      return isProduceMode(stepping) ? trial(stepping, gained) : undefined;
    case 'crushedCount':
      return pocketsCleared(stepping, index.stationAt.get(signal.of ?? '') ?? index.line.stations.length);
    case 'presentedCount':
    case 'stopDeviceCount':
      return gain(stepping, signal, gained, at);
    default:
      return undefined;
  }
}

function good(stepping: Stepping, gained: number, at: Instant): void {
  const { state } = stepping;
  creditGood(state.shift.account, at, gained);
  if (state.producing) {
    if (state.shift.account.open) postOpenPause(stepping);
    const last = state.stops.at(-1);
    if (last && last.firstGood === null && last.end !== null) {
      last.firstGood = at;
      stepping.emit({ kind: 'StopSettled', at, stop: last });
      pressesFirstGood(stepping, at);
    }
  }
  state.lastGood = at;
  countMinute(stepping, gained, at);
  const order = state.orders.find((candidate) => candidate.number === state.order);
  if (order) order.good += gained;
  cartonsAtDischarge(stepping, gained, at);
  outcomes(stepping, 'good', gained, at);
  goodInRunUp(stepping, gained, at);
}

/** [CH3] [CH5] */
function trial(stepping: Stepping, gained: number): void {
  const changeover = stepping.state.changeover;
  if (changeover) changeover.trialCartons += gained;
}

function reject(stepping: Stepping, reason: string | undefined, gained: number, at: Instant): void {
  const { state, index } = stepping;
  const known = index.line.rejects.find((candidate) => candidate.id === reason);
  const station = index.stationAt.get(known?.station ?? '') ?? index.line.stations.length;
  cartonsAtDischarge(stepping, gained, at);
  if (known?.means === 'notLoaded') {
    chargeCartons(state.shift.account, at, lossKey(station, 'notLoaded'), gained);
    return outcomes(stepping, 'notLoaded', gained, at);
  }
  chargeCartons(state.shift.account, at, lossKey(station, 'reject'), gained);
  rejectsCounted(stepping, reason, gained);
  state.shift.rejects += gained;
  outcomes(stepping, 'reject', gained, at);
  state.happenings.push({ at, kind: 'reject', name: known?.name ?? '', station: known?.station ?? null });
  const record = state.stations[station];
  if (record && state.size !== null) {
    for (let n = 0; n < Math.min(gained, REJECTS_KEPT); n += 1) record.rejectedAt.push(state.runCartons);
    if (record.rejectedAt.length > REJECTS_KEPT)
      record.rejectedAt.splice(0, record.rejectedAt.length - REJECTS_KEPT);
    record.rejectsBySize[state.size] = (record.rejectsBySize[state.size] ?? 0) + gained;
    judgeStation(state, station, at);
  }
  return undefined;
}

function notLoaded(stepping: Stepping, position: string | undefined, gained: number, at: Instant): void {
  const { state, index } = stepping;
  const place = index.positionAt.get(position ?? '');
  if (place === undefined) return;
  state.shift.notLoadedByPosition[place]! += gained;
  const seen = state.notLoaded[place]!;
  for (let n = 0; n < Math.min(gained, NOT_LOADED_KEPT); n += 1) seen.at.push(state.loadingPockets);
  if (seen.at.length > NOT_LOADED_KEPT) seen.at.splice(0, seen.at.length - NOT_LOADED_KEPT);
  if (index.notLoadedFrom === 'positions') {
    const station = index.stationAt.get(index.line.loading.station) ?? index.line.stations.length;
    chargeCartons(state.shift.account, at, lossKey(station, 'notLoaded'), gained);
  }
}

function cartonsAtDischarge(stepping: Stepping, cartons: number, at: Instant): void {
  const { state } = stepping;
  const before = state.runCartons;
  state.cartonsSinceRestart += cartons;
  state.runCartons += cartons;
  if (state.size !== null) state.cartonsBySize[state.size] = (state.cartonsBySize[state.size] ?? 0) + cartons;
  judgeStations(state, before, at);
}

function outcomes(stepping: Stepping, pocket: Pocket, count: number, at: Instant): void {
  const list = stepping.state.outcomes;
  for (let n = 0; n < Math.min(count, OUTCOMES_KEPT); n += 1) list.push({ at, pocket });
  if (list.length > 2 * OUTCOMES_KEPT) list.splice(0, list.length - OUTCOMES_KEPT);
}

function countMinute(stepping: Stepping, cartons: number, at: Instant): void {
  const { state } = stepping;
  const from = state.shift.shift?.from ?? state.shift.from;
  const minute = Math.floor((at - from) / MINUTE);
  const minutes = state.shift.minutes;
  while (minutes.length <= minute && minutes.length < 2880) minutes.push(0);
  if (minute < minutes.length) minutes[minute]! += cartons;
}
