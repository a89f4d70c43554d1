import { type Counted, type EarlierRun, totalOf } from './evidence.ts';
import { SETTINGS } from './settings.ts';

/** How unevenly rejects come within runs, and how far a part of one is from its level, as earlier runs tell. */
export interface Scatter {
  readonly uneven: number;
  readonly spread: number;
}

export function scatterOf(earlier: readonly Pick<EarlierRun, 'batches' | 'halves'>[]): Scatter {
  const uneven = unevenness(earlier.map(({ batches }) => batches));
  const halves = earlier.flatMap((run) => (run.halves ? [run.halves] : []));
  return { uneven, spread: wander(halves, uneven) };
}

/**
 * How many times as much as by chance batches of one run vary around that run's own level: Pearson's statistic over all runs,
 * to its degrees of freedom. Never below 1; few batches leave it near what is assumed first.
 */
export function unevenness(runs: readonly (readonly Counted[])[]): number {
  let [pearson, degrees] = [0, 0];
  for (const batches of runs) {
    const { count, of } = totalOf(batches);
    if (batches.length < 2 || count === 0) continue;
    const rate = count / of;
    for (const one of batches) {
      const mean = rate * one.of;
      pearson += (one.count - mean) ** 2 / (mean * (1 - rate));
    }
    degrees += batches.length - 1;
  }
  const { unevenFirst, unevenWeight } = SETTINGS;
  return Math.max(1, (pearson + unevenWeight * unevenFirst) / (degrees + unevenWeight));
}

/**
 * How far the second half of a run is from its first one, as a standard deviation of the logarithm, beyond what chance explains:
 * by moments over all runs (what the difference of two Poisson counts squares to is taken off). `uneven` is how much more than
 * by chance their batches vary.
 */
export function wander(runs: readonly (readonly [Counted, Counted])[], uneven: number): number {
  let [apart, both] = [0, 0];
  for (const [first, second] of runs) {
    const chance = uneven * (second.of ** 2 * first.count + first.of ** 2 * second.count);
    apart += (first.count * second.of - second.count * first.of) ** 2 - chance;
    both += first.of * second.of * first.count * second.count;
  }
  const { wanderFirst, wanderWeight } = SETTINGS;
  const seen = both > 0 ? runs.length : 0;
  const found = both > 0 ? Math.max(0, apart / both) : 0;
  return Math.sqrt((seen * found + wanderWeight * wanderFirst ** 2) / (seen + wanderWeight));
}
