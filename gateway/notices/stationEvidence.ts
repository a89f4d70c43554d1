import type { LineIndex } from '../../model/fold/lineIndex.ts';
import type { StopRecord } from '../../model/fold/state.ts';
import type { Run } from '../../model/past/batches.ts';
import { loadedByHand } from '../../model/past/loadedByHand.ts';
import { gainedBetween, judgedBy, sumOf } from '../../model/past/stationCounts.ts';
import type { EarlierStops, RecentStop, RejectsBy, StopsAsked } from '../../model/watch/repeated.ts';
import { KeptPart } from '../../model/watch/repeatedKept.ts';
import { SETTINGS } from '../../model/normal/settings.ts';
import { HOUR, type Instant, type Span } from '../../model/units/units.ts';
import { runsOf, talliesOf } from '../api/pastTallies.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';

/** A run of one size, with what its stations did in it. */
export interface RunWithStops extends Run {
  readonly size: string;
  /** Cartons of the line in it, and rejects charged to each station; undefined where none can be. */
  readonly cartons: number;
  readonly rejects: Readonly<Record<string, number | undefined>>;
  /** In order. */
  readonly stops: readonly StopRecord[];
  /** Cartons of the line in it by the last of them. */
  readonly byLast: number;
}

/** Runs of the past that are looked at for what is usual: as many of a size as the other rules take, and of other sizes between them. */
const RUNS_MOST = 400;

/** All runs of a line up to a moment, the oldest first; those that are over are worked out once. */
export function runsWithStops(
  records: Records,
  live: LiveLine,
  to: Instant,
  begun: Instant,
): readonly RunWithStops[] {
  const { index } = live.fold();
  const tallyAt = talliesOf(records, live, to);
  const runs = runsOf(records, live, { to, begun })
    .filter((run) => run.to > run.from)
    .slice(-RUNS_MOST);
  return runs.map((run, place) => {
    const make = () => withStops(records, index, run, tallyAt);
    if (place === runs.length - 1) return make();
    return records.remember(index.line.id, `stops ${run.from} ${run.to}`, (run.to + 1) as Instant, make);
  });
}

function withStops(
  records: Records,
  index: LineIndex,
  run: Run & { readonly size: string },
  tallyAt: (at: Instant) => readonly number[],
): RunWithStops {
  const gained = gainedBetween(tallyAt(run.from), tallyAt(run.to));
  const stops = records
    .ask({ line: index.line.id, kind: 'stop', from: run.from, to: run.to })
    .filter(({ begin }) => begin >= run.from && begin < run.to);
  const byLast = gainedBetween(tallyAt(run.from), tallyAt(stops.at(-1)?.begin ?? run.from));
  return {
    ...run,
    stops,
    byLast: sumOf(byLast, discharged(index)) ?? 0,
    cartons: sumOf(gained, discharged(index)) ?? 0,
    rejects: Object.fromEntries(index.line.stations.map(({ id }) => [id, rejectsAt(index, id)(gained)])),
  };
}

function discharged({ tallied, line }: LineIndex): readonly number[] {
  return tallied.flatMap((signal, place) => {
    const { role } = line.signals[signal]!;
    return role === 'goodCount' || role === 'rejectCount' ? [place] : [];
  });
}

/** Empty cartons are what people left: they are held against no other run, whose crew was another. */
function rejectsAt(index: LineIndex, station: string): (gained: readonly number[]) => number | undefined {
  const judged = loadedByHand(index, station) ? undefined : judgedBy(index, station);
  return (gained) => judged && sumOf(gained, judged.counted);
}

/** What is usual at a station, by earlier runs of the size. */
function earlierStops(runs: readonly RunWithStops[], station: string): readonly EarlierStops[] {
  return runs.map(({ cartons, rejects, stops }) => {
    const own = ownStops(stops, station);
    const first = own.filter(({ attempt }) => attempt <= 1).length;
    return { stops: first, retries: own.length - first, of: cartons, rejects: rejects[station] };
  });
}

/**
 * Stops of a station in a run, with the cartons of the line by each: counted from the last one back, from stop to stop, as each
 * keeps how many came since the line had started again. `after`: what came before it was dealt with, and is left out.
 */
export function recentStops(run: RunWithStops, station: string, after: Instant): readonly RecentStop[] {
  const recent: RecentStop[] = [];
  const tries = new Map<string, number>();
  let cartons = run.byLast;
  for (const stop of run.stops.toReversed()) {
    if (stop.station === station && stop.kind === 'machine' && stop.begin > after) {
      const { id, begin, attempt, episode } = stop;
      tries.set(episode, Math.max(attempt, tries.get(episode) ?? 0));
      if (attempt <= 1)
        recent.push({ id, at: begin, cartons: Math.max(0, cartons), tries: tries.get(episode) ?? 1 });
    }
    cartons -= stop.cartonsBefore;
  }
  return recent.reverse();
}

function ownStops(stops: readonly StopRecord[], station: string): readonly StopRecord[] {
  return stops.filter((stop) => stop.station === station && stop.kind === 'machine');
}

/** Rejects of each station in a run as they grew, a point for each few minutes: told once for all stations. */
export function rejectsGrown(
  records: Records,
  live: LiveLine,
  run: Run,
): (station: string) => readonly RejectsBy[] {
  const points = hoursOf(run).flatMap((hour) => {
    const make = () => talliesIn(records, live, hour);
    if (hour.to === run.to) return make();
    return records.remember(live.line.id, `tallies ${hour.from} ${hour.to}`, hour.to, make);
  });
  return grownBy(records, live, run, points);
}

export interface Hour {
  readonly from: Instant;
  readonly to: Instant;
}

/** Whole hours, and what is left of the first and the last. */
export function hoursOf(run: Run): readonly Hour[] {
  const hours: Hour[] = [];
  for (let { from } = run; from < run.to; from = hours.at(-1)!.to)
    hours.push({ from, to: Math.min(run.to, from - (from % HOUR) + HOUR) as Instant });
  return hours;
}

/** What such points, in order, say of each station. */
export function grownBy(
  records: Records,
  live: LiveLine,
  run: Run,
  points: readonly (readonly number[])[],
): (station: string) => readonly RejectsBy[] {
  const { index } = live.fold();
  const base = talliesOf(records, live, run.to)(run.from);
  const places = discharged(index);
  const grown = points.map((tally) => gainedBetween(base, tally));
  const cartons = grown.map((gained) => sumOf(gained, places) ?? 0);
  return (station) => {
    const rejected = rejectsAt(index, station);
    return grown.flatMap((gained, place) => {
      const rejects = rejected(gained);
      return rejects === undefined ? [] : [{ cartons: cartons[place]!, rejects }];
    });
  };
}

/** A point each so many minutes is enough. */
const EVERY = (5 * 600_000_000) as Span;

/** What all counters had counted at points of an hour. */
export function talliesIn(
  records: Records,
  live: LiveLine,
  { from, to }: Hour,
): readonly (readonly number[])[] {
  let last = 0;
  return records.ask({ line: live.line.id, kind: 'minute', from, to }).flatMap(({ at, tally }) => {
    if (at - last < EVERY) return [];
    last = at;
    return [tally];
  });
}

/**
 * All that a station is judged by in the newest of some runs. `kept`: what looks of the asker's own at that run came to; left
 * out, looks at the run that is on go on from one another, whoever asks.
 */
export function stopsAsked(
  runs: readonly RunWithStops[],
  station: string,
  parts: {
    readonly after: Instant;
    readonly cartonsPerShift: number;
    readonly rejects: (station: string) => readonly RejectsBy[];
    readonly kept?: KeptPart;
  },
): StopsAsked | undefined {
  const run = runs.at(-1);
  if (!run) return undefined;
  const past = pastOf(runs);
  const last = runs.at(-2);
  const known = parts.kept || !last ? newlyKnown(past, station, parts.kept) : knownSince(last, past, station);
  return {
    earlier: known.earlier,
    kept: known.kept,
    recent: recentStops(run, station, parts.after),
    runBegan: run.from,
    nowCartons: run.cartons,
    cartonsPerShift: parts.cartonsPerShift,
    rejects: run.rejects[station] === undefined ? undefined : parts.rejects(station),
  };
}

/** The runs that tell what is usual in the newest of them. */
export function pastOf(runs: readonly RunWithStops[]): readonly RunWithStops[] {
  const size = runs.at(-1)?.size;
  return runs
    .slice(0, -1)
    .filter((run) => run.size === size)
    .slice(-SETTINGS.runsMost);
}

/** What looks at a station in one run have in common. */
interface Known {
  readonly past: readonly RunWithStops[];
  readonly earlier: readonly EarlierStops[];
  readonly kept: KeptPart;
}

function newlyKnown(past: readonly RunWithStops[], station: string, kept = new KeptPart()): Known {
  return { past, earlier: earlierStops(past, station), kept };
}

/** By the run before it, which is over and stays what it is: the run that is on becomes another with each look. */
const looked = new WeakMap<RunWithStops, Map<string, Known>>();

/** The same for as long as the past is the same, so that what is usual is worked out once. */
function knownSince(last: RunWithStops, past: readonly RunWithStops[], station: string): Known {
  const byStation = looked.get(last) ?? new Map<string, Known>();
  looked.set(last, byStation);
  const known = byStation.get(station);
  if (known?.past.length === past.length && known.past.every((run, place) => run === past[place]))
    return known;
  const anew = newlyKnown(past, station);
  byStation.set(station, anew);
  return anew;
}
