import type { LineIndex } from '../../model/fold/lineIndex.ts';
import type { StopRecord } from '../../model/fold/state.ts';
import type { Run } from '../../model/past/batches.ts';
import { loadedByHand } from '../../model/past/loadedByHand.ts';
import { gainedBetween, judgedBy, sumOf } from '../../model/past/stationCounts.ts';
import type { EarlierStops, RecentStop, RejectsBy, StopsAsked } from '../../model/watch/repeated.ts';
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
    rejects: Object.fromEntries(index.line.stations.map(({ id }) => [id, rejectsOf(index, id, gained)])),
  };
}

function discharged({ tallied, line }: LineIndex): readonly number[] {
  return tallied.flatMap((signal, place) => {
    const { role } = line.signals[signal]!;
    return role === 'goodCount' || role === 'rejectCount' ? [place] : [];
  });
}

/** Empty cartons are what people left: they are held against no other run, whose crew was another. */
function rejectsOf(index: LineIndex, station: string, gained: readonly number[]): number | undefined {
  const judged = loadedByHand(index, station) ? undefined : judgedBy(index, station);
  return judged && sumOf(gained, judged.counted);
}

/** What is usual at a station, by earlier runs of the size. */
export function earlierStops(runs: readonly RunWithStops[], station: string): readonly EarlierStops[] {
  return runs.slice(-SETTINGS.runsMost).map(({ cartons, rejects, stops }) => {
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

/** Rejects of each station in a run as they grew, a point for each whole part of an hour: told once for all stations. */
export function rejectsGrown(
  records: Records,
  live: LiveLine,
  run: Run,
): (station: string) => readonly RejectsBy[] {
  const { index } = live.fold();
  const places = discharged(index);
  const base = talliesOf(records, live, run.to)(run.from);
  const points: (readonly number[])[] = [];
  for (let from = run.from; from < run.to; from = (from - (from % HOUR) + HOUR) as Instant) {
    const to = Math.min(run.to, from - (from % HOUR) + HOUR) as Instant;
    const make = () => talliesIn(records, index.line.id, from, to);
    const whole = to < run.to;
    points.push(...(whole ? records.remember(index.line.id, `tallies ${from} ${to}`, to, make) : make()));
  }
  return (station) =>
    points.flatMap((tally) => {
      const gained = gainedBetween(base, tally);
      const rejects = rejectsOf(index, station, gained);
      return rejects === undefined ? [] : [{ cartons: sumOf(gained, places) ?? 0, rejects }];
    });
}

/** A point each so many minutes is enough. */
const EVERY = (5 * 600_000_000) as Span;

function talliesIn(
  records: Records,
  line: string,
  from: Instant,
  to: Instant,
): readonly (readonly number[])[] {
  let last = 0;
  return records.ask({ line, kind: 'minute', from, to }).flatMap(({ at, tally }) => {
    if (at - last < EVERY) return [];
    last = at;
    return [tally];
  });
}

/** All that a station is judged by in the newest of some runs. */
export function stopsAsked(
  runs: readonly RunWithStops[],
  station: string,
  parts: {
    readonly after: Instant;
    readonly cartonsPerShift: number;
    readonly rejects: (station: string) => readonly RejectsBy[];
  },
): StopsAsked | undefined {
  const run = runs.at(-1);
  if (!run) return undefined;
  const earlier = runs.slice(0, -1).filter(({ size }) => size === run.size);
  return {
    earlier: earlierStops(earlier, station),
    recent: recentStops(run, station, parts.after),
    runBegan: run.from,
    nowCartons: run.cartons,
    cartonsPerShift: parts.cartonsPerShift,
    rejects: run.rejects[station] === undefined ? undefined : parts.rejects(station),
  };
}
