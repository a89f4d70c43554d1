import type { LineIndex } from '../fold/lineIndex.ts';
import type { Role, Signal, Value } from '../signals/signals.ts';
import type { StationRef } from './past.ts';

/** What a signal means on its line, which never changes while the line runs. */
export interface SignalMeaning {
  readonly id: string;
  readonly role: Role;
  /** Station, device, guard, loading position, reject reason, adjustment or condition that it is of. */
  readonly name: string | undefined;
  readonly place: 'line' | 'devices' | 'station';
  readonly station: string | undefined;
  readonly unit: string | undefined;
  readonly decimals: number | undefined;
  /** For Booleans: the value that means pressed, open, starved … */
  readonly activeWhen: boolean;
  /** What its numbers mean, where the line file says so. */
  readonly values: Readonly<Record<string, string>>;
}

/** One signal as the gateway tells it now. */
export interface SignalReading {
  readonly id: string;
  readonly server: string;
  readonly tag: string | null;
  readonly value: Value;
  readonly quality: 'good' | 'uncertain' | 'unknown' | 'notHeard';
  /** Milliseconds since its value changed; null before the first. */
  readonly ageMs: number | null;
  /** As the server revised them: it was asked for every change, and for a queue of 100. */
  readonly samplingMs: number | null;
  readonly queue: number | null;
  readonly twin: boolean | null;
  readonly missable: string | null;
  readonly trouble: string | null;
}

export interface ShownSignal extends SignalReading {
  readonly meaning: SignalMeaning;
  /** What there is to mend of it; undefined for nothing. `notHeard` is no trouble of its own: its server's is. */
  readonly wrong: 'trouble' | 'noTwin' | 'missable' | 'bad' | 'uncertain' | 'never' | undefined;
}

export interface SignalSheet {
  readonly id: string;
  readonly place: SignalMeaning['place'];
  readonly station: StationRef | undefined;
  /** Of all its signals, also those that are not shown. */
  readonly signals: number;
  readonly mend: number;
  /** Those wanted, the ones with something to mend first. */
  readonly shown: readonly ShownSignal[];
}

/** Every signal of a line, by where it belongs. */
export interface SignalSheets {
  readonly all: number;
  readonly mend: number;
  readonly devices: number;
  /** Stop devices without a counted twin. */
  readonly withoutTwin: number;
  readonly good: number;
  readonly uncertain: number;
  /** Bad, never told, or of a server that is not heard. */
  readonly silent: number;
  /** The line, then what stops it, then the stations as cartons pass them; those with nothing to show are left out. */
  readonly sheets: readonly SignalSheet[];
}

export type SignalChoice = 'all' | 'mend' | 'devices';

export function signalMeanings(index: LineIndex): readonly SignalMeaning[] {
  return index.line.signals.filter(({ role }) => role !== 'entry').map((signal) => meaningOf(index, signal));
}

function meaningOf(index: LineIndex, signal: Signal): SignalMeaning {
  const { line } = index;
  const of = <Item extends { readonly id: string }>(list: readonly Item[]) =>
    list.find(({ id }) => id === signal.of);
  const adjustment =
    signal.role === 'adjustment' ? line.adjustments.find(({ number }) => number === signal.of) : undefined;
  const condition = signal.role === 'condition' ? of(line.conditions) : undefined;
  const station = stationOf(index, signal);
  return {
    id: signal.id,
    role: signal.role,
    name: adjustment ? `${adjustment.number} ${adjustment.name}` : (condition?.name ?? nameOf(index, signal)),
    place: DEVICES.has(signal.role) ? 'devices' : station === undefined ? 'line' : 'station',
    station,
    unit: adjustment?.unit ?? condition?.unit,
    decimals: adjustment?.decimals,
    activeWhen: signal.activeWhen ?? true,
    values: valuesOf(index, signal),
  };
}

const DEVICES: ReadonlySet<Role> = new Set(['stopDevice', 'stopDeviceCount', 'guard', 'enabling', 'muting']);

function nameOf({ line }: LineIndex, { role, of }: Signal): string | undefined {
  const listed = {
    stopDevice: line.devices,
    stopDeviceCount: line.devices,
    guard: line.guards,
    enabling: line.guards,
    muting: line.guards,
    notLoadedCount: line.loading.positions,
    rejectCount: line.rejects,
  }[role as string];
  return listed?.find(({ id }) => id === of)?.name;
}

function stationOf({ line }: LineIndex, { role, of }: Signal): string | undefined {
  switch (role) {
    case 'pickedCount':
    case 'missedPickCount':
      return line.stations.find(({ drawing }) => drawing === 'pick')?.id;
    case 'notLoadedCount':
      return line.loading.station;
    case 'rejectCount':
      return line.rejects.find(({ id }) => id === of)?.station;
    case 'adjustment':
      return line.adjustments.find(({ number }) => number === of)?.station;
    default:
      return line.stations.find(({ id }) => id === of)?.id;
  }
}

function valuesOf({ line, reasonByNumber }: LineIndex, { role, machine }: Signal): SignalMeaning['values'] {
  const own = line.machines.find(({ id }) => id === machine);
  switch (role) {
    case 'state':
      return Object.fromEntries(own?.states ?? []);
    case 'mode':
      return Object.fromEntries(own?.modes ?? []);
    case 'stopReason':
    case 'alarmNumber':
      return Object.fromEntries([...reasonByNumber].map(([number, { name }]) => [number, name]));
    case 'size':
      return Object.fromEntries(line.sizes.map(({ code, name }) => [code, name]));
    default:
      return {};
  }
}

export function signalSheets(
  meanings: readonly SignalMeaning[],
  readings: readonly SignalReading[],
  stations: readonly StationRef[],
  choice: SignalChoice,
): SignalSheets {
  const told = new Map(readings.map((reading) => [reading.id, reading]));
  const signals = meanings.flatMap((meaning): ShownSignal[] => {
    const reading = told.get(meaning.id);
    return reading ? [{ ...reading, meaning, wrong: wrongOf(reading, meaning) }] : [];
  });
  const count = (of: (signal: ShownSignal) => boolean) => signals.filter(of).length;
  return {
    all: signals.length,
    mend: count(({ wrong }) => wrong !== undefined),
    devices: count(isDevice),
    withoutTwin: count(({ meaning, twin }) => meaning.role === 'stopDevice' && twin === false),
    good: count(({ quality }) => quality === 'good'),
    uncertain: count(({ quality }) => quality === 'uncertain'),
    silent: count(({ quality }) => quality === 'unknown' || quality === 'notHeard'),
    sheets: placesOf(signals, stations)
      .map(([place, station, own]) => sheetOf(place, station, own, choice))
      .filter(({ shown }) => shown.length > 0),
  };
}

function isDevice({ meaning }: ShownSignal): boolean {
  return meaning.role === 'stopDevice' || meaning.role === 'guard';
}

function placesOf(signals: readonly ShownSignal[], stations: readonly StationRef[]) {
  const at = (place: SignalMeaning['place'], id?: string) =>
    signals.filter(({ meaning }) => meaning.place === place && (id === undefined || meaning.station === id));
  return [
    ['line', undefined, at('line')] as const,
    ['devices', undefined, at('devices')] as const,
    ...stations.map((station) => ['station', station, at('station', station.id)] as const),
  ];
}

function sheetOf(
  place: SignalMeaning['place'],
  station: StationRef | undefined,
  signals: readonly ShownSignal[],
  choice: SignalChoice,
): SignalSheet {
  const mend = signals.filter(({ wrong }) => wrong !== undefined);
  const rest = signals.filter(({ wrong }) => wrong === undefined);
  const inOrder = choice === 'devices' ? signals.filter(isDevice) : [...mend, ...rest];
  return {
    id: station?.id ?? place,
    place,
    station,
    signals: signals.length,
    mend: mend.length,
    shown: choice === 'mend' ? mend : inOrder,
  };
}

function wrongOf(reading: SignalReading, { role }: SignalMeaning): ShownSignal['wrong'] {
  if (reading.trouble !== null) return 'trouble';
  if (reading.quality === 'unknown' && role !== 'link') return reading.ageMs === null ? 'never' : 'bad';
  if (reading.quality === 'uncertain') return 'uncertain';
  if (role === 'stopDevice' && reading.twin === false) return 'noTwin';
  return reading.missable === null ? undefined : 'missable';
}
