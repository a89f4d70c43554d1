import type { EpochMs } from '../units/units.ts';

/** A piece of the tape as it is stored, and when it is of, as far as that is known. */
export interface Piece {
  readonly start: number;
  readonly count: number;
  readonly sealed: boolean;
  /** Least and greatest line time, in ticks; null where it is not known. */
  readonly at: readonly [number, number] | null;
  readonly bytes: number;
}

/** What a browser has to know to play a stretch of a line's tape by itself. */
export interface TapeStretch {
  /** Of the model and the line's definition: what was folded by another version is not gone on from. */
  readonly version: string;
  /** The line's definition, as `lineText` writes it. */
  readonly line: string;
  /** The line's signal, by its place, for each of the tape's own numbers. */
  readonly numbers: readonly (readonly [number, number])[];
  /** Positions of the oldest and after the newest change there is. */
  readonly begin: number;
  readonly end: number;
  /** Line time of the first and the newest there is; null where there is nothing yet. */
  readonly first: EpochMs | null;
  readonly now: EpochMs;
  /** By this position nothing of the stretch had come. */
  readonly start: number;
  /** The pieces of the stretch, and a little more than that. */
  readonly pieces: readonly Piece[];
  /** Pieces that came later and hold something of the stretch, or may do. */
  readonly later: readonly Piece[];
}

/** A state of the fold that lies before a position; null where folding begins at the beginning of the tape. */
export interface StateBefore {
  readonly position: number;
  readonly body: string | null;
}
