import { binomialPoint } from './binomial.ts';
import { leastCount } from './leastCount.ts';
import { solve } from './linearSystem.ts';
import { poissonPoint } from './poisson.ts';

/**
 * A cumulative sum of counts: each adds itself less the reference, and never falls below 0. Both numbers are in parts of one,
 * of which `parts` make one: parts 2, reference 3 and decision 10 are k = 1.5 and h = 5. Whole parts make the run length exact.
 * It calls where the sum reaches the decision: S ≥ h. For S > h give one part more.
 */
export interface CountCusum {
  readonly parts: number;
  readonly reference: number;
  readonly decision: number;
}

/** The chance of each count. */
export type CountChance = (count: number) => number;

export const poissonChance =
  (mean: number): CountChance =>
  (count) =>
    poissonPoint(count, mean);

export const binomialChance =
  (trials: number, share: number): CountChance =>
  (count) =>
    binomialPoint(count, trials, share);

/** The reference that tells two Poisson means apart soonest: (m1 − m0) / ln(m1/m0) (Lucas, Technometrics 1985). */
export function poissonReference(usual: number, wrong: number): number {
  return (wrong - usual) / Math.log(wrong / usual);
}

/** The same of two shares of rejects, in rejects of `trials` cartons (Hawkins and Olwell 1998, from memory). */
export function binomialReference(trials: number, usual: number, wrong: number): number {
  const kept = Math.log((1 - usual) / (1 - wrong));
  return (trials * kept) / (kept + Math.log(wrong / usual));
}

/** The sum after each count, and the place, from 0, of the first at which it reaches the decision. In parts. */
export function countCusum(
  counts: readonly number[],
  { parts, reference, decision }: CountCusum,
): { readonly sums: readonly number[]; readonly alarm: number | undefined } {
  let sum = 0;
  const sums = counts.map((count) => {
    sum = Math.max(0, sum + parts * count - reference);
    return sum;
  });
  const first = sums.findIndex((one) => one >= decision);
  return { sums, alarm: first < 0 ? undefined : first };
}

/**
 * How many counts pass on average until it calls, begun at 0: exact, by the Markov chain of its sums below the decision (Brook
 * and Evans, Biometrika 1972).
 */
export function countCusumRunLength(chance: CountChance, chart: CountCusum): number {
  const places = Array.from({ length: chart.decision }, (_, place) => place);
  const rows = places.map((from) => {
    const row = places.map((place) => (place === from ? 1 : 0));
    for (let count = 0; ; count += 1) {
      const to = Math.max(0, from + chart.parts * count - chart.reference);
      if (to >= chart.decision) return row;
      row[to]! -= chance(count);
    }
  });
  return solve(
    rows,
    places.map(() => 1),
  )[0]!;
}

/** The least decision, in parts, with which false calls are at least `wanted` counts apart on average. */
export function countCusumDecision(
  usual: CountChance,
  chart: Pick<CountCusum, 'parts' | 'reference'>,
  wanted: number,
): number {
  return 1 + leastCount((less) => countCusumRunLength(usual, { ...chart, decision: less + 1 }) >= wanted);
}
