import { gaussLegendre } from './gaussLegendre.ts';
import { solve } from './linearSystem.ts';
import { normalAbove, normalBelow, normalDensity } from './normal.ts';

export interface Cusum {
  /** Sums of what lies above the target and below it, after each value; never below 0. */
  readonly high: readonly number[];
  readonly low: readonly number[];
  /** Place, from 0, of the first value at which either sum is `decision` or more. Undefined if none is. */
  readonly alarm: number | undefined;
}

/**
 * Cumulative sums around a target: each value adds what it is off by less the `reference`, half the change worth finding. It
 * calls where a sum reaches the `decision`: S ≥ h, which for counts differs by a third from S > h (NIST e-Handbook 6.3.2.3).
 */
export function cusum(values: readonly number[], target: number, reference: number, decision: number): Cusum {
  let [above, below] = [0, 0];
  const high: number[] = [];
  const low: number[] = [];
  for (const value of values) {
    above = Math.max(0, above + value - target - reference);
    below = Math.max(0, below + target - value - reference);
    high.push(above);
    low.push(below);
  }
  const first = high.findIndex((sum, place) => Math.max(sum, low[place]!) >= decision);
  return { high, low, alarm: first < 0 ? undefined : first };
}

/** Places of the quadrature: more change no digit that is shown. */
const PLACES = 60;

/**
 * How many normal values pass on average until a two-sided CUSUM calls, begun at 0, when their mean is off by `shift`; all in
 * standard deviations. Worked out by the integral equation of the run length (Page, Biometrika 1954), one side each.
 */
export function cusumRunLength(reference: number, decision: number, shift: number): number {
  const high = oneSided(reference, decision, shift);
  const low = oneSided(reference, decision, -shift);
  return 1 / (1 / high + 1 / low);
}

function oneSided(reference: number, decision: number, shift: number): number {
  const quadrature = gaussLegendre(PLACES, 0, decision);
  const nodes = [0, ...quadrature.nodes];
  // the sum stands at exactly 0 with a chance of its own, so 0 is a place beside those of the quadrature
  const chance = (from: number, to: number, column: number) =>
    column === 0
      ? normalBelow(reference - from - shift)
      : quadrature.weights[column - 1]! * normalDensity(to + reference - from - shift);
  const rows = nodes.map((from, row) =>
    nodes.map((to, column) => (row === column ? 1 : 0) - chance(from, to, column)),
  );
  return solve(
    rows,
    nodes.map(() => 1),
  )[0]!;
}

/** How many normal values pass on average until one is `width` standard deviations off, on either side. */
export function shewhartRunLength(width: number, shift: number): number {
  return 1 / (normalAbove(width - shift) + normalAbove(width + shift));
}
