import type { Counted } from './evidence.ts';
import { levelsOf, spreadBy } from './levels.ts';
import { predicted } from './predicted.ts';
import type { Scatter } from './scatter.ts';
import { SETTINGS } from './settings.ts';
import { pastTooThin } from './sinceChangeover.ts';

/** What single batches bring that are as earlier runs were. */
export interface BatchLimit {
  /** Per carton, on average. */
  readonly mean: number;
  /** More than this in a batch of so many cartons is seldom. */
  readonly most: (cartons: number) => number;
}

/**
 * The line in the drawing of batches: as in the rules, the level of a run is one of those that earlier runs make likely, its
 * parts wander from that level, and batches vary more than by chance. A single batch above it is seldom, and no verdict: that is
 * what the rules are for, which look at all of a run. Undefined where the past is too thin.
 */
export function batchLimit(earlier: readonly Counted[], { uneven, spread }: Scatter): BatchLimit | undefined {
  const past = earlier.filter(({ of }) => of > 0);
  if (pastTooThin(past)) return undefined;
  const levels = spreadBy(levelsOf(past.slice(-SETTINGS.runsMost), 'rejects'), spread);
  const share = 1 - 2 / SETTINGS.batchOnceIn;
  const known = new Map<number, number>();
  return {
    mean: levels.mean,
    most: (cartons) => {
      const most = known.get(cartons) ?? predicted(levels, { of: cartons, uneven, share }).interval.upper;
      known.set(cartons, most);
      return most;
    },
  };
}
