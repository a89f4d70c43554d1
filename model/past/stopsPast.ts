import { shiftAt } from '../calendar/calendar.ts';
import { CARTON } from '../fold/account.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { StopRecord } from '../fold/state.ts';
import type { Answer, StopKind } from '../line/line.ts';
import type { RecordBodies } from '../records/records.ts';
import {
  between,
  type EpochMs,
  epochMs,
  type Instant,
  type Millis,
  millis,
  minutes,
  seconds,
  type Span,
} from '../units/units.ts';
import { type CauseSaid, causeSaid, piecesOfStop, placedNow, type StopPiece } from './causeNow.ts';
import { overlap, type PastAsked, type SeenTime, seenTime, type StationRef, stationRef } from './past.ts';

/** Which of the stops are wanted; all that is left out does not matter. */
export interface StopFilter {
  readonly station?: string | undefined;
  readonly size?: string | undefined;
  /** Id of a rule of the shift calendar. */
  readonly shift?: string | undefined;
  readonly order?: string | undefined;
}

/** Stops of a stretch of the past: what they were, by first fault, and each of them. Pauses and changeovers are none. */
export interface StopsPast {
  readonly seen: SeenTime;
  readonly stops: number;
  readonly stood: Millis;
  /** Below so many minutes a stop is a minor one. */
  readonly minorMinutes: number;
  readonly own: StopGroup;
  readonly outside: StopGroup;
  readonly unknown: StopGroup;
  /** Where the reasons come from. */
  readonly saidBy: { readonly plc: number; readonly people: number; readonly nobody: number };
  /** [EN2] So many of them people put elsewhere than the PLC does, in whole or in part. */
  readonly moved: number;
  /** The newest first; no more than were asked for. */
  readonly list: readonly PastStop[];
}

export interface StopGroup {
  readonly stops: number;
  readonly stood: Millis;
  readonly long: StopSum;
  /** The one that took most first. */
  readonly rows: readonly StopRow[];
}

export interface StopSum {
  readonly stops: number;
  readonly stood: Millis;
}

/** Stops of one first fault at one station. */
export interface StopRow {
  readonly id: string;
  readonly name: string | undefined;
  readonly station: StationRef | undefined;
  readonly kind: StopKind | 'unknown';
  /** [EN2] People put them here, not the PLC. */
  readonly moved: boolean;
  readonly minor: StopSum;
  readonly long: StopSum;
  /** What it took in the middle one of as long stretches before; undefined where there are too few of them. */
  readonly ordinary: Millis | undefined;
}

export interface PastStop {
  readonly id: string;
  readonly at: EpochMs;
  readonly until: EpochMs | undefined;
  readonly lasted: Millis;
  /** False where it ended while nobody was looking: it lasted so long, or longer. */
  readonly endSeen: boolean;
  readonly minor: boolean;
  readonly kind: StopKind | 'unknown';
  readonly name: string | undefined;
  readonly station: StationRef | undefined;
  readonly size: string | undefined;
  readonly order: string | undefined;
  /** Whole cartons lost to it; undefined while its output pause is open. */
  readonly lost: number | undefined;
  /** Which try at the same trouble it was. */
  readonly attempt: number;
  readonly chain: readonly ChainLink[];
  /** What a person said it was. */
  readonly said: string | undefined;
  /** [EN2] What people say of its cause: it stands beside kind, name and station, which are the PLC's. */
  readonly cause?: CauseSaid | undefined;
  /** Answers that are offered where nobody knows; empty elsewhere. */
  readonly answers: readonly Answer[];
}

/** What happened in a stop, so long after it began. */
export interface ChainLink {
  readonly kind: 'firstFault' | 'setOff' | 'caused' | 'during' | 'uncertain' | 'guardOpened';
  readonly name: string;
  readonly after: Millis;
}

export interface StopsAsked extends PastAsked {
  readonly stops: readonly StopRecord[];
  readonly presses: readonly RecordBodies['press'][];
  readonly guards: readonly RecordBodies['guard'][];
  readonly gaps: readonly RecordBodies['gap'][];
  /** From when on there are records at all. */
  readonly begun: Instant;
  readonly filter: StopFilter;
  /** Stops of as long stretches before, each apart. */
  readonly before: readonly (readonly StopRecord[])[];
  /** So many of the list at most. */
  readonly most: number;
}

/** Fewer stretches before say nothing of what is ordinary. */
const ORDINARY_LEAST = 3;

export function stopsPast(asked: StopsAsked): StopsPast {
  const pieces = asked.stops.flatMap((stop) => wantedPieces(asked, stop));
  const stops = [...new Set(pieces.map(({ stop }) => stop))];
  const group = (which: ReturnType<typeof groupOf>) =>
    groupOfPieces(
      asked,
      pieces.filter((piece) => groupOf(piece) === which),
    );
  const byPlc = (stop: StopRecord) => stop.kind !== null && stop.kind !== 'operator';
  const known = stops.filter((stop) => byPlc(stop) && !placedNow(stop).moved).length;
  const people = stops.filter(
    (stop) => placedNow(stop).moved || (!byPlc(stop) && (stop.answer !== null || stop.cause)),
  ).length;
  return {
    seen: seenTime(asked, asked.gaps, asked.begun),
    stops: countOf(pieces),
    stood: stoodIn(asked, pieces),
    minorMinutes: asked.index.line.settings.minorStopMinutes,
    own: group('own'),
    outside: group('outside'),
    unknown: group('unknown'),
    saidBy: { plc: known, people, nobody: stops.length - known - people },
    moved: stops.filter((stop) => piecesOfStop(stop, asked.to).some(({ moved }) => moved)).length,
    list: stops
      .slice(Math.max(0, stops.length - asked.most))
      .reverse()
      .map((stop) => pastStop(asked, stop)),
  };
}

/** Those parts of a stop that are wanted, each where it is known to be now. */
function wantedPieces({ index, to, filter }: StopsAsked, stop: StopRecord): readonly StopPiece[] {
  const { station, size, shift, order } = filter;
  if (stop.class === 'pause' || stop.class === 'changeover') return [];
  const { line } = index;
  const isWanted =
    (size === undefined || stop.size === size) &&
    (order === undefined || stop.order === order) &&
    (shift === undefined || shiftAt(line.calendar, line.zone, stop.begin)?.rule === shift);
  if (!isWanted) return [];
  return piecesOfStop(stop, to).filter((piece) => station === undefined || piece.station === station);
}

/** Starved and blocked come from outside; what neither PLC nor person explains is nobody's. */
function groupOf({ stop, kind }: Pick<StopPiece, 'stop' | 'kind'>): 'own' | 'outside' | 'unknown' {
  if (kind === 'starved' || kind === 'blocked') return 'outside';
  const explained = stop.answer !== null || (kind !== null && kind !== 'operator');
  return explained ? 'own' : 'unknown';
}

function groupOfPieces(asked: StopsAsked, pieces: readonly StopPiece[]): StopGroup {
  const rows = new Map<string, StopPiece[]>();
  for (const piece of pieces) rows.set(keyOf(piece), [...(rows.get(keyOf(piece)) ?? []), piece]);
  return {
    stops: countOf(pieces),
    stood: stoodIn(asked, pieces),
    long: sumOf(
      asked,
      pieces.filter(({ stop }) => !isMinor(asked, stop)),
    ),
    rows: [...rows]
      .map(([key, some]) => rowOf(asked, key, some))
      .sort((a, b) => stoodBy(b) - stoodBy(a) || a.id.localeCompare(b.id)),
  };
}

function rowOf(asked: StopsAsked, key: string, pieces: readonly StopPiece[]): StopRow {
  const first = pieces[0]!;
  const minor = pieces.filter(({ stop }) => isMinor(asked, stop));
  return {
    id: key,
    name: nameOf(asked.index, first),
    station: stationRef(asked.index, first.station),
    kind: first.kind ?? 'unknown',
    moved: first.moved,
    minor: sumOf(asked, minor),
    long: sumOf(
      asked,
      pieces.filter((piece) => !minor.includes(piece)),
    ),
    ordinary: ordinaryOf(asked, key),
  };
}

function ordinaryOf(asked: StopsAsked, key: string): Millis | undefined {
  const { before } = asked;
  if (before.length < ORDINARY_LEAST) return undefined;
  const sums = before
    .map((stops) =>
      stops
        .filter(({ end }) => end !== null)
        .flatMap((stop) => wantedPieces(asked, stop))
        .filter((piece) => keyOf(piece) === key)
        .reduce((sum, { from, to }) => sum + between(from, to), 0),
    )
    .sort((a, b) => a - b);
  return millis(sums[Math.floor(sums.length / 2)]! as Span);
}

/** Pieces of one row: by what people say of the cause, by what the PLC says first, else by what a person answered. */
function keyOf({ stop, station, kind, moved }: StopPiece): string {
  if (moved) return `${station ?? ''} said ${kind} ${stop.cause?.words}`;
  const own = stop.kind !== null && stop.kind !== 'operator';
  return `${station ?? ''} ${own || !stop.answer ? stop.reason : stop.answer.reason}`;
}

function nameOf(index: LineIndex, { stop, moved }: StopPiece): string | undefined {
  if (moved) return stop.cause?.words;
  const own = stop.kind !== null && stop.kind !== 'operator';
  return own || !stop.answer ? index.reasonByNumber.get(stop.reason)?.name : saidOf(index, stop);
}

function saidOf({ line }: LineIndex, { station, answer }: StopRecord): string | undefined {
  if (!answer) return undefined;
  const own = line.stations.find(({ id }) => id === station)?.answers ?? [];
  const known = [...own, ...line.answers].find(({ id }) => id === answer.reason)?.name;
  return known ?? answer.words ?? answer.reason;
}

function pastStop(asked: StopsAsked, stop: StopRecord): PastStop {
  const { index } = asked;
  const lasted = between(stop.begin, stop.end ?? asked.to);
  const asks =
    groupOf({ stop, kind: placedNow(stop).kind }) === 'unknown' &&
    lasted >= seconds(index.line.settings.askAfterSeconds);
  const own = index.line.stations.find(({ id }) => id === stop.station)?.answers ?? [];
  return {
    id: stop.id,
    at: epochMs(stop.begin),
    until: stop.end === null ? undefined : epochMs(stop.end),
    lasted: millis(lasted),
    endSeen: stop.endSeen,
    minor: isMinor(asked, stop),
    kind: stop.kind ?? 'unknown',
    name: index.reasonByNumber.get(stop.reason)?.name,
    station: stationRef(index, stop.station),
    size: index.sizeById.get(stop.size ?? '')?.name,
    order: stop.order ?? undefined,
    lost: stop.lost === null ? undefined : Math.round(stop.lost / CARTON),
    attempt: stop.attempt,
    chain: chainOf(asked, stop),
    said: saidOf(index, stop),
    cause: causeSaid(index, stop),
    answers: asks ? (own.length > 0 ? own : index.line.answers) : [],
  };
}

function chainOf({ index, presses, guards, to }: StopsAsked, stop: StopRecord): readonly ChainLink[] {
  const after = (at: Instant) => millis((at - stop.begin) as Span);
  const numbers = stop.chain.map(
    ({ at, number }, place): ChainLink => ({
      kind: place === 0 ? 'firstFault' : 'setOff',
      name: index.reasonByNumber.get(number)?.name ?? String(number),
      after: after(at),
    }),
  );
  const pressed = presses
    .filter((press) => press.stop === stop.id)
    .map(
      ({ pressed: at, role, device }): ChainLink => ({
        kind: role,
        name: index.line.devices[device]?.name ?? '',
        after: after(at),
      }),
    );
  const opened = guards
    .filter(({ at, open }) => open && at >= stop.begin && at < (stop.end ?? to))
    .map(
      ({ at, guard }): ChainLink => ({
        kind: 'guardOpened',
        name: index.line.guards.find(({ id }) => id === guard)?.name ?? guard,
        after: after(at),
      }),
    );
  return [...numbers, ...pressed, ...opened].sort((a, b) => a.after - b.after);
}

function isMinor({ index, to }: StopsAsked, { begin, end }: StopRecord): boolean {
  return between(begin, end ?? to) < minutes(index.line.settings.minorStopMinutes);
}

function sumOf(asked: StopsAsked, pieces: readonly StopPiece[]): StopSum {
  return { stops: countOf(pieces), stood: stoodIn(asked, pieces) };
}

function countOf(pieces: readonly StopPiece[]): number {
  return pieces.filter(({ counts }) => counts).length;
}

function stoodIn({ from, to }: PastAsked, pieces: readonly StopPiece[]): Millis {
  const sum = pieces.reduce((total, piece) => total + overlap(piece, { from, to }), 0);
  return millis(sum as Span);
}

function stoodBy({ minor, long }: StopRow): number {
  return minor.stood + long.stood;
}
