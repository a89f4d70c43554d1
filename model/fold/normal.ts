import { tailOfRejects } from '../statistics/betaBinomial.ts';
import type { Instant } from '../units/units.ts';
import { type FoldState, STATION_WINDOW } from './state.ts';

/** A station is outside its own normal when so many rejects would come by chance less often than this. */
const BY_CHANCE = 1e-4;
/** Below this many earlier cartons of the size nothing is said about a station's normal. */
const NORMAL_LEAST = 3000;
/** Fewer cartons of the run, and fewer rejects among them, say nothing. */
const CARTONS_LEAST = 100;
const REJECTS_LEAST = 3;
/** All stations are judged with every so many cartons; one station with each reject of its own, too. */
const JUDGED_EVERY = 50;

/** Rejects of a station among the run's last cartons, and how many its own past makes normal. */
export interface StationRejects {
  readonly inLast: number;
  readonly of: number;
  readonly normal: number;
}

/** What a station rejected lately, beside its own normal. */
export function stationRejects(state: Readonly<FoldState>, place: number): StationRejects {
  const { inLast, of, earlier, earlierRejects } = recent(state, place);
  return { inLast, of, normal: earlier > 0 ? Math.round((earlierRejects * of) / earlier) : 0 };
}

/** [RJ1] A station rejected cartons: it may be outside its normal from here on. */
export function judgeStation(state: FoldState, place: number, at: Instant): void {
  const record = state.stations[place];
  if (!record) return;
  if (!isOut(state, place)) record.outSince = null;
  else record.outSince ??= at;
}

/** [RJ1] Cartons came, `before` of the run were there until now: every station may be back in its normal, or outside it. */
export function judgeStations(state: FoldState, before: number, at: Instant): void {
  if (Math.floor(before / JUDGED_EVERY) === Math.floor(state.runCartons / JUDGED_EVERY)) return;
  for (let place = 0; place < state.stations.length; place += 1) judgeStation(state, place, at);
}

function isOut(state: FoldState, place: number): boolean {
  const { inLast, of, earlier, earlierRejects } = recent(state, place);
  if (earlier < NORMAL_LEAST || of < CARTONS_LEAST || inLast < REJECTS_LEAST) return false;
  return tailOfRejects(inLast, of, earlierRejects, earlier) <= BY_CHANCE;
}

function recent({ stations, size, runCartons, cartonsBySize }: Readonly<FoldState>, place: number) {
  const record = stations[place];
  const of = Math.min(STATION_WINDOW, runCartons);
  if (!record || size === null) return { inLast: 0, of, earlier: 0, earlierRejects: 0 };
  const inLast = record.rejectedAt.filter((ordinal) => ordinal > runCartons - of).length;
  return {
    inLast,
    of,
    earlier: (cartonsBySize[size] ?? 0) - of,
    earlierRejects: (record.rejectsBySize[size] ?? 0) - inLast,
  };
}
