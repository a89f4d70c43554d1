import type { ServerPanel } from '../past/serverPanels.ts';
import type { ShownSignal, SignalSheet, SignalSheets } from '../past/signalSheets.ts';
import type { Role } from '../signals/signals.ts';
import { at, capital, count, lasted, many, onDay, past } from './english-say.ts';

const signals = (n: number) => `${count(n)} ${many(n, 'signal', 'signals')}`;

/** What a signal means, where its line has one of it; `of` names which one where there are several. */
const ROLES: { readonly [role in Role]: (of: string | undefined) => string } = {
  state: () => 'machine state',
  mode: () => 'machine mode',
  stopReason: () => 'first-out word',
  alarmNumber: () => 'alarm number',
  alarmText: () => 'alarm text',
  cycleCount: () => 'cycle count',
  goodCount: () => 'good count',
  presentedCount: () => 'carton count',
  rejectCount: (of) => `rejects, ${of ?? 'reason not known'}`,
  pickedCount: () => 'blanks picked',
  missedPickCount: () => 'missed picks',
  notLoadedCount: (of) => `not loaded${of === undefined ? '' : `, ${of}`}`,
  crushedCount: () => 'crushed and cleared',
  nearMissCount: () => 'near misses',
  stopDevice: (of) => of ?? 'stop device',
  stopDeviceCount: (of) => `${of ?? 'stop device'}, counted twin`,
  guard: (of) => of ?? 'guard',
  speedSet: () => 'speed set',
  speedActual: () => 'speed',
  size: () => 'size',
  crew: () => 'people at loading',
  order: () => 'order',
  lot: () => 'board lot',
  adjustment: (of) => of ?? 'adjustment',
  starved: () => 'starved',
  blocked: () => 'blocked',
  machineAngle: () => 'machine angle at stop',
  condition: (of) => of ?? 'condition',
  programVersion: () => 'program version',
  trial: () => 'trial cartons',
  enabling: (of) => `enabling${of === undefined ? '' : `, ${of}`}`,
  muting: (of) => `muting${of === undefined ? '' : `, ${of}`}`,
  heartbeat: () => 'heartbeat',
  link: () => 'link, written here',
  entry: () => 'entries',
};

/** What Booleans read. Never that anything is safe. */
const READS: { readonly [role in Role]?: readonly [active: string, not: string] } = {
  stopDevice: ['reads pressed', 'reads released'],
  guard: ['reads open', 'reads closed'],
};

function readsOf({ meaning, value, quality, ageMs }: ShownSignal): string {
  if (ageMs === null || value === null) return 'nothing yet';
  if (quality === 'unknown') return 'no data';
  if (meaning.role === 'link') return value === false ? 'not heard' : 'heard';
  if (typeof value === 'boolean') {
    const [active, not] = READS[meaning.role] ?? ['yes', 'no'];
    return value === meaning.activeWhen ? active : not;
  }
  if (typeof value === 'string') return value === '' ? 'empty' : value;
  const { decimals, unit } = meaning;
  const shown = decimals === undefined ? count(Math.round(value * 100) / 100) : value.toFixed(decimals);
  return `${shown.replace('-', '−')}${unit === undefined ? '' : ` ${unit}`}`;
}

/** An age in words; below a second it is now. */
function ageOf(ms: number): string {
  return ms < 1000 ? 'now' : ms < 60_000 ? `${count(Math.floor(ms / 1000))} s ago` : `${past(ms)} ago`;
}

function samplingOf({ samplingMs, queue }: ShownSignal): string {
  if (samplingMs === null || queue === null) return '';
  return `on change${samplingMs > 0 ? ` → ${count(samplingMs)} ms` : ''}, ${count(queue)}`;
}

/** What is wrong, and how it is mended. */
function wrongOf({ wrong, trouble, missable }: ShownSignal): readonly [string, string] | undefined {
  switch (wrong) {
    case 'trouble':
      return [trouble ?? '', 'Correct the line file, or ask whoever programs the PLC.'];
    case 'noTwin':
      return [missable ?? 'It has no counted twin.', 'Bind a counted signal of it, if the PLC has one.'];
    case 'missable':
      return [
        missable ?? '',
        'Ask the PLC’s programmer for sampling on change, or for a counted signal of it.',
      ];
    case 'bad':
      return ['The PLC marks it bad.', 'Look at the sensor and its cable, then at the PLC’s program.'];
    case 'uncertain':
      return ['The PLC marks it uncertain.', 'Ask the PLC’s programmer what it says so for.'];
    case 'never':
      return ['Nothing has come of it yet.', 'Look whether the PLC writes it at all.'];
    case undefined:
      return undefined;
  }
}

/** Sentences of the Signals screen. */
export const signalsWords = {
  title: 'Signals and links',
  lead: (
    { all, mend, good, uncertain, silent, withoutTwin }: SignalSheets,
    down: readonly string[],
  ): readonly [string, string] => {
    const heard =
      down.length === 0 ? '' : `${capital(down.join(', '))} ${many(down.length, 'is', 'are')} not heard. `;
    const twins =
      withoutTwin === 0
        ? ''
        : ` ${capital(count(withoutTwin))} stop ${many(withoutTwin, 'device has', 'devices have')} no counted twin.`;
    return [
      `${heard}${mend === 0 ? `None of ${signals(all)} has anything to mend.` : `${capital(count(mend))} of ${signals(all)} ${many(mend, 'has', 'have')} something to mend.`}${twins}`,
      `${capital(count(good))} good, ${count(uncertain)} uncertain, ${count(silent)} without a value of now. Scoreline reads: it has no request that writes to a server or calls one.`,
    ];
  },
  choice: 'Which signals',
  all: (n: number) => `all ${count(n)}`,
  mend: (n: number) => `to mend, ${count(n)}`,
  devices: (n: number) => `stop devices, ${count(n)}`,
  nothing: 'None of them.',

  list: 'Signals by where they belong',
  columns: {
    meaning: 'meaning',
    tag: 'tag',
    now: 'now',
    quality: 'quality, age',
    sampled: 'sampled, queue',
    trouble: 'trouble, and the mend',
  },
  line: 'the line',
  stopping: 'what stops it: devices, guards',
  stationOf: (number: number, name: string) => `${number} ${name}`,
  sheet: ({ signals: n, mend }: SignalSheet) =>
    `${signals(n)}, ${mend === 0 ? 'no trouble' : `${count(mend)} to mend`}`,
  more: (n: number) => `Show the other ${count(n)}`,
  meaning: ({ meaning }: ShownSignal) => ROLES[meaning.role](meaning.name),
  server: (server: string) => `of ${server}`,
  value: readsOf,
  means: ({ meaning, value }: ShownSignal) => meaning.values[String(value)] ?? '',
  quality: ({ quality, ageMs, meaning }: ShownSignal) => {
    const known = { good: 'good', uncertain: 'uncertain', unknown: 'no value', notHeard: 'server not heard' }[
      quality
    ];
    if (ageMs === null) return known;
    if (ageMs < 1000) return `${known}, now`;
    const long = ageMs < 60_000 ? `${count(Math.floor(ageMs / 1000))} s` : past(ageMs);
    return meaning.role === 'link' ? `${known}, for ${long}` : `${known}, unchanged for ${long}`;
  },
  sampling: samplingOf,
  wrong: wrongOf,
  none: 'none',
  twin: (twin: boolean | null) => (twin === null ? '' : twin ? 'has a counted twin' : 'no counted twin'),
  foot: 'Asked for: every change, and a queue of 100. “on change → 50 ms” means that the server made that of it: it looks so often, and cannot show a pulse shorter than that. An old age is nothing wrong with a value that has not changed: the heartbeat tells whether the link lives. What reads released or closed is only what the PLC says.',

  up: 'heard',
  down: 'not heard',
  since: (moment: number, zone: string) => `since ${at(moment, zone)}`,
  fields: {
    security: 'security',
    certificate: 'certificate',
    clock: 'clock',
    age: 'newest data',
    signals: 'signals',
  },
  security: (security: string) =>
    ({
      none: 'none: what it says is neither signed nor encrypted',
      sign: 'signed',
      signAndEncrypt: 'signed and encrypted',
    })[security] ?? security,
  noCertificate: 'none shown',
  fingerprint: 'SHA-256. Compare it with the one that the PLC itself shows.',
  clock: ({ clockOffsetMs, clock }: ServerPanel) => {
    if (clockOffsetMs === null) return 'not known yet';
    const s = `${(Math.abs(clockOffsetMs) / 1000).toFixed(2)} s`;
    if (Math.abs(clockOffsetMs) < 5) return 'as here';
    return `${s} ${clockOffsetMs > 0 ? 'ahead of' : 'behind'} here${clock?.beyond ? ', beyond the scale' : ''}`;
  },
  clockSet: (ms: number) =>
    `Somebody set it by ${ms < 0 ? '−' : '+'}${lasted(Math.abs(ms))} while it was heard; line time goes on as it was.`,
  clockEnds: ['−2 s', 'here', '+2 s'],
  age: (ms: number | undefined) => (ms === undefined ? 'nothing yet' : ageOf(ms)),
  stale: 'older than 3 s',
  unread: (n: number) =>
    n === 1 ? 'A stretch of the tape cannot be read' : `${count(n)} stretches of the tape cannot be read`,
  unreadTime: (from: number, to: number, zone: string) =>
    `Unknown: from ${onDay(from, zone)} to ${onDay(to, zone)}.`,
  unreadNever: 'Nobody knows when it was.',
  mendIt: (mend: string) => `Mend: ${mend}`,
} as const;
