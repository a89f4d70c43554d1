import type { Change } from '../signals/signals.ts';

/** A saved state of the fold, after so many changes; `body` is a `SavedFold` as JSON. */
export interface Kept {
  readonly position: number;
  readonly body: string;
}

/** What folding again reads of a tape, wherever it lies: beside the gateway, or fetched by a browser. */
export interface TapeRead {
  /** Position of the oldest change. */
  begin(line: string): number;
  /** Position after the newest change. */
  end(line: string): number;
  /** Changes of positions [from, to) in order of arrival, in chunks, none of them empty. */
  read(line: string, from: number, to: number): AsyncIterable<readonly Change[]>;
  /** The furthest saved state of this version at or before a position. */
  nearest(line: string, position: number, version: string): Kept | undefined | Promise<Kept | undefined>;
}
