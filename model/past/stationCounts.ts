import type { LineIndex } from '../fold/lineIndex.ts';
import type { Signal } from '../signals/signals.ts';

/** What was counted at a station; undefined where the line has no counter for it, which is not zero. */
export interface StationCounts {
  readonly presented: number | undefined;
  readonly rejects: number | undefined;
  readonly empty: number | undefined;
  readonly missed: number | undefined;
  readonly crushed: number | undefined;
}

/** What one station may be judged by, carton by carton: places among the tallied signals. */
export interface Judged {
  readonly kind: 'reject' | 'notLoaded' | 'missed';
  readonly counted: readonly number[];
  /** All of which those are a part: cartons at discharge, and with missed picks the pockets without one as well. */
  readonly among: readonly number[];
}

/** [LO6] What a stretch added to each tallied signal, by station: empty cartons are no rejects, and a missed pick is the pick's. */
export function stationCounts(index: LineIndex, gained: readonly number[], station: string): StationCounts {
  const of = (belongs: (signal: Signal) => boolean) => sumOf(gained, placesOf(index, belongs));
  return {
    presented: of(({ role, of: where }) => role === 'presentedCount' && where === station),
    rejects: of(isReject(index, station, 'reject')),
    empty: of(isEmpty(index, station)),
    missed: of(isMissed(index, station)),
    crushed: of(({ role, of: where }) => role === 'crushedCount' && where === station),
  };
}

/** By what a station is judged: its rejects, else its empty cartons, else its missed picks; undefined where nothing is charged to it. */
export function judgedBy(index: LineIndex, station: string): Judged | undefined {
  const discharged = placesOf(index, ({ role }) => role === 'goodCount' || role === 'rejectCount');
  const rejects = placesOf(index, isReject(index, station, 'reject'));
  if (rejects.length > 0) return { kind: 'reject', counted: rejects, among: discharged };
  const empty = placesOf(index, isReject(index, station, 'notLoaded'));
  if (empty.length > 0) return { kind: 'notLoaded', counted: empty, among: discharged };
  const missed = placesOf(index, isMissed(index, station));
  if (missed.length > 0) return { kind: 'missed', counted: missed, among: [...discharged, ...missed] };
  return undefined;
}

/** What some of the tallied signals gained in all; undefined where there are none of them. */
export function sumOf(gained: readonly number[], places: readonly number[]): number | undefined {
  return places.length === 0
    ? undefined
    : places.reduce((total, place) => total + Math.max(0, gained[place] ?? 0), 0);
}

/** What each tallied signal gained from one reading of the tally to another. */
export function gainedBetween(before: readonly number[], after: readonly number[]): readonly number[] {
  return after.map((value, place) => value - (before[place] ?? 0));
}

function placesOf(index: LineIndex, belongs: (signal: Signal) => boolean): readonly number[] {
  return index.tallied.flatMap((signal, place) => (belongs(index.line.signals[signal]!) ? [place] : []));
}

function isReject({ line }: LineIndex, station: string, means: 'reject' | 'notLoaded') {
  const reasons = new Set(
    line.rejects.filter((one) => one.station === station && one.means === means).map(({ id }) => id),
  );
  return ({ role, of }: Signal) => role === 'rejectCount' && reasons.has(of ?? '');
}

/** Known from empty cartons at discharge, or from the loading positions; never from both. */
function isEmpty(index: LineIndex, station: string): (signal: Signal) => boolean {
  if (index.notLoadedFrom === 'discharge') return isReject(index, station, 'notLoaded');
  return ({ role }) => role === 'notLoadedCount' && station === index.line.loading.station;
}

function isMissed({ line }: LineIndex, station: string): (signal: Signal) => boolean {
  const isPick = line.stations.find(({ drawing }) => drawing === 'pick')?.id === station;
  return ({ role }) => isPick && role === 'missedPickCount';
}
