import { between, type Instant, seconds } from '../units/units.ts';
import type { PressRecord, StopRecord } from './state.ts';
import type { Stepping } from './stepping.ts';

/** Presses kept in the state at most; the oldest leave first. */
const PRESSES_KEPT = 100;
/** A device and its counted twin may be read so far apart. */
const TWIN_APART = seconds(1);
/** [PS1] A device reads pressed. `found`: at the first look at it, so that nobody knows since when. */
export function press(stepping: Stepping, device: number, at: Instant, found: boolean): void {
  const { state } = stepping;
  const stop = state.stops.at(-1);
  const open = stop && stop.end === null ? stop : undefined;
  const record: PressRecord = {
    id: `${device}-${at.toString(36)}`,
    device,
    pressed: at,
    released: null,
    reset: null,
    restarted: null,
    firstGood: null,
    role: found ? 'uncertain' : state.producing ? 'caused' : 'during',
    known: found ? 'found' : 'edge',
    stop: open?.id ?? null,
    candidate: null,
  };
  const counted = found ? undefined : countedJustBefore(stepping, device, at);
  if (counted) takeBack(stepping, counted);
  keep(state.presses, record);
  stepping.emit({ kind: 'Pressed', at, press: record });
  if (found) return;
  if (open) record.role = roleDuring(stepping, record, open);
  if (!counted) state.edgesSinceTwin[device] = (state.edgesSinceTwin[device] ?? 0) + 1;
  state.happenings.push({
    at,
    kind: 'press',
    name: stepping.index.line.devices[device]!.name,
    station: null,
  });
}

/** [PS1] A device reads released. */
export function release(stepping: Stepping, device: number, at: Instant): void {
  const { state } = stepping;
  const record = state.presses.findLast((candidate) => candidate.device === device && wasRead(candidate));
  if (!record || record.released !== null) return;
  record.released = at;
  state.happenings.push({
    at,
    kind: 'release',
    name: stepping.index.line.devices[device]!.name,
    station: null,
  });
  stepping.emit({ kind: 'PressMoved', at, press: record });
}

/** [PS3] A counted twin moved: presses beyond those seen are kept without a moment of their own. */
export function countPresses(stepping: Stepping, device: number, gained: number, at: Instant): void {
  const { state } = stepping;
  const unseen = gained - (state.edgesSinceTwin[device] ?? 0);
  state.edgesSinceTwin[device] = Math.max(0, -unseen);
  for (let n = 0; n < Math.min(unseen, 50); n += 1) {
    const record: PressRecord = {
      id: `${device}-${at.toString(36)}-${n}`,
      device,
      pressed: at,
      released: at,
      reset: null,
      restarted: null,
      firstGood: null,
      role: 'uncertain',
      known: 'count',
      stop: null,
      candidate: null,
    };
    keep(state.presses, record);
    stepping.emit({ kind: 'Pressed', at, press: record });
  }
}

/** [PS3] A counted twin was set to another number: it does not count any more what was seen before. */
export function forgetEdges({ state }: Stepping, device: number): void {
  state.edgesSinceTwin[device] = 0;
}

/** [PS3] A press that its twin counted before the device itself was read pressed, as within one scan or one sampling. */
function countedJustBefore({ state }: Stepping, device: number, at: Instant): PressRecord | undefined {
  return state.presses.findLast(
    (record) =>
      record.device === device && record.known === 'count' && between(record.pressed, at) <= TWIN_APART,
  );
}

function takeBack({ state, emit }: Stepping, press: PressRecord): void {
  state.presses.splice(state.presses.indexOf(press), 1);
  emit({ kind: 'PressTakenBack', at: press.pressed, press });
}

/** [PS2] Looks again at the presses near a stop's beginning, now that the stop or its first fault is known. */
export function judgePresses(stepping: Stepping, stop: StopRecord): void {
  const { state } = stepping;
  for (let place = state.presses.length - 1; place >= 0; place -= 1) {
    const record = state.presses[place]!;
    if (!wasRead(record)) continue;
    const { stop: of, role } = record;
    if (of === stop.id) record.role = roleDuring(stepping, record, stop);
    else if (of === null && record.released === null && record.pressed <= stop.begin) {
      record.stop = stop.id;
      record.role = roleDuring(stepping, record, stop);
    } else if (between(record.pressed, stop.begin) > seconds(3600)) break;
    if (record.stop !== of || record.role !== role)
      stepping.emit({ kind: 'PressMoved', at: state.at, press: record });
  }
}

/** [PS1] The machine was reset: a state of clearing or resetting after the device was released. */
export function pressesReset(stepping: Stepping, at: Instant): void {
  eachUnfinished(stepping, (record) => {
    if (record.released === null || record.reset !== null || record.stop === null) return;
    if (restartedUnseen(stepping, record)) return;
    record.reset = at;
    stepping.emit({ kind: 'PressMoved', at, press: record });
  });
}

export function pressesRestarted(stepping: Stepping, at: Instant): void {
  eachUnfinished(stepping, (record) => {
    if (record.stop === null || record.restarted !== null || restartedUnseen(stepping, record)) return;
    record.restarted = at;
    stepping.emit({ kind: 'PressMoved', at, press: record });
  });
}

export function pressesFirstGood(stepping: Stepping, at: Instant): void {
  eachUnfinished(stepping, (record) => {
    if (record.restarted === null) return;
    record.firstGood = at;
    stepping.emit({ kind: 'PressMoved', at, press: record });
  });
}

/** Whether the device itself was read pressed, and not only its twin. */
export function wasRead(record: PressRecord): boolean {
  return record.known !== 'count';
}

function roleDuring(stepping: Stepping, record: PressRecord, stop: StopRecord): PressRecord['role'] {
  if (record.known === 'found') return 'uncertain';
  const apart = between(stop.begin, record.pressed);
  if (apart > stepping.index.orderCertain) return 'during';
  if (stop.kind === 'safety') return 'caused';
  if (apart < -stepping.index.orderCertain) return 'caused';
  return stop.kind === null ? 'uncertain' : 'during';
}

/** [ST11] Its stop ended while nobody was looking: what came of the press then is not told by a later restart. */
function restartedUnseen({ state }: Stepping, record: PressRecord): boolean {
  return state.stops.findLast(({ id }) => id === record.stop)?.endSeen === false;
}

function eachUnfinished(stepping: Stepping, act: (record: PressRecord) => void): void {
  const presses = stepping.state.presses;
  for (let place = presses.length - 1; place >= 0 && place >= presses.length - 20; place -= 1) {
    const record = presses[place]!;
    if (wasRead(record) && record.firstGood === null) act(record);
  }
}

function keep(list: PressRecord[], record: PressRecord): void {
  list.push(record);
  if (list.length > PRESSES_KEPT) list.splice(0, list.length - PRESSES_KEPT / 2);
}
