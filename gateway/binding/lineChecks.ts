import { wordsIn } from '../../model/words/words.ts';
import { fault, isSection, numberAt, type Row, rowsOf } from './rows.ts';
import type { Fault } from './faults.ts';
import { settingDefaults } from './settings.ts';
import { durationMs } from './durations.ts';
import { valueAt } from './shapeFaults.ts';
import type { Source } from './source.ts';
import { likely } from './spelling.ts';
import { isZone, zones } from './zones.ts';

const words = wordsIn('en').gateway.binding;

/** Bundled drawings, each also as `…-off`, folded off its score. Other stations are shown as a closed carton. */
export const drawings: readonly string[] = [
  'magazine',
  'pick',
  'open',
  'bottom-minor',
  'bottom-major',
  'capture',
  'loading',
  'top-minor',
  'top-major',
  'tuck-cam',
  'discharge',
];

/** Distances to discharge, and drawings that were asked for by name. */
export function stationFaults(source: Source): readonly Fault[] {
  const stations = rowsOf(source, 'stations');
  const answers = [
    ...rowsOf(source, 'answers'),
    ...stations.flatMap(({ path }) => rowsOf(source, ...path, 'answers')),
  ];
  const last = stations.at(-1);
  const end = last?.value.pockets;
  return [
    ...stations.flatMap((station, place) => pocketFaults(source, stations, station, place)),
    ...(last && typeof end === 'number' && end !== 0
      ? [fault(source, [...last.path, 'pockets'], words.pocketsLast(String(last.value.id)))]
      : []),
    ...[...stations, ...answers].flatMap((row) => drawingFaults(source, row)),
  ];
}

function pocketFaults(source: Source, stations: readonly Row[], station: Row, place: number): Fault[] {
  const pockets = station.value.pockets;
  const before = stations
    .slice(0, place)
    .findLast(({ value }) => value.machine === station.value.machine && typeof value.pockets === 'number');
  if (typeof pockets !== 'number' || !before || (before.value.pockets as number) >= pockets) return [];
  const told = words.pocketsGrow(String(station.value.id), String(before.value.id));
  return [fault(source, [...station.path, 'pockets'], told)];
}

function drawingFaults(source: Source, row: Row): Fault[] {
  const drawing = row.value.drawing;
  if (typeof drawing !== 'string' || drawings.includes(drawing.replace(/-off$/, ''))) return [];
  const told = words.badDrawing(drawing, likely(drawing, drawings), drawings);
  return [fault(source, [...row.path, 'drawing'], told)];
}

/** Maps of state and mode numbers name the one that makes production, and the line's zone exists. */
export function machineFaults(source: Source): readonly Fault[] {
  const zone = valueAt(source.data, ['line', 'zone']);
  const badZone = typeof zone === 'string' && zone !== '' && !isZone(zone);
  return [
    ...(badZone ? [fault(source, ['line', 'zone'], words.badZone(zone, likely(zone, zones())))] : []),
    ...rowsOf(source, 'machines').flatMap(({ path, value }) => [
      ...(isSection(value.states) && !Object.values(value.states).includes('Execute')
        ? [fault(source, [...path, 'states'], words.noExecute)]
        : []),
      ...(isSection(value.modes) && !Object.values(value.modes).includes('produce')
        ? [fault(source, [...path, 'modes'], words.noProduce)]
        : []),
    ]),
  ];
}

/** Targets by crew, scales and their set points. */
export function targetFaults(source: Source): readonly Fault[] {
  const crews = rowsOf(source, 'loading', 'crews');
  const crew = numberAt(source, ['loading', 'crew']);
  const unlisted =
    crew !== undefined && crews.length > 0 && !crews.some(({ value }) => value.people === crew);
  return [
    ...(unlisted ? [fault(source, ['loading', 'crew'], words.crewUnlisted(crew))] : []),
    ...rowsOf(source, 'sizes').flatMap((size) => sizeFaults(source, size)),
    ...rowsOf(source, 'adjustments').flatMap((row) => scaleFaults(source, row, 'range')),
    ...rowsOf(source, 'conditions').flatMap((row) => scaleFaults(source, row, 'normal')),
    ...rowsOf(source, 'adjustments').flatMap((row) => bookFaults(source, row)),
  ];
}

function sizeFaults(source: Source, { path, value }: Row): Fault[] {
  if (!isSection(value.targets)) return [];
  const targets = Object.entries(value.targets);
  const set = numberAt(source, ['settings', 'rateMax']);
  if (targets.length === 0) return [fault(source, [...path, 'targets'], words.noTarget(String(value.id)))];
  return targets.flatMap(([people, target]) =>
    typeof target === 'number' && set !== undefined && target > set
      ? [fault(source, [...path, 'targets', people], words.targetAboveRate(target, set))]
      : [],
  );
}

function scaleFaults(source: Source, { path, value }: Row, key: string): Fault[] {
  const scale = pairOf(value[key]);
  return scale && scale[0] >= scale[1] ? [fault(source, [...path, key], words.emptyRange)] : [];
}

function bookFaults(source: Source, { path, value }: Row): Fault[] {
  const scale = pairOf(value.range);
  if (!scale || scale[0] >= scale[1] || !isSection(value.book)) return [];
  const [low, high] = scale;
  return Object.entries(value.book).flatMap(([size, set]) =>
    typeof set === 'number' && (set < low || set > high)
      ? [fault(source, [...path, 'book', size], words.bookOutside(set, low, high))]
      : [],
  );
}

function pairOf(value: unknown): readonly [number, number] | undefined {
  if (!Array.isArray(value) || value.length !== 2) return undefined;
  const [low, high] = value as unknown[];
  return typeof low === 'number' && typeof high === 'number' ? [low, high] : undefined;
}

/** Stale comes before lost. */
export function settingsFaults(source: Source): readonly Fault[] {
  const stale = valueAt(source.data, ['settings', 'stale']);
  const lost = valueAt(source.data, ['settings', 'lost']);
  const staleMs = typeof stale === 'string' ? durationMs(stale) : settingDefaults.staleMs;
  const lostMs = typeof lost === 'string' ? durationMs(lost) : settingDefaults.lostMs;
  if (staleMs === undefined || lostMs === undefined || staleMs < lostMs) return [];
  return [fault(source, ['settings', lost === undefined ? 'stale' : 'lost'], words.staleAfterLost)];
}
