import type { Counted, EarlierRun, Look, StationEvidence } from '../../model/normal/evidence.ts';
import { SETTINGS } from '../../model/normal/settings.ts';
import { type Instant, SECOND } from '../../model/units/units.ts';
import type { FastMinute, FastRun } from '../../simulator/fast/line.ts';
import { rejects, stations } from '../../simulator/lines/cartoner.ts';

/** A run of the fast simulator in batches, as the gateway would gather them. */
export interface BatchedRun {
  readonly size: string;
  readonly from: number;
  readonly to: number;
  readonly batches: readonly FastBatch[];
  readonly all: FastBatch;
  readonly halves: readonly [FastBatch, FastBatch];
}

interface FastBatch {
  readonly from: number;
  readonly to: number;
  /** By station. */
  readonly rejects: ReadonlyMap<string, Counted>;
  readonly stops: ReadonlyMap<string, Counted>;
}

const charged = new Map(rejects.map(({ id, station }) => [id, station]));
export const stationIds = stations.map(({ id }) => id);

export function batched(run: FastRun): BatchedRun {
  const batches: FastBatch[] = [];
  let minutes: FastMinute[] = [];
  let from = run.from;
  for (const minute of run.minutes) {
    minutes.push(minute);
    if (discharged(minutes) < SETTINGS.batch) continue;
    batches.push(batchOf(run, minutes, from, minute.at));
    [from, minutes] = [minute.at, []];
  }
  const middle = (run.from + run.to) / 2;
  const first = run.minutes.filter(({ at }) => at <= middle);
  return {
    size: run.size,
    from: run.from,
    to: run.to,
    batches,
    all: batchOf(run, run.minutes, run.from, run.to),
    halves: [
      batchOf(run, first, run.from, middle),
      batchOf(run, run.minutes.slice(first.length), middle, run.to),
    ],
  };
}

function discharged(minutes: readonly FastMinute[]): number {
  return minutes.reduce(
    (sum, { good, rejects: bad }) => sum + good + Object.values(bad).reduce((all, one) => all + one, 0),
    0,
  );
}

function batchOf(run: FastRun, minutes: readonly FastMinute[], from: number, to: number): FastBatch {
  const of = discharged(minutes);
  const counted = new Map<string, Counted>();
  for (const [reason, station] of charged)
    counted.set(station, { count: minutes.reduce((sum, one) => sum + one.rejects[reason], 0), of });
  const missed = minutes.reduce((sum, one) => sum + one.missed, 0);
  counted.set('pick', { count: missed, of: of + missed });
  const stops = new Map(
    stationIds.map((station) => [station, { count: stopsAt(run, station, from, to), of }]),
  );
  return { from, to, rejects: counted, stops };
}

function stopsAt({ stops }: FastRun, station: string, from: number, to: number): number {
  return stops.filter(
    (stop) =>
      stop.station === station &&
      stop.kind === 'machine' &&
      stop.attempt === 1 &&
      stop.begin >= from &&
      stop.begin < to,
  ).length;
}

/** Without what is charged to a station by whoever loads: crews are not held against crews. */
export function withoutLoading(run: BatchedRun): BatchedRun {
  const left = (batch: FastBatch): FastBatch => ({
    ...batch,
    rejects: new Map([...batch.rejects].filter(([station]) => station !== 'loading')),
  });
  const [first, second] = run.halves;
  return { ...run, batches: run.batches.map(left), all: left(run.all), halves: [left(first), left(second)] };
}

/** A station in one run, with the runs of its size before it. */
export function evidenceOf(run: BatchedRun, before: readonly BatchedRun[], station: string): StationEvidence {
  const detailed = before.length - SETTINGS.runsInBatches;
  return {
    station,
    looks: run.batches.map(
      (batch): Look => ({
        from: instant(batch.from),
        to: instant(batch.to),
        rejects: batch.rejects.get(station),
        stops: batch.stops.get(station)!,
      }),
    ),
    earlier: before.map((one, place) => earlierOf(one, station, place >= detailed)).slice(-SETTINGS.runsMost),
  };
}

function earlierOf({ all, halves, batches }: BatchedRun, station: string, inBatches: boolean): EarlierRun {
  const [first, second] = [halves[0].rejects.get(station), halves[1].rejects.get(station)];
  return {
    rejects: all.rejects.get(station),
    halves: first && second && [first, second],
    batches: inBatches ? batches.flatMap((batch) => batch.rejects.get(station) ?? []) : [],
    stops: all.stops.get(station)!,
  };
}

const instant = (seconds: number) => Math.round(seconds * SECOND) as Instant;
