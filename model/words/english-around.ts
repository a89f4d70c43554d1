import type { AroundLane, AroundReading, AroundStop } from '../past/around.ts';
import { count, exactly, locale, many } from './english-say.ts';
import * as numbers from './format.ts';

const decimal = (n: number, decimals: number) => numbers.decimal(n, decimals, locale);

export const stateWords: Readonly<Record<string, string>> = {
  Clearing: 'clearing',
  Stopped: 'stopped',
  Starting: 'starting',
  Idle: 'idle',
  Suspended: 'suspended',
  Execute: 'producing',
  Stopping: 'stopping',
  Aborting: 'aborting',
  Aborted: 'aborted',
  Holding: 'holding',
  Held: 'held',
  Unholding: 'unholding',
  Suspending: 'suspending',
  Unsuspending: 'unsuspending',
  Resetting: 'resetting',
  Completing: 'completing',
  Complete: 'complete',
};
const YES_NO: Partial<Readonly<Record<AroundLane['role'], readonly [yes: string, no: string]>>> = {
  link: ['heard', 'not heard'],
  stopDevice: ['reads pressed', 'reads released'],
  guard: ['reads open', 'reads closed'],
  trial: ['on', 'off'],
  enabling: ['on', 'off'],
  muting: ['on', 'off'],
  starved: ['yes', 'no'],
  blocked: ['yes', 'no'],
};
const NAMES: Partial<Readonly<Record<AroundLane['role'], string>>> = {
  state: 'machine state',
  mode: 'mode',
  stopReason: 'first fault, as the PLC gives it',
  alarmNumber: 'alarm',
  alarmText: 'alarm text',
  cycleCount: 'machine cycles',
  goodCount: 'good cartons',
  presentedCount: 'cartons that came here',
  pickedCount: 'blanks picked',
  missedPickCount: 'missed picks',
  crushedCount: 'crushed cartons',
  nearMissCount: 'near misses',
  heartbeat: 'heartbeat',
  speedSet: 'speed set',
  speedActual: 'speed',
  machineAngle: 'machine angle at stop',
  trial: 'trial cartons',
  enabling: 'enabling signal',
  muting: 'muting signal',
  starved: 'starved',
  blocked: 'blocked',
  programVersion: 'program version',
};
const UNITS: Partial<Readonly<Record<AroundLane['role'], string>>> = {
  speedSet: 'a minute',
  speedActual: 'a minute',
  machineAngle: '°',
};
const secondsFrom = (ms: number) =>
  ms === 0 ? '0 s' : `${ms < 0 ? '−' : '+'}${decimal(Math.abs(ms) / 1000, Math.abs(ms) < 9950 ? 1 : 0)} s`;

function nameOf({ role, of }: Pick<AroundLane, 'role' | 'of'>): string {
  if (role === 'stopDeviceCount') return `presses of ${of ?? 'a stop device'}, counted`;
  if (role === 'notLoadedCount') return `not loaded${of === undefined ? '' : `, ${of}`}`;
  if (role === 'rejectCount') return `rejects${of === undefined ? '' : `, ${of}`}`;
  if (role === 'link') return `server ${of ?? ''}`.trim();
  return of ?? NAMES[role] ?? role;
}

function unitOf({ unit, role }: Pick<AroundLane, 'unit' | 'role'>): string {
  const known = unit ?? UNITS[role] ?? '';
  if (known === 'deg' || known === '°') return '°';
  return known === '' ? '' : ` ${known}`;
}

function readingOf(
  { value, means }: AroundReading,
  lane: Pick<AroundLane, 'role' | 'unit' | 'decimals' | 'kind'>,
): string {
  if (value === null) return 'not known';
  if (means !== undefined) return stateWords[means] ?? means;
  if (typeof value === 'boolean') {
    const [yes, no] = YES_NO[lane.role] ?? ['yes', 'no'];
    return value ? yes : no;
  }
  if (typeof value === 'string') return lane.role === 'link' ? 'heard again' : value === '' ? 'none' : value;
  if (lane.kind === 'value') return `${decimal(value, lane.decimals)}${unitOf(lane)}`;
  if (lane.role === 'stopReason' || lane.role === 'alarmNumber')
    return value === 0 ? 'none' : `number ${count(value)}`;
  return count(value);
}

/** Sentences of what the PLC said around a stop. */
export const aroundWords = {
  title: (moment: number, zone: string) => `What the PLC said around ${exactly(moment, zone)}`,
  about: ({ until }: AroundStop) =>
    `From 10 s before the stop began to ${until < 10_000 ? `${decimal(until / 1000, 1)} s` : '10 s'} after it, by PLC time, as known now. Between two readings nothing is known.`,
  notWhole:
    'The tape holds more of this time than may be looked through at once: the newest is missing here.',
  began: 'the stop began',
  ticks: [-10, -5, 0, 5, 10].map((second) => ({
    ms: second * 1000,
    said: second === 0 ? '0' : `${second < 0 ? '−' : '+'}${Math.abs(second)} s`,
  })),
  name: (lane: AroundLane) => nameOf(lane),
  normal: (lane: AroundLane) =>
    lane.normal
      ? `normal ${decimal(lane.normal[0], lane.decimals)} to ${decimal(lane.normal[1], lane.decimals)}${unitOf(lane)}`
      : '',
  outside: 'outside its normal range before the stop:',
  value: (reading: AroundReading, lane: AroundLane) => readingOf(reading, lane),
  /** A lane in one sentence, for those who listen and for the table. */
  said: (lane: AroundLane) => {
    const { readings, more, kind } = lane;
    if (kind === 'count') {
      const before = readings.filter(({ after }) => after > -10_000 && after < 0).length;
      const later = readings.filter(({ after }) => after >= 0).length;
      return `moved ${count(before)} ${many(before, 'time', 'times')} before, ${count(later + more)} after`;
    }
    if (kind === 'value') {
      const values = readings.flatMap(({ value }) => (typeof value === 'number' ? [value] : []));
      if (values.length === 0) return 'not known';
      const [low, high] = [Math.min(...values), Math.max(...values)];
      return low === high
        ? `${decimal(low, lane.decimals)}${unitOf(lane)}`
        : `${decimal(low, lane.decimals)} to ${decimal(high, lane.decimals)}${unitOf(lane)}`;
    }
    const said = readings.map((one, place) =>
      place === 0 && one.after <= -10_000
        ? readingOf(one, lane)
        : `${secondsFrom(one.after)} ${readingOf(one, lane)}`,
    );
    return `${said.join(', ')}${more > 0 ? `, and ${count(more)} more` : ''}`;
  },
  drawing: (lane: AroundLane) => `${nameOf(lane)}: ${aroundWords.said(lane)}`,
  unmoved: 'Told nothing new in these seconds',
  unmovedOne: (lane: AroundLane) =>
    `${nameOf(lane)} ${lane.readings[0] ? readingOf(lane.readings[0], lane) : ''}`.trim(),
  nothing: 'The tape holds nothing of these seconds.',
  cause: 'What came before it need not have caused it.',
} as const;
