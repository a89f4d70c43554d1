import { gaussLegendre } from './gaussLegendre.ts';
import { solve } from './linearSystem.ts';
import { normalDensity } from './normal.ts';

/** The exponentially weighted mean after each value: `weight` (0 to 1) of it and the rest of what was before. */
export function ewma(values: readonly number[], weight: number, start: number): number[] {
  let mean = start;
  return values.map((value) => {
    mean = weight * value + (1 - weight) * mean;
    return mean;
  });
}

/**
 * How far from the centre the mean may be: `width` standard deviations of it. Without `after` the fixed limit (NIST e-Handbook
 * 6.3.2.4); with it the exact one after so many values, which is narrower at first.
 */
export function ewmaLimit(deviation: number, weight: number, width: number, after = Infinity): number {
  const settled = 1 - (1 - weight) ** (2 * after);
  return width * deviation * Math.sqrt((weight / (2 - weight)) * settled);
}

/** Places of the quadrature: more change no digit that is shown, for weights from 0.05 on. */
const PLACES = 60;

/**
 * How many values pass on average until an EWMA of normal values with fixed limits of `width` calls, begun at the centre, when
 * their mean is off by `shift` standard deviations. Worked out by the integral equation of the run length (Crowder,
 * Technometrics 1987), not quoted: widths are often quoted with run lengths that are not theirs.
 */
export function ewmaRunLength(weight: number, width: number, shift: number): number {
  const limit = ewmaLimit(1, weight, width);
  const { nodes, weights } = gaussLegendre(PLACES, -limit, limit);
  const chanceOf = (from: number, to: number) =>
    normalDensity((to - (1 - weight) * from) / weight - shift) / weight;
  const rows = nodes.map((from, row) =>
    nodes.map((to, column) => (row === column ? 1 : 0) - weights[column]! * chanceOf(from, to)),
  );
  const lengths = solve(
    rows,
    nodes.map(() => 1),
  );
  return lengths.reduce(
    (sum, length, place) => sum + weights[place]! * length * chanceOf(0, nodes[place]!),
    1,
  );
}
