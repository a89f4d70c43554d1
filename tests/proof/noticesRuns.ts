import { type Instant, SECOND } from '../../model/units/units.ts';
import type { EarlierStops, RecentStop, RejectsBy, StopsAsked } from '../../model/watch/repeated.ts';
import type { FastMinute, FastRun } from '../../simulator/fast/line.ts';
import type { Seconds } from '../../simulator/fast/options.ts';
import { rejects as reasons } from '../../simulator/lines/cartoner.ts';
import { crewsOf, standard, targetsOf, type Variant } from '../../simulator/lines/variant.ts';
import { stationIds } from './fastEvidence.ts';

/** A try at a station: a stop of the machine itself. */
export interface Try {
  readonly at: Seconds;
  /** Cartons of the line in the run by then. */
  readonly cartons: number;
  /** Which episode of the run it belongs to, from 1 on, and which try of it. */
  readonly episode: number;
  readonly attempt: number;
}

/** A run of the fast simulator as the watch over stations would gather it. */
export interface WatchedRun {
  readonly size: string;
  readonly from: Seconds;
  readonly to: Seconds;
  readonly cartons: number;
  /** In order, by station. */
  readonly tries: ReadonlyMap<string, readonly Try[]>;
  /** Rejects charged to a station by so many cartons; none for a station that has none, or where people load. */
  readonly rejects: ReadonlyMap<string, readonly (RejectsBy & { readonly at: Seconds })[]>;
  readonly cartonsPerShift: number;
  /** Seconds of running by a moment, since the run began. */
  readonly ran: (at: Seconds) => Seconds;
}

/** A point of rejects each so many minutes that brought cartons, as the gateway asks for them. */
const POINTS = 5;
const SHIFT_MINUTES = 480;

export function watched(run: FastRun, wished: Partial<Variant>): WatchedRun {
  const variant = { ...standard, ...wished };
  const made = run.minutes.reduce<{ at: Seconds; cartons: number }[]>((sums, minute) => {
    sums.push({ at: minute.at, cartons: (sums.at(-1)?.cartons ?? 0) + cartonsOf(minute) });
    return sums;
  }, []);
  const size = run.size as Parameters<typeof targetsOf>[1];
  return {
    size: run.size,
    from: run.from,
    to: run.to,
    cartons: made.at(-1)?.cartons ?? 0,
    tries: new Map(stationIds.map((station) => [station, triesOf(run, station, (at) => madeBy(made, at))])),
    rejects: rejectsOf(run, made, variant.loading !== 'automatic'),
    cartonsPerShift: SHIFT_MINUTES * (targetsOf(variant, size)[crewsOf(variant).assumed] ?? 0),
    ran: (at) =>
      run.stops.reduce(
        (sum, { begin, end }) => sum - Math.max(0, Math.min(end, at) - begin),
        Math.min(at, run.to) - run.from,
      ),
  };
}

function cartonsOf({ good, rejects }: FastMinute): number {
  return good + Object.values(rejects).reduce((sum, count) => sum + count, 0);
}

/** Within a minute as if its cartons had come evenly. */
function madeBy(made: readonly { readonly at: Seconds; readonly cartons: number }[], at: Seconds): number {
  let [low, high] = [0, made.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (made[middle]!.at >= at) high = middle;
    else low = middle + 1;
  }
  const before = made[low - 1]?.cartons ?? 0;
  const minute = made[low];
  if (!minute) return before;
  const share = Math.min(1, Math.max(0, (at - (minute.at - 60)) / 60));
  return Math.round(before + share * (minute.cartons - before));
}

function triesOf({ stops }: FastRun, station: string, by: (at: Seconds) => number): readonly Try[] {
  let [episode, attempt] = [0, 0];
  return stops.flatMap((stop) => {
    if (stop.kind !== 'machine' || stop.station !== station) return [];
    if (stop.attempt === 1 || episode === 0) [episode, attempt] = [episode + 1, 0];
    attempt += 1;
    return [{ at: stop.begin, cartons: by(stop.begin), episode, attempt }];
  });
}

function rejectsOf(
  { minutes }: FastRun,
  made: readonly { readonly at: Seconds; readonly cartons: number }[],
  loadedByHand: boolean,
): WatchedRun['rejects'] {
  const stations = new Set(['pick', ...reasons.map(({ station }) => station)]);
  // crews are not held against crews
  if (loadedByHand) stations.delete('loading');
  const by = new Map<string, (RejectsBy & { at: Seconds })[]>();
  for (const station of stations) {
    const own = reasons.filter((reason) => reason.station === station);
    let rejects = 0;
    const points = minutes.map((minute, place) => {
      rejects += own.reduce((sum, { id }) => sum + minute.rejects[id], 0);
      if (station === 'pick') rejects += minute.missed;
      return { at: minute.at, cartons: made[place]!.cartons, rejects };
    });
    by.set(
      station,
      points.filter((_, place) => place % POINTS === POINTS - 1 || place === points.length - 1),
    );
  }
  return by;
}

export function earlierOf(before: readonly WatchedRun[], station: string): readonly EarlierStops[] {
  return before.map(({ cartons, tries, rejects }) => {
    const own = tries.get(station)!;
    const stops = own.at(-1)?.episode ?? 0;
    return {
      stops,
      retries: own.length - stops,
      of: cartons,
      rejects: rejects.get(station)?.at(-1)?.rejects,
    };
  });
}

/** What is known of a station at a moment of a run: its tries up to then, and so many points of its rejects. */
export function askedAt(
  run: WatchedRun,
  earlier: readonly EarlierStops[],
  station: string,
  then: { readonly tries: number; readonly points: number; readonly cartons: number },
): StopsAsked {
  const own = run.tries.get(station)!.slice(0, then.tries);
  const recent: RecentStop[] = [];
  for (const { at, cartons, episode, attempt } of own) {
    if (attempt > 1) recent[episode - 1] = { ...recent[episode - 1]!, tries: attempt };
    else recent.push({ id: `${episode}`, at: Math.round(at * SECOND) as Instant, cartons, tries: 1 });
  }
  return {
    earlier,
    recent,
    runBegan: Math.round(run.from * SECOND) as Instant,
    nowCartons: then.cartons,
    cartonsPerShift: run.cartonsPerShift,
    rejects: run.rejects.get(station)?.slice(0, then.points),
  };
}
