import {
  type ActingAdjustment,
  type AdjustmentEstimate,
  estimate,
  type OtherSize,
  type SettledStretch,
  type Sureness,
} from '../../../model/setpoints/estimate.ts';
import { meanOfPast, settingsOfBestRun } from './baselines.ts';
import { type PlayedRun, play, stretchesOf } from './play.ts';
import { type Numbers, type Truth, truthOf } from './truth.ts';
import type { World } from './world.ts';

export const AFTER = [5, 10, 20] as const;

/** One world after so many runs of its first size. */
export interface SetpointsRow {
  readonly proof: 'setpoints';
  readonly world: string;
  readonly after: number;
  /** Cartons lost in a run at all stations, at the hidden best numbers. */
  readonly least: number;
  /** Beyond that, if a rule's numbers are followed. */
  readonly estimated: number;
  readonly mean: number;
  readonly bestRun: number;
  readonly book: number;
  readonly adjustments: readonly JudgedAdjustment[];
  readonly equal: true;
}

/** What was said of one adjustment, and how it was. */
export interface JudgedAdjustment {
  readonly number: string;
  readonly sure: Sureness;
  /** Whether the range of nine in ten holds the hidden best number; null where no range is told. */
  readonly holds: boolean | null;
  /** The range's length, and how far off what is recommended lies, in tolerances. */
  readonly wide: number | null;
  readonly off: number;
  /** What the number alone, all others at their best, loses beyond the least, as a share of what the stations it acts on lose at least. */
  readonly share: number;
  /** Said to have moved only with another: 1 rightly, −1 wrongly, −2 not said though it did; 0 not said, rightly. */
  readonly together: number;
}

export function* rowsOf(world: World): Generator<SetpointsRow> {
  const truth = truthOf(world);
  const runs = play(world, Math.max(...AFTER));
  const first = world.sizes[0]!.id;
  const least = truth.lostAt(truth.best);
  for (const after of AFTER) {
    const own = runs.filter(({ size }) => size === first).slice(0, after);
    const until = runs.indexOf(own.at(-1)!);
    const estimates = estimatesOf(world, own, runs.slice(0, until));
    const book = new Map(Object.entries(world.sizes[0]!.book));
    const beyond = (numbers: Numbers) => rounded(truth.lostAt(numbers) - least, 3);
    const followed = new Map(
      world.adjustments.map(({ number }) => [
        number,
        estimates.get(number)?.recommended ?? book.get(number)!,
      ]),
    );
    yield {
      ...{ proof: 'setpoints', world: world.name, after, least: rounded(least, 3), equal: true },
      estimated: beyond(followed),
      mean: beyond(meanOfPast(world, own)),
      bestRun: beyond(settingsOfBestRun(world, own)),
      book: beyond(book),
      adjustments: world.adjustments.map((_, place) =>
        judged({ world, truth, own, followed, place }, estimates.get(world.adjustments[place]!.number)!),
      ),
    };
  }
}

/** What is told of every adjustment by its own station; other sizes are looked at first. */
function estimatesOf(
  world: World,
  own: readonly PlayedRun[],
  before: readonly PlayedRun[],
): ReadonlyMap<string, AdjustmentEstimate> {
  const others = new Map<string, OtherSize[]>();
  for (const { id } of world.sizes.slice(1)) {
    const runs = before.filter(({ size }) => size === id).slice(-20);
    for (const { number, besideBook } of runs.length >= 3 ? estimatesOfSize(world, id, runs) : [])
      if (besideBook) others.set(number, [...(others.get(number) ?? []), besideBook]);
  }
  const all = estimatesOfSize(world, world.sizes[0]!.id, own, Object.fromEntries(others));
  return new Map(all.map((one) => [one.number, one]));
}

function estimatesOfSize(
  world: World,
  size: string,
  runs: readonly PlayedRun[],
  otherSizes: Readonly<Record<string, readonly OtherSize[]>> = {},
): readonly AdjustmentEstimate[] {
  const book = world.sizes.find(({ id }) => id === size)!.book;
  const { from, to } = world.cartonsPerRun;
  return world.stations.flatMap(({ id }) => {
    const acting = world.adjustments.flatMap(({ number, station }, place) => {
      const acts = world.crossEffects.some((one) => one.adjustment === number && one.station === id);
      return station === id || acts ? [place] : [];
    });
    if (acting.length === 0) return [];
    const adjustments = acting.map((place): ActingAdjustment => {
      const { number, station, min, max, step } = world.adjustments[place]!;
      return { number, min, max, step, book: book[number], own: station === id };
    });
    const stretches: readonly SettledStretch[] = stretchesOf(runs, id, acting);
    const { lostPerReject, lostPerStop } = world;
    return estimate({
      ...{ adjustments, stretches, lostPerReject, lostPerStop, otherSizes },
      cartonsPerRun: (to - from) / Math.log(to / from),
    }).filter((_, at) => adjustments[at]!.own);
  });
}

interface Judging {
  readonly world: World;
  readonly truth: Truth;
  readonly own: readonly PlayedRun[];
  readonly followed: Numbers;
  readonly place: number;
}

function judged({ world, truth, own, followed, place }: Judging, said: AdjustmentEstimate): JudgedAdjustment {
  const { number, station, tolerance } = world.adjustments[place]!;
  const best = truth.best.get(number)!;
  const alone = new Map(truth.best).set(number, followed.get(number)!);
  const acted = [
    station,
    ...world.crossEffects.filter((one) => one.adjustment === number).map((one) => one.station),
  ];
  const lost = (numbers: Numbers) => acted.reduce((sum, id) => sum + truth.lostAtStation(numbers, id), 0);
  const { range90: range } = said;
  return {
    ...{ number, sure: said.sure },
    holds: range ? best >= range.from - 1e-9 && best <= range.to + 1e-9 : null,
    wide: range ? rounded((range.to - range.from) / tolerance, 3) : null,
    off: rounded((followed.get(number)! - best) / tolerance, 3),
    share: rounded(lost(alone) / lost(truth.best) - 1, 4),
    together: togetherOf(world, own, number, said),
  };
}

/** Told against what setters really do; a pair that did not move at all is none that moved together. */
function togetherOf(
  world: World,
  own: readonly PlayedRun[],
  number: string,
  said: AdjustmentEstimate,
): number {
  const pair = world.movedTogether.find((one) => one.includes(number));
  const other = pair?.find((one) => one !== number);
  const wrong = said.togetherWith.some((one) => one !== other);
  if (wrong) return -1;
  if (other === undefined) return 0;
  if (said.togetherWith.includes(other)) return 1;
  const place = world.adjustments.findIndex((one) => one.number === number);
  const settings = new Set(
    own.flatMap(({ stretches }) => stretches.flatMap(({ known }) => known[place]?.value ?? [])),
  );
  return settings.size >= 3 ? -2 : 0;
}

function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
