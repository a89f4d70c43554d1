import { normalAbove } from './normal.ts';
import { binomialMass } from './saddlePoint.ts';

/** `count` of `trials` were of a kind: rejects of cartons. */
export interface Counted {
  readonly count: number;
  readonly trials: number;
}

/**
 * Two-sided chance that two shares which are truly one differ as these do or more, exact for any counts: given how many there
 * were in all, the first's part is hypergeometric (Fisher; R fisher.test). 1 where either has no trials or there were none.
 */
export function fisherExact(first: Counted, second: Counted): number {
  const all = first.count + second.count;
  const least = Math.max(0, all - second.trials);
  const most = Math.min(all, first.trials);
  const points: number[] = [];
  for (let k = least; k <= most; k += 1) points.push(hypergeometric(k, all, first.trials, second.trials));
  const seen = points[first.count - least]! * (1 + 1e-7);
  const rare = points.filter((point) => point <= seen).reduce((sum, point) => sum + point, 0);
  return Math.min(1, rare);
}

/** Chance that k of `all` fall among the first; in three binomial points with one share, which cancels. */
function hypergeometric(k: number, all: number, firstTrials: number, secondTrials: number): number {
  const trials = firstTrials + secondTrials;
  if (all === 0 || all === trials) return 1;
  const [p, q] = [all / trials, (trials - all) / trials];
  const both = binomialMass(k, firstTrials, p, q) * binomialMass(all - k, secondTrials, p, q);
  return both / binomialMass(all, trials, p, q);
}

export interface PooledTest {
  readonly pooled: number;
  readonly z: number;
  /** z², on one degree of freedom. */
  readonly chiSquare: number;
  /** Two-sided. */
  readonly chance: number;
}

/**
 * The normal approximation of the same comparison (R prop.test without correction): for large counts only, to be held beside.
 * Undefined where either has no trials or no variance.
 */
export function pooledTest(first: Counted, second: Counted): PooledTest | undefined {
  const pooled = (first.count + second.count) / (first.trials + second.trials);
  const variance = pooled * (1 - pooled) * (1 / first.trials + 1 / second.trials);
  if (!(variance > 0 && Number.isFinite(variance))) return undefined;
  const z = (first.count / first.trials - second.count / second.trials) / Math.sqrt(variance);
  return { pooled, z, chiSquare: z * z, chance: 2 * normalAbove(Math.abs(z)) };
}
