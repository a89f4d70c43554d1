import { shareOf } from '../../model/watch/falseRate.ts';
import { fastRuns } from '../../simulator/fast/fast.ts';
import { type FastFault, type FastOptions, SHIFT_SECONDS } from '../../simulator/fast/options.ts';
import { stationIds } from './fastEvidence.ts';
import { families, variants } from './normal.ts';
import { callsOf, isJudged } from './noticesCalls.ts';
import { earlierOf, type WatchedRun, watched } from './noticesRuns.ts';

/** A stop, first tries only: minutes of running and cartons of the line by then, since the first one that is told. */
export type PlainMoment = readonly [minutes: number, cartons: number];

/** Shifts in which nothing was wrong at any station. */
export interface QuietRow {
  readonly proof: 'notices';
  readonly kind: 'order';
  readonly variant: keyof typeof variants;
  readonly levels: keyof typeof families;
  readonly seed: number;
  /** Shifts of the line in runs that could be judged. */
  readonly shifts: number;
  /** New calls by station, for each budget: one false call in so many shifts over all stations. */
  readonly calls: Readonly<Record<Budget, readonly string[]>>;
  /** All stops in those runs, by station: what a plain rule goes by. */
  readonly stops: Readonly<Record<string, readonly PlainMoment[]>>;
  readonly equal: boolean;
}

/** One fault at one station, until it was called, and at most through three runs. */
export interface TroubleRow {
  readonly proof: 'notices';
  readonly kind: 'trouble';
  readonly trouble: keyof typeof troubles;
  readonly station: string;
  readonly variant: keyof typeof variants;
  readonly levels: keyof typeof families;
  readonly seed: number;
  /** Whether the station's rejects are counted as its own. */
  readonly rejects: boolean;
  /** Stops of the station and cartons of the line from its beginning to the call; null where there was none. */
  readonly called: { readonly stops: number; readonly cartons: number } | null;
  /** Stops of the station from a while before on; `before` of them came before the fault, which began at so many cartons. */
  readonly stops: readonly PlainMoment[];
  readonly before: number;
  readonly began: number;
  readonly equal: boolean;
}

export type NoticesRow = QuietRow | TroubleRow;

/** Shifts of a person's week, and of budgets that are four and ten times as strict: one false call in so many. */
export const BUDGETS = [5, 20, 50] as const;
export type Budget = (typeof BUDGETS)[number];

export const troubles = {
  guideWorksLoose: (station, from) => ({ kind: 'loose', station, from, doubledAfter: 4 }),
  badLot: (station, from) => ({ kind: 'lot', station, from, times: 4, cartons: 7000 }),
  reJamming: (station, from) => ({ kind: 'rejam', station, from, times: 8, rests: 0.6 }),
  threeTimesAsMany: (station, from) => ({ kind: 'step', station, from, times: 3 }),
  sixTimesAsMany: (station, from) => ({ kind: 'step', station, from, times: 6 }),
} as const satisfies Record<string, (station: string, from: number) => FastFault>;

/** Stations whose risk makes stops of their own; a pick leaves no rests. */
const TROUBLED = [
  'open',
  'bottom-minor',
  'bottom-major',
  'capture',
  'top-minor',
  'top-major',
  'tuck-cam',
  'pick',
] as const;

export const QUIET_SEEDS = 3;
const QUIET_SHIFTS = 64;
export const TROUBLE_SEEDS = 105;
const TROUBLE_AFTER = 45;
const TROUBLE_RUNS = 3;
/** Of the stops before trouble as many cartons are kept as no plain rule looks back beyond. */
const KEPT_CARTONS = 70_000;

const variantNames = Object.keys(variants) as (keyof typeof variants)[];
const familyNames = Object.keys(families) as (keyof typeof families)[];
const troubleNames = Object.keys(troubles) as (keyof typeof troubles)[];

export function* notices(): Generator<NoticesRow> {
  for (let seed = 1; seed <= QUIET_SEEDS; seed += 1)
    for (const variant of variantNames)
      for (const levels of familyNames) yield quietRow(variant, levels, seed);
  for (const trouble of troubleNames)
    for (let seed = 1; seed <= TROUBLE_SEEDS; seed += 1) yield troubleRow(trouble, seed);
}

export function quietRow(
  variant: keyof typeof variants,
  levels: keyof typeof families,
  seed: number,
): QuietRow {
  const calls: Record<Budget, string[]> = { 5: [], 20: [], 50: [] };
  const stops: Record<string, PlainMoment[]> = Object.fromEntries(stationIds.map((id) => [id, []]));
  let [shifts, equal, minutes, cartons] = [0, true, 0, 0];
  for (const { run, before } of watchedRuns({
    seed: 7000 + seed,
    levels: families[levels],
    variant: variants[variant],
  })) {
    if (run.to > QUIET_SHIFTS * SHIFT_SECONDS) break;
    if (!isJudged(earlierOf(before, 'pick'))) continue;
    shifts += (run.to - run.from) / SHIFT_SECONDS;
    for (const station of stationIds) {
      const earlier = earlierOf(before, station);
      callsOf(run, earlier, station, BUDGETS.map(ofEach)).forEach((own, place) => {
        calls[BUDGETS[place]!].push(...own.map(() => station));
        equal &&= own.every((call) => call.true);
      });
      stops[station]!.push(...momentsOf(run, station, { minutes, cartons }));
    }
    minutes += run.ran(run.to) / 60;
    cartons += run.cartons;
  }
  return {
    proof: 'notices',
    kind: 'order',
    ...{ variant, levels, seed },
    shifts: Math.round(100 * shifts) / 100,
    ...{ calls, stops, equal },
  };
}

/** Each station of the line has the same share of the budget. */
const ofEach = (falseOnceInShifts: number) =>
  shareOf({ falseOnceInShifts }, { stations: stationIds.length }).falseOnceInShifts;

function momentsOf(
  run: WatchedRun,
  station: string,
  base: { readonly minutes: number; readonly cartons: number },
): PlainMoment[] {
  return run.tries
    .get(station)!
    .filter(({ attempt }) => attempt === 1)
    .map(({ at, cartons }) => [
      Math.round(10 * (base.minutes + run.ran(at) / 60)) / 10,
      base.cartons + cartons,
    ]);
}

/** Runs of the fast simulator, each with those of its size before it. */
function* watchedRuns(options: FastOptions) {
  const known = new Map<string, WatchedRun[]>();
  for (const told of fastRuns(options)) {
    const run = watched(told, options.variant ?? {});
    const before = known.get(run.size) ?? [];
    yield { run, before };
    known.set(run.size, [...before, run]);
  }
}

export function troubleRow(trouble: keyof typeof troubles, seed: number): TroubleRow {
  const from = (TROUBLE_AFTER + ((seed * 0.618) % 1)) * SHIFT_SECONDS;
  const variant = variantNames[seed % variantNames.length]!;
  const levels = familyNames[seed % familyNames.length]!;
  const stations = trouble === 'reJamming' ? TROUBLED.slice(0, -1) : TROUBLED;
  const station = stations[seed % stations.length]!;
  const options = { seed: 9000 + seed, levels: families[levels], variant: variants[variant] };
  const moments: PlainMoment[] = [];
  let [base, before, began, runs, since, equal] = [{ minutes: 0, cartons: 0 }, 0, 0, 0, 0, true];
  let called: TroubleRow['called'] = null;
  let rejects = false;
  for (const { run, before: past } of watchedRuns({ ...options, fault: troubles[trouble](station, from) })) {
    const come = momentsOf(run, station, base);
    const first = run.tries.get(station)!.filter(({ attempt, at }) => attempt === 1 && at < from).length;
    moments.push(...come);
    if (run.to > from) {
      if (runs === 0) began = base.cartons + cartonsAt(run, from);
      const [own] = callsOf(run, earlierOf(past, station), station, [ofEach(BUDGETS[0])]);
      const call = own!.find(({ at }) => at >= from);
      if (call && !called) {
        called = { stops: since + call.stops - first, cartons: base.cartons + call.cartons - began };
        equal = call.true;
      }
      since += come.length - first;
      rejects = run.rejects.has(station);
      runs += 1;
    }
    before += first;
    if (runs === TROUBLE_RUNS) break;
    base = { minutes: base.minutes + run.ran(run.to) / 60, cartons: base.cartons + run.cartons };
  }
  const kept = moments.findIndex(([, cartons]) => cartons >= began - KEPT_CARTONS);
  const left = Math.max(0, kept);
  return {
    proof: 'notices',
    kind: 'trouble',
    ...{ trouble, station, variant, levels, seed, rejects, called },
    stops: moments.slice(left),
    before: before - left,
    ...{ began, equal },
  };
}

function cartonsAt(run: WatchedRun, from: number): number {
  const points = run.rejects.get('pick')!;
  return points.findLast(({ at }) => at <= from)?.cartons ?? 0;
}
