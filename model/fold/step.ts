import type { Entry } from '../entries/entries.ts';
import type { Change, Signal, Value } from '../signals/signals.ts';
import { lotTold } from './fitted.ts';
import { severity } from '../status/status.ts';
import { between, type Instant, millis, MINUTE, SECOND, type Span, seconds } from '../units/units.ts';
import { accountTold } from './accountTold.ts';
import { adjustmentMoved, heardAgain, modeMoved } from './attributing.ts';
import { beginSize, changeoverProduces, sizeChanged, stopIsChangeover } from './changeovers.ts';
import { COUNTED, type Counted } from '../counters/counters.ts';
import { countChange, countFalls, cyclesMoved } from './counts.ts';
import { flowTold } from './flow.ts';
import { beginGap, endGap, isBlind } from './gaps.ts';
import { guardMoved, passWatched, productionMoved, watchReading } from './guards.ts';
import { active } from './lineIndex.ts';
import { HEARTBEAT, linkMissing, valueMissing } from './missing.ts';
import { isProduceMode } from './modes.ts';
import { nextOrderMayBegin, orderRuns } from './orders.ts';
import { takeEntry } from './people.ts';
import { press, pressesReset, release } from './presses.ts';
import { sensorReads } from './settings.ts';
import { openShift, passBoundaries } from './shifts.ts';
import type { Stepping } from './stepping.ts';
import { beginStop, endStop, explainStop, openStop } from './stops.ts';
import { retarget, targetTenths } from './target.ts';
import { trialTold } from './trials.ts';

const HAPPENINGS_KEPT = 60;
/** Without a state tag: the line stands when no cycle came for this many cycles' time at target. */
const CYCLES_MISSED = 3;

const isCounted = (role: string): role is Counted => (COUNTED as readonly string[]).includes(role);

/** The only way the state moves: one change, in line time. */
export function step(stepping: Stepping, change: Change): void {
  const { state, index } = stepping;
  const signal = index.line.signals[change.signal]!;
  // what people enter before anything was heard of the line stands before all time: no shift and no minute begins with it
  const ofTheLine = state.heardAt >= 0 || signal.role !== 'entry';
  if (ofTheLine && state.heardAt < 0) state.shift = openShift(stepping, change.at);
  if (index.heartbeats.length > 0) fallsSilent(stepping, change.at);
  if (ofTheLine) passTime(stepping, change.at);
  if (state.watched.length > 0) passWatched(stepping, change.at);
  if (index.stateSignal < 0) standsWithoutCycles(stepping, change.at);
  state.at = change.at;
  state.signal = change.signal;
  if (signal.role === 'entry')
    return takeEntry(stepping, JSON.parse(String(change.value)) as Entry, change.at);
  if (signal.role === 'link') return linkChange(stepping, signal, change);
  if (signal.server === index.paceServer) state.spokeAt = change.at;
  const level = severity(change.status);
  const known = level === 'bad' || change.value === null ? 0 : level === 'good' ? 1 : 2;
  if (known === 0) becomesUnknown(stepping, signal, change.at);
  else {
    meaning(stepping, signal, change);
    state.values[change.signal] = change.value;
    if (state.known[change.signal] === 0) becomesKnown(stepping, signal, change.at);
  }
  state.known[change.signal] = known;
  state.ats[change.signal] = change.at;
  if (!isBlind(index, state)) state.heardAt = change.at;
  if (state.happenings.length > 2 * HAPPENINGS_KEPT) state.happenings.splice(0, HAPPENINGS_KEPT);
  return undefined;
}

/** Shifts and minutes that are over: a minute that ended before its shift did is told with that shift's account. */
function passTime(stepping: Stepping, at: Instant): void {
  const { state } = stepping;
  if (at >= state.minuteUntil && state.minuteUntil < state.shift.until) passMinute(stepping, at);
  if (at >= state.shift.until) passBoundaries(stepping, at);
  if (at >= state.minuteUntil) passMinute(stepping, at);
}

/** Minutes in which nothing was told leave nothing. */
function passMinute({ state, index, emit }: Stepping, at: Instant): void {
  if (state.minuteUntil >= 0)
    emit({
      kind: 'MinuteEnded',
      at: state.minuteUntil,
      tally: state.tally.slice(),
      attributed: state.attribution.parts.slice(),
      flow: state.flow && flowTold(state.flow),
      account: accountTold({ index, state }, state.minuteUntil),
    });
  state.minuteUntil = (at - (at % MINUTE) + MINUTE) as Instant;
}

/** What a new value of a signal does, before it is stored. */
function meaning(stepping: Stepping, signal: Signal, change: Change): void {
  const { state, index } = stepping;
  const before = state.values[signal.index] ?? null;
  switch (signal.role) {
    case 'pickedCount':
    case 'goodCount':
    case 'rejectCount':
    case 'presentedCount':
    case 'missedPickCount':
    case 'notLoadedCount':
    case 'crushedCount':
    case 'nearMissCount':
    case 'stopDeviceCount':
      return countChange(stepping, signal, change);
    case 'cycleCount':
      cyclesMoved(stepping, signal, change);
      return signal.index === index.cycleSignal && index.stateSignal < 0
        ? cycleChange(stepping, before, change)
        : undefined;
    case 'state':
      return signal.index === index.stateSignal ? stateChange(stepping, signal, change) : undefined;
    case 'mode':
      return signal.index === index.modeSignal ? modeChange(stepping, signal, change) : undefined;
    case 'stopReason':
      return signal.index === index.reasonSignal ? reasonChange(stepping, change) : undefined;
    case 'alarmNumber':
      // [ST3] where there is no first-out word, or it cannot be read now
      return index.reasonSignal < 0 || state.known[index.reasonSignal] === 0
        ? reasonChange(stepping, change)
        : undefined;
    case 'size':
      return sizeChange(stepping, change);
    case 'crew':
      if (typeof change.value !== 'number') return undefined;
      state.crew = change.value;
      state.crewSaid = null;
      return retarget(stepping, change.at);
    case 'order':
      return change.value === '' || change.value === 0
        ? undefined
        : orderRuns(stepping, String(change.value), change.at);
    case 'lot':
      lotTold(state, String(change.value), change.at);
      return undefined;
    case 'stopDevice': {
      const device = index.deviceAt.get(signal.of ?? '')!;
      const now = active(signal, change.value);
      if (now && !active(signal, before))
        press(stepping, device, change.at, before === null || state.known[signal.index] === 0);
      if (!now && active(signal, before)) release(stepping, device, change.at);
      return watchReading(stepping, signal.index, now, change.at);
    }
    case 'trial':
      if (signal.index === index.trialSignal) trialTold(stepping, signal, change);
      return undefined;
    case 'guard': {
      const open = active(signal, change.value);
      guardMoved(stepping, signal, open, change.at);
      return watchReading(stepping, signal.index, open, change.at);
    }
    case 'adjustment':
      sensorReads(stepping, signal, change);
      return before !== null && before !== change.value ? adjustmentMoved(stepping, signal) : undefined;
    default:
      return undefined;
  }
}

function stateChange(stepping: Stepping, signal: Signal, change: Change): void {
  const { state, index } = stepping;
  state.values[signal.index] = change.value;
  const name = index.states.get(change.value as number);
  if (name === 'Clearing' || name === 'Resetting') pressesReset(stepping, change.at);
  if (name === 'Execute' && state.changeover?.productionBack === null && !isProduceMode(stepping)) {
    state.changeover.trialBegan ??= change.at;
  }
  judgeProduction(stepping, change.at);
}

function modeChange(stepping: Stepping, signal: Signal, change: Change): void {
  const { state, index } = stepping;
  const wasProduce = isProduceMode(stepping);
  state.values[signal.index] = change.value;
  modeMoved(stepping, wasProduce);
  judgeProduction(stepping, change.at);
  if (index.modes.get(change.value as number) === 'setup') stopIsChangeover(stepping, change.at);
}

function reasonChange(stepping: Stepping, change: Change): void {
  const stop = openStop(stepping);
  if (!stop || typeof change.value !== 'number' || change.value === 0) return;
  explainStop(stepping, stop, change.value, change.at);
  if (stop.kind === 'changeover') stopIsChangeover(stepping, change.at);
}

function sizeChange(stepping: Stepping, change: Change): void {
  const { state, index } = stepping;
  const size = index.sizeByCode.get(change.value as number);
  if (!size || size.id === state.size) return;
  if (state.size === null) beginSize(stepping, size.id, change.at);
  else sizeChanged(stepping, size.id, change.at);
  nextOrderMayBegin(stepping, 'size', change.at);
  retarget(stepping, change.at);
}

/** [PR1] */
function judgeProduction(stepping: Stepping, at: Instant): void {
  const { state, index } = stepping;
  if (index.stateSignal < 0) {
    // [ST7] a mode other than produce ends production at once, and the next cycle in it begins it again
    if (state.producing && !isProduceMode(stepping)) leaveProduction(stepping, at, 'state');
    return;
  }
  const value = state.values[index.stateSignal];
  const produces = index.states.get(value as number) === 'Execute' && isProduceMode(stepping);
  const first = !state.judged;
  state.judged = true;
  if (produces === state.producing && !(first && !produces)) return;
  if (produces) returnToProduction(stepping, at);
  else leaveProduction(stepping, at, 'state');
}

function returnToProduction(stepping: Stepping, at: Instant): void {
  endStop(stepping, at, true);
  stepping.state.producing = true;
  stepping.state.since = at;
  stepping.state.ranSince = at;
  if (changeoverProduces(stepping, at)) nextOrderMayBegin(stepping, 'backAtWork', at);
}

function leaveProduction(stepping: Stepping, at: Instant, from: 'state' | 'cycles'): void {
  const { index, state } = stepping;
  const stop = beginStop(stepping, at, from);
  const setup =
    index.modeSignal >= 0 && index.modes.get(state.values[index.modeSignal] as number) === 'setup';
  if (stop.kind === 'changeover' || setup) stopIsChangeover(stepping, at);
  nextOrderMayBegin(stepping, 'stopped', at);
  productionMoved(stepping);
}

/** [ST7] A cycle of a machine that has no state tag; the first value is where looking begins, and no cycle. */
function cycleChange(stepping: Stepping, before: Value, { value, at }: Change): void {
  const { state } = stepping;
  if (before !== null && value === before) return;
  state.lastCycle = at;
  if (before === null) return;
  state.judged = true;
  if (!state.producing && isProduceMode(stepping)) returnToProduction(stepping, at);
}

/** [ST7] */
function standsWithoutCycles(stepping: Stepping, at: Instant): void {
  const { state } = stepping;
  if (state.lastCycle < 0 || state.gap || (state.judged && !state.producing)) return;
  const tenths = targetTenths(stepping);
  const cycle = tenths > 0 ? (600 * SECOND) / tenths : 2 * SECOND;
  if (between(state.lastCycle, at) <= CYCLES_MISSED * cycle) return;
  state.judged = true;
  leaveProduction(stepping, state.lastCycle, 'cycles');
}

/** [CO1] What its counters show from here on has nothing to do with what they showed before. */
function forgetCounters({ state, index }: Stepping, server: string): void {
  for (const signal of index.line.signals) {
    if (signal.server === server && isCounted(signal.role)) state.values[signal.index] = null;
  }
}

/**
 * False: the server is not heard. True: it is, or still is. `whole`: it is again, and nothing was missed. `anew`: it is,
 * and from here on another machine's values come, as at the end of a history that was brought in.
 */
function linkChange(stepping: Stepping, signal: Signal, change: Change): void {
  const { state, index } = stepping;
  const up = change.value !== false;
  const wasUp = state.values[signal.index] !== false && state.values[signal.index] !== null;
  state.values[signal.index] = change.value;
  state.known[signal.index] = 1;
  state.ats[signal.index] = change.at;
  if (change.value === 'anew') forgetCounters(stepping, signal.server);
  if (up) state.leads[signal.server] = millis((change.at - change.received) as Span);
  if (!index.neededServers.has(signal.server)) return up && !wasUp ? heardAgain(stepping) : undefined;
  if (!up) return beginGap(stepping, change.at, linkMissing(signal.server));
  if (change.value === 'whole') stillSilent(stepping, signal.server, change.at);
  gapEnds(stepping, change.at, linkMissing(signal.server), change.value === 'whole');
  if (signal.server !== index.paceServer) return;
  if (!wasUp && change.value !== 'whole') state.spokeAt = change.at;
  // a server with a heartbeat tells by that whether its program runs; that it answers is not enough
  if (!isBlind(index, state) && !(wasUp && hasHeartbeat(stepping))) state.heardAt = change.at;
}

/** [CV2] While its link is missing, and when it is back whole: its program may have told nothing for too long. */
function stillSilent(stepping: Stepping, server: string, at: Instant): void {
  const { state, index } = stepping;
  if (!state.gap || !hasHeartbeat(stepping) || server !== index.paceServer || state.spokeAt < 0) return;
  if (between(state.spokeAt, at) <= seconds(index.line.settings.heartbeatSeconds)) return;
  if (!state.gap.missing.includes(HEARTBEAT)) state.gap.missing.push(HEARTBEAT);
}

/** One that is bound and not told, as where a small server will not watch it, says nothing of a program that is silent. */
function hasHeartbeat({ state, index }: Stepping): boolean {
  return index.heartbeats.some((signal) => state.values[signal] !== null);
}

/**
 * [CV2] The server answers, but its program has told nothing for too long, not even its heartbeat. With all that it
 * tells at the moment it speaks again that is over: the counters among it say whether it stood meanwhile.
 */
function fallsSilent(stepping: Stepping, at: Instant): void {
  const { state, index } = stepping;
  if (state.gap?.missing.includes(HEARTBEAT)) {
    if (state.spokeAt <= state.gap.from || at <= state.spokeAt) return;
    gapEnds(stepping, state.spokeAt, HEARTBEAT, false);
    if (!isBlind(index, state)) state.heardAt = state.spokeAt;
    return;
  }
  // nothing was missed of what the server told, as may turn out; but for too long its program had told nothing
  if (state.gap?.missing.includes(linkMissing(index.paceServer)))
    return stillSilent(stepping, index.paceServer, at);
  if (state.spokeAt < 0 || state.gap || !hasHeartbeat(stepping)) return;
  if (between(state.spokeAt, at) <= seconds(index.line.settings.heartbeatSeconds)) return;
  // time that is accounted already, as up to a shift's end, stays as it was told
  beginGap(stepping, Math.max(state.spokeAt, state.shift.account.since) as Instant, HEARTBEAT);
}

/** [CV1] [SI1] */
function becomesUnknown(stepping: Stepping, signal: Signal, at: Instant): void {
  if (stepping.index.deciding.has(signal.index)) beginGap(stepping, at, valueMissing(signal.index));
}

function becomesKnown(stepping: Stepping, signal: Signal, at: Instant): void {
  gapEnds(stepping, at, valueMissing(signal.index), false);
}

/** Something that was missing is back. Where nothing more is, what is known by now says what happened meanwhile. */
function gapEnds(stepping: Stepping, at: Instant, missing: string, whole: boolean): void {
  const { gap } = stepping.state;
  if (gap?.missing.length === 1 && gap.missing[0] === missing) countFalls(stepping, at);
  endGap(stepping, at, missing, whole);
}
