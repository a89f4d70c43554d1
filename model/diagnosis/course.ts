import { gammaQuantile } from '../statistics/gamma.ts';
import { logGamma } from '../statistics/logGamma.ts';
import type { Instant } from '../units/units.ts';
import type { Cell, ReasonUsual } from './troubled.ts';
import { ALIKE_UNKNOWN, CLUMP } from './weights.ts';

/** How much of the trouble is there in each cell: 0 before it began, 1 when it is all there. */
export type Shape = readonly number[];

/** How many times the usual came on top of it, at its full size: every explanation weighs each of them. */
export const EXCESS = [0.3, 0.5, 0.8, 1.3, 2, 3.2, 5, 8, 13, 21] as const;
const LEVELS = 7;

/** What came in each cell, and what is usual there, over the reasons that count. */
export interface Course {
  readonly seen: readonly number[];
  readonly usual: readonly number[];
  /** Levels that a run may have, all as likely: a run is good or bad as a whole. */
  readonly levels: readonly number[];
  /** The part of the logarithm that is the same whatever explains it. */
  readonly constant: number;
}

export function courseOf(
  cells: readonly Cell[],
  reasons: readonly ReasonUsual[],
  alike: number | undefined,
): Course {
  const rate = reasons.reduce((sum, { usual }) => sum + usual, 0);
  const shape = alike ?? ALIKE_UNKNOWN;
  const seen = cells.map(({ counts }) => counts.reduce((sum, count) => sum + count, 0));
  const usual = cells.map(({ cartons }) => Math.max(1e-6, cartons * rate));
  return {
    ...{ seen, usual },
    constant: seen.reduce((sum, count, nth) => sum + count * Math.log(usual[nth]!) - logGamma(count + 1), 0),
    levels: Array.from({ length: LEVELS }, (_, nth) => gammaQuantile((nth + 0.5) / LEVELS, shape, shape)),
  };
}

/** The logarithm of how likely this course is with so much trouble of this shape, for each excess. */
export function logOfCourse(course: Course, shape: Shape): readonly number[] {
  return EXCESS.map((excess) => logOfExcess(course, shape, excess));
}

/** The same with no trouble at all. */
export function logOfNothing(course: Course): number {
  return logOfExcess(course, [], 0);
}

/** Counts clump, so that their logarithm is divided by how much they do. */
function logOfExcess({ seen, usual, levels, constant }: Course, shape: Shape, excess: number): number {
  return logMean(
    levels.map((level) => {
      let sum = constant;
      for (let cell = 0; cell < seen.length; cell += 1) {
        const times = level + excess * (shape[cell] ?? 0);
        sum += seen[cell]! * Math.log(times) - usual[cell]! * times;
      }
      return sum / CLUMP;
    }),
  );
}

/** There at once, all of it, from a moment on. */
export function stepFrom(cells: readonly Cell[], at: Instant): Shape {
  return cells.map(({ from, to }) => Math.min(1, Math.max(0, (to - at) / Math.max(1, to - from))));
}

/** Creeping up from a cell on: evenly, or the faster the further it is. */
export function creepFrom(cells: readonly Cell[], first: number, power: 1 | 2): Shape {
  const whole = cells.length - first;
  return cells.map((_, cell) => Math.max(0, (cell + 1 - first) / whole) ** power);
}

/** The cell from which the course speaks most for trouble: what came from there on is what has to be explained. */
export function likelyBeginning(course: Course): number {
  let [best, most] = [0, -Infinity];
  for (let first = 0; first < course.seen.length; first += 1) {
    const shape = course.seen.map((_, cell) => (cell < first ? 0 : 1));
    const log = logMean(logOfCourse(course, shape));
    if (log > most) [best, most] = [first, log];
  }
  return best;
}

/** The logarithm of the mean of what these are logarithms of. */
export function logMean(logs: readonly number[]): number {
  return logSum(logs) - Math.log(logs.length);
}

export function logSum(logs: readonly number[]): number {
  const most = logs.reduce((a, b) => Math.max(a, b), -Infinity);
  if (most === -Infinity) return -Infinity;
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}
