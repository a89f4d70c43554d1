/** How far the shares were from the truth of simulated shifts: mean Brier score, 0 is perfect, 2 at worst. */
export interface SharesMeasured {
  readonly shifts: number;
  readonly rejects: number;
  readonly brier: number;
  /** What charging each reject to the one station of the line's file comes to. */
  readonly table: number;
}

/**
 * What the proof `attribution` measured with stations that tell of near misses and without, on the bundled line; it stands in
 * `tests/proof/attribution.ndjson`, and `tests/proof/rows.test.ts` holds this equal to it.
 */
export const SHARES_MEASURED: {
  readonly withNearMisses: SharesMeasured;
  readonly without: SharesMeasured;
} = {
  withNearMisses: { shifts: 32, rejects: 5908, brier: 0.144, table: 0.574 },
  without: { shifts: 32, rejects: 5908, brier: 0.455, table: 0.574 },
};
