import { assert } from '../trouble/trouble.ts';
import { leastCount } from './leastCount.ts';
import { poissonAtLeast, poissonAtMost, poissonPoint } from './poisson.ts';

/*
 * "So many stops at one station within so many minutes": how often that comes by chance alone. The window is (t − w, t]; the
 * rule is met by the stop that brings the count in it to `count`. Rates and windows are of one unit of time, best of running
 * time: a line that stands has no stops. For S stations of one rate multiply by S.
 */
export interface ScanRule {
  /** Stops in one unit of time when nothing is wrong. */
  readonly rate: number;
  readonly window: number;
  /** Stops within the window that make a call; 1 or more. */
  readonly count: number;
}

/** New calls in one unit of time, exactly: the count climbs to the rule's from below, and may do so again after it fell. */
export function newAlarmRate({ rate, window, count }: ScanRule): number {
  return rate * poissonPoint(count - 1, rate * window);
}

/** Stops in one unit of time that find the rule met, exactly: the calls of a rule that is told at every such stop. */
export function metRate({ rate, window, count }: ScanRule): number {
  return rate * poissonAtLeast(count - 1, rate * window);
}

/**
 * The least count of at least 2, above the usual one, with at most `wanted` new calls in one unit of time: the rule that
 * follows from the calls somebody is willing to have.
 */
export function smallestCount(rate: number, window: number, wanted: number): number {
  assert(wanted > 0, 'a rule that never calls');
  // below the usual count a rule is met nearly always, and so is new seldom: that is no rule
  const usual = Math.max(2, Math.floor(rate * window) + 1);
  return usual + leastCount((more) => newAlarmRate({ rate, window, count: usual + more }) <= wanted);
}

/** Chances that the rule is not met within two windows, and three, exactly (Naus 1982, from memory; tried by simulation). */
function quiet({ rate, window, count: k }: ScanRule): { readonly two: number; readonly three: number } {
  const psi = rate * window;
  const point = (j: number) => poissonPoint(j, psi);
  const upTo = (j: number) => poissonAtMost(j, psi);
  const two = upTo(k - 1) ** 2 - (k - 1) * point(k) * point(k - 2) - (k - 1 - psi) * point(k) * upTo(k - 3);
  const a1 = 2 * point(k) * upTo(k - 1) * ((k - 1) * upTo(k - 2) - psi * upTo(k - 3));
  const a2 =
    0.5 *
    point(k) ** 2 *
    ((k - 1) * (k - 2) * upTo(k - 3) - 2 * (k - 2) * psi * upTo(k - 4) + psi * psi * upTo(k - 5));
  let three = upTo(k - 1) ** 3 - a1 + a2;
  for (let r = 1; r < k; r += 1) {
    three += point(2 * k - r) * upTo(r - 1) ** 2;
    if (r > 1) three -= point(2 * k - r) * point(r) * ((r - 1) * upTo(r - 2) - psi * upTo(r - 3));
  }
  return { two, three };
}

/**
 * Chance that the rule is met at least once in `span`, begun with an empty window: Naus's product (Journal of the American
 * Statistical Association 1982), exact for spans of two and three windows and very near beyond. Undefined for spans shorter
 * than two windows.
 */
export function chanceOfCluster(rule: ScanRule, span: number): number | undefined {
  const windows = span / rule.window;
  if (!(windows >= 2)) return undefined;
  const { two, three } = quiet(rule);
  return 1 - two * (three / two) ** (windows - 2);
}

/** How long it takes on average from one cluster to the next, by the same product: w / ln(Q2/Q3). */
export function timeBetweenClusters(rule: ScanRule): number {
  const { two, three } = quiet(rule);
  return rule.window / Math.log(two / three);
}

/** Chance that two stops come within a window of each other at least once in `span`, exactly. */
export function chanceOfPair(rate: number, window: number, span: number): number {
  let apart = 0;
  for (let stops = 0; ; stops += 1) {
    const room = span - (stops - 1) * window;
    if (room <= 0) return 1 - apart;
    // so many stops, each two a window apart: as if there were no windows, in what room those leave
    apart += poissonPoint(stops, rate * room) * Math.exp(rate * (room - span));
  }
}
