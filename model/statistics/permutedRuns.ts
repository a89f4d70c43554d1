/** So many of so many, of one unit that was before or after something. */
export interface Unit {
  readonly count: number;
  readonly of: number;
}

/** Units that may be held against one another: a stratum of a permutation test. */
export interface Stratum {
  readonly before: readonly Unit[];
  readonly after: readonly Unit[];
}

/** How rarely chance alone brings as few, or as many, after as were seen. */
export interface Permuted {
  readonly fewer: number;
  readonly more: number;
}

/** All orders are looked at up to so many, and of more of them so many that are drawn. */
const EXACT_MOST = 20_000;
const DRAWN = 9_999;
const SAME = 1e-9;

/**
 * An exact test over units: if nothing changed, any of them might as well have been before as after (Fisher 1935, Pitman
 * 1937). What is compared is how much more came after than as many of all would have brought, in sum over strata. Units
 * may be as uneven among themselves as they like: no distribution is assumed. Where orders are drawn, the one that was
 * seen counts among them, so that the chance is never told too small (Phipson and Smyth 2010).
 */
export function permutedRuns(strata: readonly Stratum[]): Permuted {
  const scored = strata.map(scoresOf);
  const seen = scored.reduce((sum, { scores, chosen }) => sum + sumOf(scores.slice(0, chosen)), 0);
  const all = waysOf(strata) <= EXACT_MOST;
  const sums = all ? everySum(scored) : drawnSums(scored);
  const extra = all ? 0 : 1;
  const share = (isAs: (sum: number) => boolean) =>
    (sums.filter(isAs).length + extra) / (sums.length + extra);
  return { fewer: share((sum) => sum <= seen + SAME), more: share((sum) => sum >= seen - SAME) };
}

/** In how many ways units can be before and after: one over it is the least chance that can come out. */
export function waysOf(strata: readonly Stratum[]): number {
  return strata.reduce(
    (ways, { before, after }) => ways * choose(before.length + after.length, after.length),
    1,
  );
}

export function choose(of: number, some: number): number {
  let ways = 1;
  for (let n = 1; n <= some; n += 1) ways = (ways * (of - some + n)) / n;
  return Math.round(ways);
}

interface Scored {
  /** Those after first. */
  readonly scores: readonly number[];
  readonly chosen: number;
}

/** By how much each unit has more than as many of all units of its stratum. */
function scoresOf({ before, after }: Stratum): Scored {
  const units = [...after, ...before];
  const of = sumOf(units.map((unit) => unit.of));
  const rate = of > 0 ? sumOf(units.map(({ count }) => count)) / of : 0;
  return { scores: units.map((unit) => unit.count - rate * unit.of), chosen: after.length };
}

function everySum(scored: readonly Scored[]): number[] {
  return scored.reduce<number[]>(
    (sums, { scores, chosen }) => {
      const own = sumsOfSome(scores, chosen);
      return sums.flatMap((sum) => own.map((one) => sum + one));
    },
    [0],
  );
}

function sumsOfSome(scores: readonly number[], some: number, from = 0): number[] {
  if (some === 0) return [0];
  const sums: number[] = [];
  for (let place = from; place <= scores.length - some; place += 1)
    for (const rest of sumsOfSome(scores, some - 1, place + 1)) sums.push(scores[place]! + rest);
  return sums;
}

function drawnSums(scored: readonly Scored[]): number[] {
  const draw = drawsFrom(DRAWN);
  const pools = scored.map(({ scores }) => [...scores]);
  return Array.from({ length: DRAWN }, () =>
    scored.reduce((sum, { chosen }, place) => sum + sumOfDrawn(pools[place]!, chosen, draw), 0),
  );
}

/** The first `some` of a shuffle (Fisher and Yates). */
function sumOfDrawn(pool: number[], some: number, draw: () => number): number {
  let sum = 0;
  for (let place = 0; place < some; place += 1) {
    const other = place + Math.floor(draw() * (pool.length - place));
    [pool[place], pool[other]] = [pool[other]!, pool[place]!];
    sum += pool[place]!;
  }
  return sum;
}

/** The same draws each time: an answer does not change from one look to the next (mulberry32, a public-domain generator). */
function drawsFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
