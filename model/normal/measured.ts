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
  run: { stationShifts: 1, calls: 0, onceIn: 1, from: 1, to: 1, worst: 1 },
  drift: { stationShifts: 1, calls: 0, onceIn: 1, from: 1, to: 1, worst: 1 },
  stops: { stationShifts: 1, calls: 0, onceIn: 1, from: 1, to: 1, worst: 1 },
};

/** Shifts of the simulated line in which that was measured. */
export const MEASURED_SHIFTS = 1;
