import type { MeasuredFor } from './accuracy.ts';

/** How far the shares were from the truth of simulated shifts: mean Brier score, 0 is perfect, 2 at worst. */
export interface SharesMeasured {
  readonly shifts: number;
  readonly rejects: number;
  readonly brier: number;
  /** What the shares of the line's file alone come to. */
  readonly byFile: number;
  /** What charging each reject to the one station of the line's file comes to. */
  readonly table: number;
}

/**
 * What the proof `attribution` measured, by what is seen of the bundled line; it stands in `tests/proof/attribution.ndjson`,
 * and `tests/proof/rows.test.ts` holds this equal to it.
 */
export const SHARES_MEASURED: Readonly<Record<MeasuredFor, SharesMeasured>> = {
  sensed: { shifts: 32, rejects: 5908, brier: 0.144, byFile: 0.452, table: 0.574 },
  unnamed: { shifts: 32, rejects: 5908, brier: 0.243, byFile: 0.569, table: 0.574 },
  file: { shifts: 32, rejects: 5908, brier: 0.452, byFile: 0.452, table: 0.574 },
  fileUnnamed: { shifts: 32, rejects: 5908, brier: 0.569, byFile: 0.569, table: 0.574 },
};
