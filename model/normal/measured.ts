import type { Rule } from './evidence.ts';

/** How often a rule called a station falsely that was in order: once in so many of its shifts. */
export interface Seldom {
  readonly onceIn: number;
  /**
   * Between which numbers that lies with a confidence of 0.95: exact for calls that come one by one, and wider by as much as
   * they varied more from one simulated line to another.
   */
  readonly from: number;
  readonly to: number;
}

export interface Measured extends Seldom {
  /** Simulated shifts of one station each, and calls in them. */
  readonly stationShifts: number;
  readonly calls: number;
  /** The same in that kind of line and family of levels in which it fared worst. */
  readonly worst: Seldom;
}

/**
 * What the proof `normal` measured in shifts in order, over all its lines and families of levels: it stands in
 * `tests/proof/normal.ndjson`, and `tests/proof/normal.test.ts` holds this equal to it.
 */
export const MEASURED: Readonly<Record<Rule, Measured>> = {
  run: {
    stationShifts: 23_522,
    calls: 35,
    onceIn: 672,
    from: 425,
    to: 1135,
    worst: { onceIn: 137, from: 77, to: 274 },
  },
  drift: {
    stationShifts: 23_522,
    calls: 28,
    onceIn: 840,
    from: 568,
    to: 1302,
    worst: { onceIn: 251, from: 107, to: 777 },
  },
  stops: {
    stationShifts: 48_457,
    calls: 66,
    onceIn: 734,
    from: 577,
    to: 949,
    worst: { onceIn: 387, from: 197, to: 897 },
  },
};

/** Shifts of simulated lines in which that was measured. */
export const MEASURED_SHIFTS = 4405;

/** How seldom a single batch lay above its line in the same shifts, in all and at worst. */
export const BATCHES_MEASURED = { batches: 1_976_658, above: 540, onceIn: 3660, worst: 1522 } as const;

/** Of simulated lines in which a station spoiled so many times as many from a moment on, how many any rule found within three runs. */
export const FOUND_MEASURED = { of: 20, twice: 4, threeTimes: 15 } as const;
