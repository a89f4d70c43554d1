import { CARTON, causes, lostByKey } from '../fold/account.ts';
import type { ShiftRecord, StopRecord } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import { type Instant, type Millis, millis, type Span } from '../units/units.ts';
import { wholeCartons } from '../view/pathView.ts';
import type { LossPart, PathView } from '../view/view.ts';
import { placedNow, stoodAt } from './causeNow.ts';
import { type PastAsked, type SeenTime, seenTime, type StationRef, stationRef } from './past.ts';
import { type StationCounts, stationCounts } from './stationCounts.ts';

/** Every station in a stretch of whole shifts, in the order of the line. */
export interface StationsPast {
  readonly seen: SeenTime;
  /** Shifts whose accounts are in it, the running one too. */
  readonly shifts: number;
  readonly stations: readonly StationSum[];
  /** What was lost at no one station, and in all; possible minus good without a rest. */
  readonly none: { readonly lost: number; readonly causes: readonly LossPart[] };
  readonly lost: { readonly total: number; readonly possible: number; readonly good: number };
}

export interface StationSum extends StationCounts {
  readonly station: StationRef;
  readonly stops: number;
  readonly stood: Millis;
  readonly lost: number;
  /** Largest first; only those that are not zero. */
  readonly causes: readonly LossPart[];
}

export interface StationsAsked extends PastAsked {
  /** Shifts that ended in it. */
  readonly shifts: readonly ShiftRecord[];
  /** The path of the running shift; undefined where the stretch ends before it. */
  readonly running: PathView | undefined;
  /** What each tallied signal gained in it. */
  readonly gained: readonly number[];
  readonly stops: readonly StopRecord[];
  readonly gaps: readonly RecordBodies['gap'][];
  /** From when on there are records at all. */
  readonly begun: Instant;
}

/** [LO7] Counts are exact; cartons lost are whole cartons of each shift, added up. */
export function stationsPast(asked: StationsAsked): StationsPast {
  const { index } = asked;
  const planned = asked.shifts.filter(({ shift }) => shift !== null);
  const accounts = planned.map(lossOf);
  const all = [...accounts, ...(asked.running ? [lossOfPath(asked.running)] : [])];
  const causesAt = (place: number) => causesOf(all.map(({ whole }) => whole[place] ?? []));
  const none = causesAt(index.line.stations.length);
  return {
    seen: seenTime(asked, asked.gaps, asked.begun),
    shifts: all.length,
    stations: index.line.stations.map(({ id }, place) => {
      const lost = causesAt(place);
      return {
        station: stationRef(index, id)!,
        ...stationCounts(index, asked.gained, id),
        ...stopsAt(asked, id),
        lost: sum(lost),
        causes: lost,
      };
    }),
    none: { lost: sum(none), causes: none },
    lost: {
      total: all.reduce((total, one) => total + one.possible - one.good, 0),
      possible: all.reduce((total, one) => total + one.possible, 0),
      good: all.reduce((total, one) => total + one.good, 0),
    },
  };
}

/** Causes over all stations and what belongs to none, the largest first. */
export function sumOfCauses({
  stations,
  none,
}: Pick<StationsPast, 'stations' | 'none'>): readonly LossPart[] {
  return causesOf([...stations.map((station) => station.causes), none.causes]);
}

interface Loss {
  readonly possible: number;
  readonly good: number;
  /** By station, and one more for none. */
  readonly whole: readonly (readonly LossPart[])[];
}

function lossOf({ account }: ShiftRecord): Loss {
  const possible = Math.floor(account.possible / CARTON);
  const whole = wholeCartons(lostByKey(account), possible - account.good);
  const stations = whole.length / causes.length;
  return {
    possible,
    good: account.good,
    whole: Array.from({ length: stations }, (_, place) =>
      causes.map((cause, column) => ({ cause, cartons: whole[place * causes.length + column]! })),
    ),
  };
}

function lossOfPath({ possible, good, stations, none }: PathView): Loss {
  return { possible, good, whole: [...stations.map((station) => station.causes), none.causes] };
}

function causesOf(shifts: readonly (readonly LossPart[])[]): readonly LossPart[] {
  return causes
    .map((cause) => ({
      cause,
      cartons: shifts.reduce(
        (total, parts) => total + (parts.find((part) => part.cause === cause)?.cartons ?? 0),
        0,
      ),
    }))
    .filter(({ cartons }) => cartons !== 0)
    .sort((a, b) => b.cartons - a.cartons);
}

/** [EN2] Stops at a station as known now, and how long of each lies in the stretch; pauses and changeovers are none. */
function stopsAt({ stops, from, to }: StationsAsked, id: string): Pick<StationSum, 'stops' | 'stood'> {
  const all = stops.filter((stop) => stop.class !== 'pause' && stop.class !== 'changeover');
  const stood = all.reduce((total, stop) => total + stoodAt(stop, id, { from, to }), 0);
  return { stops: all.filter((stop) => placedNow(stop).station === id).length, stood: millis(stood as Span) };
}

function sum(parts: readonly LossPart[]): number {
  return parts.reduce((total, { cartons }) => total + cartons, 0);
}
