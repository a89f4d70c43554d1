import { pausesOf } from '../calendar/calendar.ts';
import type { StopKind } from '../line/line.ts';
import { between, type Instant, type Span } from '../units/units.ts';
import { beginPause, endFreeTime, lossKey, type Payer, postPause, settle } from './account.ts';
import { standsNow, stopBlamed } from './attributing.ts';
import { judgePresses, pressesRestarted } from './presses.ts';
import type { StopClass, StopRecord } from './state.ts';
import type { Stepping } from './stepping.ts';

/** Stops kept in the state: at most so many, and when they are more, the newest of them. */
const STOPS_MOST = 200;
const STOPS_KEPT = 120;

/** Numbers kept of what a stop's first fault set off. */
const CHAIN_MOST = 8;

/** The stop that is not over, if any. */
export function openStop(stepping: Stepping): StopRecord | undefined {
  const last = stepping.state.stops.at(-1);
  return last && last.end === null ? last : undefined;
}

/** [ST1] The line leaves production. `begin` lies before `at` only for stops derived from cycles. */
export function beginStop(stepping: Stepping, begin: Instant, from: 'state' | 'cycles'): StopRecord {
  const { state, index } = stepping;
  const pause = pauseAt(stepping, begin);
  settle(state.shift.account, begin);
  postOpenPause(stepping);
  const stop: StopRecord = {
    id: begin.toString(36),
    begin,
    end: null,
    endSeen: true,
    reason: 0,
    kind: null,
    class: pause ? 'pause' : 'stopped',
    station: null,
    from,
    attempt: 1,
    episode: begin.toString(36),
    pauseRule: pause?.rule ?? null,
    allowance: pause?.left ?? (0 as Span),
    lastGoodBefore: state.lastGood,
    firstGood: null,
    cartonsBefore: state.cartonsSinceRestart,
    size: state.size,
    order: state.order,
    chain: [],
    lost: null,
    answer: null,
    notNowAt: null,
  };
  state.stops.push(stop);
  if (state.stops.length > STOPS_MOST) state.stops.splice(0, state.stops.length - STOPS_KEPT);
  state.producing = false;
  state.since = begin;
  beginPause(state.shift.account, begin, stop.id, stop.allowance);
  standsNow(stepping);
  stepping.emit({ kind: 'StopBegan', at: begin, stop });
  const reason = index.reasonSignal < 0 ? null : state.values[index.reasonSignal];
  if (typeof reason === 'number' && reason !== 0) explainStop(stepping, stop, reason, begin);
  judgePresses(stepping, stop);
  return stop;
}

/** [ST3] The first number shown during a stop is its first fault; later ones are what it set off. */
export function explainStop(stepping: Stepping, stop: StopRecord, number: number, at: Instant): void {
  const { state, index } = stepping;
  const reason = index.reasonByNumber.get(number);
  const first = stop.reason === 0;
  state.happenings.push({
    at,
    kind: first ? 'firstFault' : 'setOff',
    name: reason?.name ?? String(number),
    station: reason?.station ?? null,
  });
  if (stop.chain.length < CHAIN_MOST) stop.chain.push({ at, number });
  if (first) blame(stepping, stop, number);
  stepping.emit({ kind: 'StopExplained', at, stop });
}

/** The first number in a stop says what it was. */
function blame(stepping: Stepping, stop: StopRecord, number: number): void {
  const reason = stepping.index.reasonByNumber.get(number);
  stop.reason = number;
  stop.kind = reason?.kind ?? 'machine';
  stop.station = reason?.station ?? null;
  if (stop.class !== 'changeover') stop.class = classFor(stop.kind, stop.pauseRule !== null);
  joinEpisode(stepping, stop);
  stopBlamed(stepping, stop);
  judgePresses(stepping, stop);
}

/** [ST1] The line is back in production, or a changeover takes over from the stop: `back` says which. */
export function endStop(stepping: Stepping, at: Instant, back: boolean): void {
  const { state } = stepping;
  const stop = openStop(stepping);
  if (!stop) return;
  endFreeTime(state.shift.account, at);
  stop.end = at;
  if (stop.class === 'pause' && stop.pauseRule !== null) spendPause(stepping, stop.pauseRule, stop, at);
  if (back) {
    state.producing = true;
    state.since = at;
    state.cartonsSinceRestart = 0;
    pressesRestarted(stepping, at);
  }
  stepping.emit({ kind: 'StopEnded', at, stop });
}

/** [LO5] Who pays for a stop. */
export function payerOf(stepping: Stepping, stop: StopRecord): Payer {
  const { index } = stepping;
  if (stop.class === 'changeover') return { key: index.changeoverKey, pause: false };
  if (stop.class === 'pause') return { key: index.pauseOverKey, pause: true };
  const station = stop.station === null ? undefined : index.stationAt.get(stop.station);
  const own = stop.kind === 'machine' || stop.kind === 'starved' || stop.kind === 'blocked';
  const key = own && station !== undefined ? lossKey(station, 'stopped') : index.stoppedNoneKey;
  return { key, pause: false };
}

/** [LO3] What was lost to a stop, in parts, beside what is known already. */
export function addLoss({ state, emit }: Stepping, stop: StopRecord, parts: number): void {
  stop.lost = (stop.lost ?? 0) + parts;
  emit({ kind: 'StopSettled', at: state.at, stop });
}

/** [LO3] Posts the output pause that is open, to whom its stop belongs. */
export function postOpenPause(stepping: Stepping): void {
  const account = stepping.state.shift.account;
  if (!account.open) return;
  const id = account.open.stop;
  const stop = stepping.state.stops.findLast((candidate) => candidate.id === id);
  const payer = stop ? payerOf(stepping, stop) : { key: stepping.index.stoppedNoneKey, pause: false };
  const lost = postPause(account, payer);
  if (stop) addLoss(stepping, stop, lost);
}

function classFor(kind: StopKind, inPauseWindow: boolean): StopClass {
  switch (kind) {
    case 'machine':
    case 'changeover': // becomes a changeover by `stopIsChangeover`
      return 'stopped';
    case 'starved':
    case 'blocked':
    case 'safety':
    case 'pause':
      return kind;
    case 'operator':
      return inPauseWindow ? 'pause' : 'stopped';
  }
}

/** [ST5] A stop at the same station soon after restart is another try at the same trouble. */
function joinEpisode(stepping: Stepping, stop: StopRecord): void {
  const { state, index } = stepping;
  const before = state.stops.at(-2);
  if (!before || before.end === null || stop.station === null || before.station !== stop.station) return;
  if (stop.kind !== 'machine' || stop.cartonsBefore > index.line.settings.rejamCartons) return;
  stop.attempt = before.attempt + 1;
  stop.episode = before.episode;
}

/** [ST8] The planned pause that a stop at this moment may be, with what is left of its allowance. */
function pauseAt(stepping: Stepping, at: Instant): { rule: string; left: Span } | undefined {
  const { state, index } = stepping;
  const shift = state.shift.shift;
  if (!shift) return undefined;
  for (const window of pausesOf(index.line.calendar, index.line.zone, shift)) {
    if (at < window.from || at >= window.to) continue;
    const used = state.shift.pausesUsed.find((pause) => pause.rule === window.rule)?.used ?? 0;
    if (used < window.allowance) return { rule: window.rule, left: (window.allowance - used) as Span };
  }
  return undefined;
}

function spendPause(stepping: Stepping, rule: string, stop: StopRecord, at: Instant): void {
  const used = stepping.state.shift.pausesUsed;
  const spent = Math.min(between(stop.begin, at), stop.allowance);
  const known = used.find((pause) => pause.rule === rule);
  if (known) known.used = (known.used + spent) as Span;
  else used.push({ rule, used: spent as Span });
}
