import type { LineIndex } from '../fold/lineIndex.ts';
import { type Change, byLineTime, type Role, type Signal, type Value } from '../signals/signals.ts';
import { severity } from '../status/status.ts';
import {
  type EpochMs,
  epochMs,
  type Instant,
  type Millis,
  millis,
  type Span,
  seconds,
} from '../units/units.ts';

/** So long before a stop's beginning, and after it. */
export const AROUND = seconds(10);
/** Readings of one signal that are drawn; a faster one keeps its first ones, and says how many more there are. */
const READINGS_MOST = 80;
const CONDITIONS: readonly Role[] = ['condition', 'speedActual', 'speedSet', 'machineAngle', 'adjustment'];
const COUNTS: readonly Role[] = [
  'cycleCount',
  'goodCount',
  'presentedCount',
  'rejectCount',
  'pickedCount',
  'missedPickCount',
  'notLoadedCount',
  'crushedCount',
  'nearMissCount',
  'stopDeviceCount',
  'heartbeat',
];
/** What is shown, in this order. */
const SHOWN: readonly Role[] = [
  'link',
  'state',
  'mode',
  'stopReason',
  'alarmNumber',
  'alarmText',
  'stopDevice',
  'stopDeviceCount',
  'guard',
  'enabling',
  'muting',
  'starved',
  'blocked',
  'cycleCount',
  'speedSet',
  'speedActual',
  'machineAngle',
  'condition',
  'adjustment',
  'heartbeat',
  'programVersion',
];

/** What the PLC told from 10 s before a stop's beginning to 10 s after it, as known now. */
export interface AroundStop {
  readonly stop: string;
  readonly at: EpochMs;
  /** How long after its beginning is looked at: less than 10 s while it has only just begun. */
  readonly until: Millis;
  /** What moved in it, or has a range that is normal. */
  readonly lanes: readonly AroundLane[];
  /** What told nothing else in it than before. */
  readonly unmoved: readonly AroundLane[];
  /** False where the tape held more than may be looked through at once. */
  readonly whole: boolean;
}

export interface AroundLane {
  readonly id: string;
  readonly role: Role;
  /** Device, guard, condition, adjustment or server it belongs to, as people call it. */
  readonly of: string | undefined;
  /** value: a measured one. count: it only counts up. state: one thing after another. */
  readonly kind: 'value' | 'count' | 'state';
  readonly unit: string | undefined;
  readonly decimals: number;
  readonly normal: readonly [number, number] | undefined;
  /** True where it read outside its normal range before the stop began. */
  readonly outside: boolean;
  /** The oldest first. Each holds until the next; `after` below zero was before the stop's beginning. */
  readonly readings: readonly AroundReading[];
  /** Readings that are left out. */
  readonly more: number;
}

export interface AroundReading {
  readonly after: Millis;
  /** Null while it is not known. */
  readonly value: Value;
  /** What a number means: a state, a mode, a reason. */
  readonly means: string | undefined;
}

/** `changes`: what the tape holds of these seconds, and what each signal told last before them as far as that is known. */
export function aroundStop(
  index: LineIndex,
  stop: { readonly id: string; readonly begin: Instant },
  {
    changes,
    whole,
    now,
  }: { readonly changes: readonly Change[]; readonly whole: boolean; readonly now: Instant },
): AroundStop {
  const to = Math.min(stop.begin + AROUND, now) as Instant;
  const bySignal = new Map<number, Change[]>();
  for (const change of [...changes].sort(byLineTime))
    if (change.at < to) bySignal.set(change.signal, [...(bySignal.get(change.signal) ?? []), change]);
  const lanes = index.line.signals
    .filter(({ role }) => SHOWN.includes(role))
    .map((signal) => {
      const from = (stop.begin - AROUND) as Instant;
      const most = READINGS_MOST;
      return laneOf(index, signal, bySignal.get(signal.index) ?? [], { from, zero: stop.begin, most });
    })
    .filter(({ readings }) => readings.length > 0)
    .sort((a, b) => SHOWN.indexOf(a.role) - SHOWN.indexOf(b.role));
  const isShown = ({ readings, normal }: AroundLane) =>
    readings.some(({ after }) => after > -millis(AROUND)) || normal !== undefined;
  return {
    stop: stop.id,
    at: epochMs(stop.begin),
    until: millis((to - stop.begin) as Span),
    lanes: lanes.filter(isShown),
    unmoved: lanes.filter((lane) => !isShown(lane)),
    whole,
  };
}

/** One signal's readings from a moment on, counted from another; `changes`: its own, in line time. */
export function laneOf(
  index: LineIndex,
  signal: Signal,
  changes: readonly Change[],
  { from, zero, most }: { readonly from: Instant; readonly zero: Instant; readonly most: number },
): AroundLane {
  const before = changes.findLast(({ at }) => at <= from);
  const within = changes.filter(({ at }) => at > from);
  const readings: AroundReading[] = [];
  for (const change of before ? [before, ...within] : within) {
    const value = severity(change.status) === 'bad' ? null : change.value;
    if (readings.at(-1)?.value === value) continue;
    const after = millis((Math.max(change.at, from) - zero) as Span);
    readings.push({ after, value, means: meaningOf(index, signal.role, value) });
  }
  const condition = index.line.conditions.find(({ id }) => signal.role === 'condition' && id === signal.of);
  const adjustment = index.line.adjustments.find(
    ({ number }) => signal.role === 'adjustment' && number === signal.of,
  );
  const normal = condition?.normal;
  const isOutside = ({ value, after }: AroundReading) =>
    after < 0 &&
    normal !== undefined &&
    typeof value === 'number' &&
    (value < normal[0] || value > normal[1]);
  return {
    id: signal.id,
    role: signal.role,
    of: nameOf(index, signal),
    kind: CONDITIONS.includes(signal.role) ? 'value' : COUNTS.includes(signal.role) ? 'count' : 'state',
    unit: condition?.unit ?? adjustment?.unit,
    decimals: adjustment?.decimals ?? (signal.role === 'machineAngle' || signal.role === 'speedSet' ? 0 : 1),
    normal,
    outside: readings.some(isOutside),
    readings: readings.slice(0, most),
    more: Math.max(0, readings.length - most),
  };
}

function meaningOf(
  { states, modes, reasonByNumber, line }: LineIndex,
  role: Role,
  value: Value,
): string | undefined {
  if (typeof value !== 'number') return undefined;
  switch (role) {
    case 'state':
      return states.get(value);
    case 'mode':
      return modes.get(value);
    case 'stopReason':
    case 'alarmNumber': {
      const reason = reasonByNumber.get(value);
      const where = line.stations.find(({ id }) => id === reason?.station)?.name;
      return reason && (where === undefined ? reason.name : `${reason.name}, ${where}`);
    }
    default:
      return undefined;
  }
}

function nameOf({ line }: LineIndex, { role, of, server }: Signal): string | undefined {
  const named = (list: readonly { readonly id: string; readonly name: string }[]) =>
    list.find(({ id }) => id === of)?.name ?? of;
  if (role === 'stopDevice' || role === 'stopDeviceCount') return named(line.devices);
  if (role === 'guard') return named(line.guards);
  if (role === 'condition') return named(line.conditions);
  if (role === 'notLoadedCount') return named(line.loading.positions);
  if (role === 'rejectCount') return named(line.rejects);
  if (role === 'link') return server;
  const adjustment = line.adjustments.find(({ number }) => role === 'adjustment' && number === of);
  return adjustment ? `${adjustment.number} ${adjustment.name}` : undefined;
}
