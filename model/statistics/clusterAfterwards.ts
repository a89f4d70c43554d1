import { binomialAtLeast, binomialPoint } from './binomial.ts';

/** The most moments, in rising order, that lie within any window (t − w, t], and the place of the one that ends it first. */
export function mostWithin(
  moments: readonly number[],
  window: number,
): { readonly count: number; readonly place: number } | undefined {
  let most: { count: number; place: number } | undefined;
  let first = 0;
  for (const [place, at] of moments.entries()) {
    while (moments[first]! <= at - window) first += 1;
    const count = place - first + 1;
    if (!most || count > most.count) most = { count, place };
  }
  return most;
}

export interface ClusterChance {
  readonly chance: number;
  /** False where the formula is an approximation: within a few hundredths where the chance is below a half, too high above. */
  readonly exact: boolean;
}

/**
 * After a shift with `all` stops: the chance that some window of `share` of its time held `count` of them or more, had they
 * come anywhere alike (Naus, Annals of Mathematical Statistics 1965, from memory). Exact for two stops, and for more than half
 * of all in a window of at most half the time. It asks of the whole shift, so it may be asked after having looked.
 */
export function clusterAfterwards(count: number, all: number, share: number): ClusterChance {
  if (count > all) return { chance: 0, exact: true };
  if (count <= 1) return { chance: 1, exact: true };
  if (count === 2) return { chance: 1 - Math.max(0, 1 - (all - 1) * share) ** all, exact: true };
  const exact = count > all / 2 && share <= 0.5;
  // of fewer than lie in any window on average some window is sure to have more; the formula falls apart there
  if (!exact && count < (all + 1) * share) return { chance: 1, exact };
  const tail = 2 * binomialAtLeast(count, all, share);
  return {
    chance: Math.min(1, tail + (count / share - all - 1) * binomialPoint(count, all, share)),
    exact,
  };
}
