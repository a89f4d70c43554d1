import type { Measure } from '../entries/saidEntries.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { StopRecord } from '../fold/state.ts';
import type { Counted, EarlierRun, Look, Rule, StationEvidence, WorseAnswer } from '../normal/evidence.ts';
import { MEASURED, type Measured } from '../normal/measured.ts';
import { KeptLimits } from '../normal/keptLimits.ts';
import { worseThanNormal } from '../normal/normal.ts';
import { type Scatter, scatterOf } from '../normal/scatter.ts';
import { SETTINGS } from '../normal/settings.ts';
import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';
import type { Run } from './batches.ts';
import { placedNow } from './causeNow.ts';
import { loadedByHand } from './loadedByHand.ts';
import { gainedBetween, judgedBy, sumOf } from './stationCounts.ts';
import type { StationPast } from './stationPast.ts';
import type { StationsPast } from './stationsPast.ts';

/** A station in one run of a size against its own normal. */
export interface StationNormal {
  readonly size: { readonly id: string; readonly name: string };
  /** The run: when it began, and up to where whole batches of it were looked at. */
  readonly from: EpochMs;
  readonly to: EpochMs;
  /** From when on they were, where that is later than it began: a long run is looked at in pieces. */
  readonly since: EpochMs | undefined;
  /** Empty cartons are what people left: they are held against no other run, whose crew was another. */
  readonly byHand: boolean;
  readonly earlierRuns: number;
  readonly rules: readonly WorseRow[];
}

/** What one rule says, with how often it was measured to say so falsely. */
export interface WorseRow extends Omit<WorseAnswer, 'since' | 'station'> {
  readonly since: EpochMs;
  readonly measured: Measured;
}

/** In short, for a list of stations: which rules call it, and which have too little to say anything. */
export interface StationWorse {
  readonly station: string;
  readonly outside: readonly Rule[];
  readonly tooThin: readonly Rule[];
}

/** What a station's screen is told, and the list of them. */
export interface StationTold extends StationPast {
  /** Undefined where no batch of a run is whole. */
  readonly normal: StationNormal | undefined;
}
export interface StationsTold extends StationsPast {
  readonly worse: readonly StationWorse[];
}

/** One run of a size as records tell it, for all stations at once. */
export interface RunTold {
  readonly all: Stretch;
  readonly halves: readonly [Stretch, Stretch];
  /** The part of it that was looked at minute by minute: all of it, or its last piece. */
  readonly looked: Run;
  /** Whole batches of that part; empty where they were not asked for. */
  readonly batches: readonly Stretch[];
}

interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
  /** What each tallied signal gained, without what came while nobody looked. */
  readonly gained: readonly number[];
  /** First tries of stops of the machine itself, by station. */
  readonly stops: Readonly<Record<string, number>>;
}

export interface RunAsked {
  readonly index: LineIndex;
  readonly run: Run;
  readonly tallyAt: (at: Instant) => readonly number[];
  readonly stops: readonly StopRecord[];
  /** Stretches that nobody saw. */
  readonly gaps: readonly Run[];
  readonly looked: Run;
  /** Minutes of what is looked at; undefined where batches are not asked for. */
  readonly minutes: readonly RecordBodies['minute'][] | undefined;
}

export function runTold(asked: RunAsked): RunTold {
  const { run, looked, minutes } = asked;
  const middle = Math.round((run.from + run.to) / 2) as Instant;
  return {
    all: stretchOf(asked, run),
    halves: [
      stretchOf(asked, { from: run.from, to: middle }),
      stretchOf(asked, { from: middle, to: run.to }),
    ],
    looked,
    batches: minutes ? batchesOf(asked, minutes) : [],
  };
}

function stretchOf({ tallyAt, stops, gaps }: RunAsked, { from, to }: Run): Stretch {
  const unseen = gaps
    .filter((gap) => gap.from < to && gap.to > from)
    .map((gap) =>
      gainedBetween(tallyAt(Math.max(gap.from, from) as Instant), tallyAt(Math.min(gap.to, to) as Instant)),
    );
  const gained = gainedBetween(tallyAt(from), tallyAt(to)).map((all, place) =>
    unseen.reduce((left, one) => left - (one[place] ?? 0), all),
  );
  return { from, to, gained, stops: firstTries(stops, from, to) };
}

/** Whole minutes that bring enough cartons; what lies beside time that nobody saw is in no batch. */
function batchesOf(asked: RunAsked, minutes: readonly RecordBodies['minute'][]): Stretch[] {
  const { index, looked, tallyAt, gaps, stops } = asked;
  const discharged = dischargedOf(index);
  const batches: Stretch[] = [];
  let [from, before] = [looked.from, tallyAt(looked.from)];
  for (const { at, tally } of minutes) {
    if (at > looked.to) break;
    const gained = gainedBetween(before, tally);
    const unseen = gaps.some((gap) => gap.from < at && gap.to > from);
    if ((sumOf(gained, discharged) ?? 0) < SETTINGS.batch && !unseen) continue;
    if (!unseen) batches.push({ from, to: at, gained, stops: firstTries(stops, from, at) });
    [from, before] = [at, tally];
  }
  return batches;
}

function dischargedOf({ line, tallied }: LineIndex): readonly number[] {
  return tallied.flatMap((signal, place) => {
    const { role } = line.signals[signal]!;
    return role === 'goodCount' || role === 'rejectCount' ? [place] : [];
  });
}

/** [NW3] A re-jam is one with the stop before it; stops from outside and by people are not the station's. */
function firstTries(stops: readonly StopRecord[], from: Instant, to: Instant): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const stop of stops) {
    const { station, kind } = placedNow(stop);
    const { attempt, begin } = stop;
    if (station === null || kind !== 'machine' || attempt > 1 || begin < from || begin >= to) continue;
    counts[station] = (counts[station] ?? 0) + 1;
  }
  return counts;
}

/**
 * The newest run against those before it, the oldest first. Undefined where no batch of it is whole. `kept`: what earlier answers
 * about the station left.
 */
export function stationNormal(
  index: LineIndex,
  station: string,
  size: StationNormal['size'],
  runs: readonly RunTold[],
  kept = new KeptLimits(),
): StationNormal | undefined {
  const newest = runs.at(-1);
  const last = newest?.batches.at(-1);
  if (!newest || !last) return undefined;
  const evidence = evidenceOf(index, station, runs.slice(0, -1), newest.batches);
  return {
    size,
    from: epochMs(newest.all.from),
    to: epochMs(last.to),
    since: newest.looked.from > newest.all.from ? epochMs(newest.looked.from) : undefined,
    byHand: loadedByHand(index, station),
    earlierRuns: evidence.earlier.length,
    rules: worseThanNormal(evidence, kept).map(({ since, station: _station, ...answer }) => ({
      ...answer,
      since: epochMs(since),
      measured: MEASURED[answer.rule],
    })),
  };
}

/** A whole run at a station: by its stops, or by what is charged to it; undefined where nothing is. */
export function runAt(
  index: LineIndex,
  station: string,
  measure: Measure,
  run: RunTold,
): Counted | undefined {
  const { earlier } = evidenceOf(index, station, [run], []);
  return measure === 'stops' ? earlier[0]?.stops : earlier[0]?.rejects;
}

/** How unevenly what is charged to a station comes, by earlier runs of which batches were looked at. */
export function scatterTold(index: LineIndex, station: string, earlier: readonly RunTold[]): Scatter {
  return scatterOf(evidenceOf(index, station, earlier, []).earlier);
}

export function inShort(station: string, normal: StationNormal | undefined): StationWorse {
  const rules = normal?.rules ?? [];
  return {
    station,
    outside: rules.flatMap(({ rule, outside }) => (outside ? [rule] : [])),
    tooThin: rules.flatMap(({ rule, tooThin }) => (tooThin ? [rule] : [])),
  };
}

function evidenceOf(
  index: LineIndex,
  station: string,
  earlier: readonly RunTold[],
  batches: readonly Stretch[],
): StationEvidence {
  // another run has another crew, and crews are not held against one another
  const judged = loadedByHand(index, station) ? undefined : judgedBy(index, station);
  const discharged = dischargedOf(index);
  const rejects = ({ gained }: Stretch): Counted | undefined =>
    judged && { count: sumOf(gained, judged.counted) ?? 0, of: sumOf(gained, judged.among) ?? 0 };
  const stops = ({ gained, stops: by }: Stretch): Counted => ({
    count: by[station] ?? 0,
    of: sumOf(gained, discharged) ?? 0,
  });
  return {
    station,
    earlier: earlier.map(({ all, halves: [first, second], batches: own }): EarlierRun => {
      const [begun, ended] = [rejects(first), rejects(second)];
      return {
        rejects: rejects(all),
        halves: begun && ended && [begun, ended],
        batches: own.flatMap((batch) => rejects(batch) ?? []),
        stops: stops(all),
      };
    }),
    looks: batches.map(
      (batch): Look => ({ from: batch.from, to: batch.to, rejects: rejects(batch), stops: stops(batch) }),
    ),
  };
}
