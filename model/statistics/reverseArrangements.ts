/** Lengths between moments, the first from `start`. */
export function gapsBetween(moments: readonly number[], start = 0): number[] {
  return moments.map((at, place) => at - (place > 0 ? moments[place - 1]! : start));
}

export interface ReverseArrangements {
  /** Pairs of gaps of which the later is the longer one. */
  readonly later: number;
  /** Pairs in all. */
  readonly pairs: number;
  /** Chance of so many or more, if the order of the gaps means nothing. Undefined where two gaps are equal. */
  readonly chance: number | undefined;
}

/**
 * Whether gaps between failures grow: how many pairs have the longer gap later, with the exact chance from the number of
 * orders with as many (Kendall 1938; as a trend test MIL-HDBK-189 and NIST e-Handbook 8.2.3.4, from memory). It takes no shape
 * of the rate for granted. Undefined for fewer than two gaps.
 */
export function reverseArrangements(gaps: readonly number[]): ReverseArrangements | undefined {
  if (gaps.length < 2) return undefined;
  let later = 0;
  for (const [place, gap] of gaps.entries())
    for (const next of gaps.slice(place + 1)) if (next > gap) later += 1;
  const ties = new Set(gaps).size < gaps.length;
  return {
    later,
    pairs: (gaps.length * (gaps.length - 1)) / 2,
    chance: ties ? undefined : chanceOfPairs(later, gaps.length),
  };
}

/** Chance of at least so many pairs among all orders of `length` gaps, no two alike: each further one falls in any place. */
export function chanceOfPairs(least: number, length: number): number {
  let chances = [1];
  for (let size = 2; size <= length; size += 1) {
    const next = new Array<number>(chances.length + size - 1).fill(0);
    for (const [pairs, chance] of chances.entries())
      for (let more = 0; more < size; more += 1) next[pairs + more]! += chance / size;
    chances = next;
  }
  return chances.slice(least).reduce((sum, chance) => sum + chance, 0);
}
