import { poissonAtLeast } from '../../../model/statistics/poisson.ts';
import { type Draw, lognormal, normal, uniform, whole } from '../../../simulator/machine/random.ts';
import type { Truth } from './trouble.ts';
import type { World } from './world.ts';

/** A run up to the moment at which somebody asks what is wrong. */
export interface Run {
  readonly minutes: number;
  readonly cells: readonly RunCell[];
  /** What is thought to be usual in a carton, from earlier runs. */
  readonly thoughtUsual: readonly number[];
  /** Minutes at which the station stopped the machine: any of its stops may have knocked something. */
  readonly jams: readonly number[];
}

interface RunCell {
  readonly from: number;
  readonly to: number;
  readonly cartons: number;
  readonly counts: readonly number[];
}

const CELL_MINUTES = 6;
const MOST_CELLS = 100;
/** So seldom would the usual bring as many that somebody is called. */
const NOTICED = 0.0005;
const LEAST_TIMES = 1.6;
const LOOK_BACK = [5, 10, 20, 40, MOST_CELLS] as const;

/** Counted cell by cell until it is noticed, and a little further; undefined where nobody notices. */
export function countRun(world: World, truth: Truth, draw: Draw): Run | undefined {
  const level = Math.exp(world.runSpread * normal(draw) - world.runSpread ** 2 / 2);
  const thoughtUsual = world.usual.map((usual) => usual * lognormal(draw, 1, world.manner.usualOff, 0.5, 2));
  const near = world.machine.reasons.map(
    ({ station }, nth) => station === truth.station || truth.shown.reasons[nth]! > 0.05,
  );
  const nearUsual = world.usual.reduce((sum, usual, nth) => sum + (near[nth] ? usual : 0), 0);
  const rate = uniform(draw, 34, 52);
  const cells: RunCell[] = [];
  const jams: number[] = [];
  const seen: number[] = [];
  let further = -1;
  for (let nth = 0; nth < MOST_CELLS && further !== 0; nth += 1) {
    const from = nth * CELL_MINUTES;
    const cartons = Math.round(rate * CELL_MINUTES * uniform(draw, 0.75, 1));
    const more = truth.excess(from + CELL_MINUTES / 2) * nearUsual;
    const counts = world.machine.reasons.map(({ kind, station }, reason) => {
      const own = clumped(draw, cartons * world.usual[reason]! * level, world.clump);
      const trouble = clumped(draw, cartons * more * truth.shown.reasons[reason]!, world.clump);
      if (kind === 'stop' && station === truth.station)
        for (let jam = 0; jam < own + trouble; jam += 1) jams.push(uniform(draw, from, from + CELL_MINUTES));
      return own + trouble;
    });
    cells.push({ from, to: from + CELL_MINUTES, cartons, counts });
    seen.push(counts.reduce((sum, count, reason) => sum + (near[reason] ? count : 0), 0));
    const usual = cartons * thoughtUsual.reduce((sum, one, reason) => sum + (near[reason] ? one : 0), 0);
    if (further > 0) further -= 1;
    else if (noticed(seen, usual)) further = whole(draw, 0, 3);
  }
  const minutes = cells.length * CELL_MINUTES;
  const early = truth.kind !== 'nothing' && minutes <= truth.from + CELL_MINUTES;
  // what was noticed before the trouble began was another one
  return further !== 0 || early ? undefined : { minutes, cells, thoughtUsual, jams };
}

/** The last cells, as many as people look back on, hold far more than is usual in as many. */
function noticed(seen: readonly number[], usualOfCell: number): boolean {
  return LOOK_BACK.some((cells) => {
    const last = seen.slice(-cells);
    const count = last.reduce((sum, one) => sum + one, 0);
    const usual = usualOfCell * last.length;
    return count >= 5 && count >= LEAST_TIMES * usual && poissonAtLeast(count, usual) < NOTICED;
  });
}

/** As many clumps as a Poisson distribution gives, each of one or more. */
function clumped(draw: Draw, mean: number, clump: number): number {
  let count = 0;
  for (let left = Math.exp(-mean / (1 + clump)), product = draw(); product > left; product *= draw()) {
    count += 1;
    while (draw() < clump / (1 + clump)) count += 1;
  }
  return count;
}
