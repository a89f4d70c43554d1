import { rejectLimit } from '../statistics/rejectLimit.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';
import type { RecordBodies } from '../records/records.ts';
import { gainedBetween, type Judged, sumOf } from './stationCounts.ts';

/** Cartons of a batch at least; as the tally is kept by the minute, it is the first whole minutes that bring so many. */
export const BATCH = 300;
/** Below this many cartons of earlier runs with the size nothing is said about a station's normal. */
const NORMAL_LEAST = 3000;
/** A station in its normal is called out of it by chance no oftener than once in so many batches: about one week of shifts. */
const FALSE_ONCE_IN = 1500;

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
  /** More than this is outside its normal; undefined where its past is too short to say. */
  readonly most: number | undefined;
  readonly outside: boolean;
  /** The first of its run, or the first after time that nobody saw: nothing is joined to what was before. */
  readonly apart: boolean;
}

export interface BatchTrend {
  /** The oldest first; no more than were asked for, the newest of them. */
  readonly batches: readonly Batch[];
  /** How many there were in all, and how many of them outside their limit. */
  readonly all: number;
  readonly outside: number;
  /** Cartons in no batch: at a run's end, or beside what nobody saw. */
  readonly leftOut: number;
  /** Of the newest run, for a batch of exactly `BATCH`; undefined where its past is too short to say. */
  readonly normal:
    | { readonly mean: number; readonly most: number; readonly onceIn: number; readonly earlier: number }
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
  readonly most: number;
}

/** Batches of a station's cartons, each against what its runs with the same size before that run were like. */
export function batchTrend(asked: BatchesAsked): BatchTrend {
  const { judged, runs, tallyAt, from } = asked;
  const all: Batch[] = [];
  let leftOut = 0;
  const past = { counted: 0, of: 0 };
  let newest = { counted: 0, of: 0 };
  for (const run of runs) {
    if (run.to > from) {
      newest = { ...past };
      const made = batchesOf(asked, run, newest);
      all.push(...made.batches);
      leftOut += made.leftOut;
    }
    const gained = gainedBetween(tallyAt(run.from), tallyAt(run.to));
    past.counted += sumOf(gained, judged.counted) ?? 0;
    past.of += sumOf(gained, judged.among) ?? 0;
  }
  return {
    batches: all.slice(-asked.most),
    all: all.length,
    outside: all.filter(({ outside }) => outside).length,
    leftOut,
    normal: normalOf(newest),
    earlier: newest.of,
  };
}

interface Past {
  readonly counted: number;
  readonly of: number;
}

function normalOf({ counted, of }: Past): BatchTrend['normal'] {
  if (of < NORMAL_LEAST) return undefined;
  const { most, byChance } = rejectLimit(BATCH, counted, of, 1 / FALSE_ONCE_IN);
  return { mean: (BATCH * counted) / of, most, onceIn: Math.floor(1 / byChance), earlier: of };
}

function batchesOf(
  { judged, from, tallyAt, minutesOf, gaps }: BatchesAsked,
  run: Run,
  past: Past,
): { readonly batches: readonly Batch[]; readonly leftOut: number } {
  const limits = new Map<number, number>();
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
      const most = mostOf(limits, of, past);
      const outside = most !== undefined && counted > most;
      batches.push({ from: epochMs(began), to: epochMs(at), of, counted, most, outside, apart });
      apart = false;
    }
    [began, before] = [at, tally];
  }
  const rest = sumOf(gainedBetween(before, tallyAt(run.to)), judged.among) ?? 0;
  return { batches, leftOut: leftOut + rest };
}

function mostOf(limits: Map<number, number>, of: number, { counted, of: earlier }: Past): number | undefined {
  if (earlier < NORMAL_LEAST) return undefined;
  const known = limits.get(of) ?? rejectLimit(of, counted, earlier, 1 / FALSE_ONCE_IN).most;
  limits.set(of, known);
  return known;
}
