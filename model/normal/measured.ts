import type { Rule } from './evidence.ts';

/** How often a rule called a station falsely that was in order. */
export interface Measured {
  /** Simulated shifts of one station each, and calls in them. */
  readonly stationShifts: number;
  readonly calls: number;
  /** So many shifts of a station to one false call, and between which numbers that lies with a confidence of 0.95 (exact). */
  readonly onceIn: number;
  readonly from: number;
  readonly to: number;
  /** The same in the family of levels in which it fared worst. */
  readonly worst: number;
}

/**
 * What the proof `normal` measured in shifts in order, over all its families of levels: it stands in `tests/proof/normal.ndjson`,
 * and `tests/proof/normal.test.ts` holds this equal to it.
 */
export const MEASURED: Readonly<Record<Rule, Measured>> = {
  run: { stationShifts: 13_539, calls: 15, onceIn: 903, from: 547, to: 1613, worst: 491 },
  drift: { stationShifts: 13_539, calls: 26, onceIn: 521, from: 355, to: 797, worst: 245 },
  stops: { stationShifts: 24_821, calls: 69, onceIn: 360, from: 284, to: 462, worst: 293 },
};

/** Shifts of the simulated line in which that was measured. */
export const MEASURED_SHIFTS = 2256;
