import { levelsOf } from '../normal/levels.ts';
import { SETTINGS } from '../normal/settings.ts';
import type { EarlierStops } from './repeated.ts';

/** A rate per carton that differs from run to run, as a gamma distribution: mean `shape / cartons`. */
export interface Level {
  readonly shape: number;
  readonly cartons: number;
}

/** What a station is like with a size, as its earlier runs tell. */
export interface UsualStops {
  readonly stops: Level;
  readonly rejects: Level | undefined;
  /** Tries that went wrong again, and those that did not, as a beta distribution. */
  readonly again: { readonly yes: number; readonly no: number };
}

export interface PastNeeded {
  readonly runs: number;
  readonly cartons: number;
}

export const NEEDED: PastNeeded = { runs: SETTINGS.earlierRuns, cartons: SETTINGS.earlierCartons };

/** Before any was seen, one try in six goes wrong again, as if from six; no past is taken to know it better than so many do. */
const AGAIN_FIRST = { yes: 1, no: 5 };
const AGAIN_MOST = 60;

/** What was worked out of a past, for as long as somebody has that past: a run asks for it again and again. */
const known = new WeakMap<readonly EarlierStops[], { readonly usual: UsualStops | undefined }>();

/** Undefined where the past is too thin. */
export function usualStops(earlier: readonly EarlierStops[]): UsualStops | undefined {
  const found = known.get(earlier) ?? { usual: usualAnew(earlier) };
  known.set(earlier, found);
  return found.usual;
}

function usualAnew(earlier: readonly EarlierStops[]): UsualStops | undefined {
  const past = earlier.filter(({ of }) => of > 0);
  if (past.length < NEEDED.runs || cartonsOf(past) < NEEDED.cartons) return undefined;
  const newest = past.slice(-SETTINGS.runsMost);
  const rejects = newest.flatMap(({ rejects: count, of }) => (count === undefined ? [] : [{ count, of }]));
  return {
    stops: levelOf(
      newest.map(({ stops, of }) => ({ count: stops, of })),
      'stops',
    ),
    rejects: rejects.length === newest.length ? levelOf(rejects, 'rejects') : undefined,
    again: againOf(newest),
  };
}

export function cartonsOf(past: readonly EarlierStops[]): number {
  return past.reduce((sum, { of }) => sum + of, 0);
}

/**
 * The gamma distribution with the mean and variance of the levels that earlier runs leave possible: both how far runs differ and
 * how little is known of it make it wide, so a thin past calls later than a long one of the same rate.
 */
function levelOf(
  runs: readonly { readonly count: number; readonly of: number }[],
  kind: 'stops' | 'rejects',
): Level {
  const { rates, chances, mean } = levelsOf(runs, kind);
  const variance = rates.reduce((sum, rate, place) => sum + chances[place]! * (rate - mean) ** 2, 0);
  const shape = mean ** 2 / variance;
  return { shape, cartons: shape / mean };
}

function againOf(past: readonly EarlierStops[]): UsualStops['again'] {
  const told = past.filter(({ retries }) => retries !== undefined);
  const yes = AGAIN_FIRST.yes + told.reduce((sum, { retries }) => sum + retries!, 0);
  const no = AGAIN_FIRST.no + told.reduce((sum, { stops }) => sum + stops, 0);
  const kept = Math.min(1, AGAIN_MOST / (yes + no));
  return { yes: kept * yes, no: kept * no };
}
