/** Between which values something lies, with a stated confidence. */
export interface Interval {
  readonly lower: number;
  /** Infinity where nothing bounds it. */
  readonly upper: number;
}
