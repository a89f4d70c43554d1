import type { BatchLimit } from '../normal/batchLimit.ts';
import type { Counted } from '../normal/evidence.ts';
import { BATCHES_MEASURED } from '../normal/measured.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';
import type { RecordBodies } from '../records/records.ts';
import { piecesOf } from './pieces.ts';
import { gainedBetween, type Judged, sumOf } from './stationCounts.ts';

/** Cartons of a batch at least; as the tally is kept by the minute, it is the first whole minutes that bring so many. */
export const BATCH = 300;
/** One stretch in which one size ran. */
export interface Run {
  readonly from: Instant;
  readonly to: Instant;
}

/** One point of the trend: what was charged to the station among the cartons of some whole minutes. */
export interface Batch {
  readonly from: EpochMs;
  readonly to: EpochMs;
  readonly of: number;
  readonly counted: number;
  /** More than this is seldom where all is as in earlier runs; undefined where those are too few to say. */
  readonly most: number | undefined;
  /** No verdict: whether the station is worse than its normal is said by the rules, which look at all of the run. */
  readonly above: boolean;
  /** The first of its run, or the first after time that nobody saw: nothing is joined to what was before. */
  readonly apart: boolean;
}

export interface BatchTrend {
  /** The oldest first; no more than were asked for, the newest of them. */
  readonly batches: readonly Batch[];
  /** How many there were in all, and how many of them above their line. */
  readonly all: number;
  readonly above: number;
  /** Cartons in no batch: at a run's end, or beside what nobody saw. */
  readonly leftOut: number;
  /**
   * Of the newest run, for a batch of exactly `BATCH`, with how seldom a batch was measured above its line where all was in
   * order, and at worst; undefined where its past is too short to say.
   */
  readonly normal:
    | {
        readonly mean: number;
        readonly most: number;
        readonly onceIn: number;
        readonly worst: number;
        readonly earlier: number;
      }
    | undefined;
  /** Cartons that came with the size before the newest run. */
  readonly earlier: number;
}

export interface BatchesAsked {
  readonly judged: Judged;
  /** Runs of one size, the oldest first, with all that the trend shows and those before it that tell the normal. */
  readonly runs: readonly Run[];
  /** Batches that ended before are not shown. */
  readonly from: Instant;
  /** What each counter had counted by a moment. */
  readonly tallyAt: (at: Instant) => readonly number[];
  /** Minutes of a run. */
  readonly minutesOf: (run: Run) => readonly RecordBodies['minute'][];
  /** Stretches that nobody saw. */
  readonly gaps: readonly Run[];
  /** The line of a run's batches, from what earlier runs brought; undefined where there is to be none. */
  readonly limitOf: (run: Run, earlier: readonly Counted[]) => BatchLimit | undefined;
  readonly most: number;
}

/** Batches of a station's cartons, each beside what its runs with the same size before that run were like. */
export function batchTrend(asked: BatchesAsked): BatchTrend {
  const { judged, runs, tallyAt, from } = asked;
  const all: Batch[] = [];
  const past: Counted[] = [];
  let [leftOut, earlier] = [0, 0];
  let limit: BatchLimit | undefined;
  for (const run of runs) {
    if (run.to > from) {
      earlier = past.reduce((sum, { of }) => sum + of, 0);
      limit = asked.limitOf(run, [...past]);
      for (const piece of piecesOf(run).filter(({ to }) => to > from)) {
        const made = batchesOf(asked, piece, limit);
        all.push(...made.batches);
        leftOut += made.leftOut;
      }
    }
    const gained = gainedBetween(tallyAt(run.from), tallyAt(run.to));
    past.push({ count: sumOf(gained, judged.counted) ?? 0, of: sumOf(gained, judged.among) ?? 0 });
  }
  return {
    batches: all.slice(-asked.most),
    all: all.length,
    above: all.filter(({ above }) => above).length,
    leftOut,
    normal: limit && normalOf(limit, earlier),
    earlier,
  };
}

function normalOf({ mean, most }: BatchLimit, earlier: number): BatchTrend['normal'] {
  const { onceIn, worst } = BATCHES_MEASURED;
  return { mean: BATCH * mean, most: most(BATCH), onceIn, worst, earlier };
}

function batchesOf(
  { judged, from, tallyAt, minutesOf, gaps }: BatchesAsked,
  run: Run,
  limit: BatchLimit | undefined,
): { readonly batches: readonly Batch[]; readonly leftOut: number } {
  const batches: Batch[] = [];
  let [began, before] = [run.from, tallyAt(run.from)];
  let [apart, leftOut] = [true, 0];
  for (const { at, tally } of minutesOf(run)) {
    if (at > run.to) break;
    const gained = gainedBetween(before, tally);
    const of = sumOf(gained, judged.among) ?? 0;
    const unseen = gaps.some((gap) => gap.from < at && gap.to > began);
    if (of < BATCH && !unseen) continue;
    const counted = sumOf(gained, judged.counted) ?? 0;
    if (unseen) {
      // when it came is not known: it belongs to no batch, and nothing is drawn across it
      if (at > from) leftOut += of;
      apart = true;
    } else if (at > from) {
      const most = limit?.most(of);
      const above = most !== undefined && counted > most;
      batches.push({ from: epochMs(began), to: epochMs(at), of, counted, most, above, apart });
      apart = false;
    }
    [began, before] = [at, tally];
  }
  const rest = sumOf(gainedBetween(before, tallyAt(run.to)), judged.among) ?? 0;
  return { batches, leftOut: leftOut + rest };
}
