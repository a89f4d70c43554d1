import { chancesOf } from './chances.ts';
import type { Levels } from './levels.ts';

/** Below this share of the mean so many levels are taken together. */
const LOW = 0.75;
const TOGETHER = 4;

/** A running sum of counts: each look adds its own less the reference, and it never falls below 0. In parts of one count. */
export interface RunningSum {
  readonly parts: number;
  /** What a look of so many cartons takes off. */
  readonly reference: (cartons: number) => number;
}

export interface LimitsAsked extends RunningSum {
  readonly levels: Levels;
  /** How much more than by chance counts of one look vary where the level is known; 1 is chance alone. */
  readonly uneven: number;
}

/** One look: at so many cartons, with this chance of a false call for it to spend. */
export interface LimitLook {
  readonly of: number;
  readonly wanted: number;
}

export function runningSums(
  looks: readonly { readonly count: number; readonly of: number }[],
  sum: RunningSum,
) {
  let value = 0;
  return looks.map(({ count, of }) => {
    value = Math.max(0, value + sum.parts * count - sum.reference(of));
    return value;
  });
}

/**
 * The least sum that calls, after each look: as low as it may be while calls by chance, up to that look, come no oftener than
 * the looks so far may spend. Exact for looks of any size, by the chain of the sum's chances at each level that the run may
 * have (Brook and Evans 1972), from which what has called is taken out (after Shen, Zou, Jiang and Tsung 2013). What whole
 * counts leave unspent is kept for later looks. A limit never comes down.
 */
export function runningLimits(asked: LimitsAsked, looks: readonly LimitLook[]): number[] {
  return looks.map(limitsBegun(asked));
}

/**
 * The same look by look, for a run that goes on: each call takes the next look, and gives the limit after it. It keeps the chain
 * between calls, which is most of the work.
 */
export function limitsBegun(asked: LimitsAsked): (look: LimitLook) => number {
  const { rates, chances } = coarsened(asked.levels);
  let sums: Chain[] = Array.from(rates, (_, place) => ({
    from: 0,
    points: Float64Array.of(chances[place]!),
  }));
  const countsOf = remembered((cartons) =>
    Array.from(rates, (rate) => chancesOf(rate * cartons, asked.uneven * (1 - rate))),
  );
  let [limit, left, unspent] = [0, 1, 0];
  return ({ of, wanted }) => {
    const reference = asked.reference(of);
    const counts = countsOf(of);
    sums = sums.map((sum, place) => added(sum, counts[place]!, asked.parts, reference));
    unspent += wanted * left;
    const found = leastLimit(sums, limit, unspent);
    limit = found.limit;
    unspent -= found.above;
    left -= found.above;
    sums = sums.map((sum) => below(sum, limit));
    return limit;
  };
}

/** Low levels never come near a limit: a few of them stand for all. */
function coarsened({ rates, chances, mean }: Levels): Pick<Levels, 'rates' | 'chances'> {
  const groups: { rate: number; chance: number; of: number }[] = [];
  rates.forEach((rate, place) => {
    const chance = chances[place]!;
    const last = groups.at(-1);
    if (!last || rate > LOW * mean || last.of >= TOGETHER) groups.push({ rate, chance, of: 1 });
    else {
      last.rate = (last.rate * last.chance + rate * chance) / (last.chance + chance);
      last.chance += chance;
      last.of += 1;
    }
  });
  return {
    rates: Float64Array.from(groups, ({ rate }) => rate),
    chances: Float64Array.from(groups, ({ chance }) => chance),
  };
}

/** Kept at most: batches are mostly alike, so that what is worked out for one serves others. */
const SIZES_MOST = 16;

function remembered<Result>(work: (cartons: number) => Result): (cartons: number) => Result {
  const known = new Map<number, Result>();
  return (cartons) => {
    const found = known.get(cartons) ?? work(cartons);
    known.delete(cartons);
    known.set(cartons, found);
    if (known.size > SIZES_MOST) known.delete(known.keys().next().value!);
    return found;
  };
}

/** Chances of sums from a first one on. */
interface Chain {
  readonly from: number;
  readonly points: Float64Array;
}

/** Written over by each step, and handed out only as a copy. */
let scratch = new Float64Array(1024);

function added({ from, points }: Chain, counts: Float64Array, parts: number, reference: number): Chain {
  const first = Math.max(0, from - reference);
  const last = Math.max(first, from + points.length - 1 + parts * (counts.length - 1) - reference);
  const width = last - first + 1;
  if (scratch.length < width) scratch = new Float64Array(2 * width);
  const sums = scratch.fill(0, 0, width);
  for (let place = 0; place < points.length; place += 1) {
    const chance = points[place]!;
    let at = from + place - reference;
    let count = 0;
    for (; count < counts.length && at <= 0; count += 1, at += parts) sums[0]! += chance * counts[count]!;
    for (; count < counts.length; count += 1, at += parts) sums[at - first]! += chance * counts[count]!;
  }
  return narrowed(first, sums, width);
}

/** What is less likely than this is left out at both ends: all of it together is far below what a look may spend. */
const LEAST = 1e-10;

/** Without ends that are too unlikely to matter. */
function narrowed(from: number, points: Float64Array, width: number): Chain {
  let [first, last] = [0, width - 1];
  while (last > 0 && points[last]! < LEAST) last -= 1;
  while (first < last && points[first]! < LEAST) first += 1;
  return { from: from + first, points: points.slice(first, last + 1) };
}

function leastLimit(sums: readonly Chain[], least: number, unspent: number) {
  const end = Math.max(...sums.map(({ from, points }) => from + points.length));
  let [limit, above] = [Math.max(end, least), 0];
  while (limit > Math.max(1, least)) {
    const more = sums.reduce((total, { from, points }) => total + (points[limit - 1 - from] ?? 0), 0);
    if (above + more > unspent) break;
    above += more;
    limit -= 1;
  }
  return { limit, above };
}

function below({ from, points }: Chain, limit: number): Chain {
  if (from + points.length <= limit) return { from, points };
  return { from, points: points.subarray(0, Math.max(0, limit - from)) };
}
