import type { LineIndex } from '../../model/fold/lineIndex.ts';
import type { Instant } from '../../model/units/units.ts';
import type { Records } from '../records/records.ts';
import type { StoredLine, StoredTape } from '../tape/storedTape.ts';

/** What an export is taken from: the tape as it lies on the disk, and the records of the past. */
export interface ExportSource {
  readonly index: LineIndex;
  /** Of the model and the line's definition. */
  readonly version: string;
  readonly tape: StoredTape;
  /** The line on it as far as it went when the export began. */
  readonly stored: StoredLine;
  readonly records: Pick<Records, 'ask' | 'last' | 'first' | 'edition'>;
  /** Since when there is a gap that is not over; undefined where there is none. */
  readonly openGap: Instant | undefined;
  /** Positions of changes that are damaged on the disk and could not be read, as they are found. */
  readonly unread: { readonly from: number; readonly to: number }[];
  /** Up to when there can be anything. */
  readonly until: Instant;
}

/** A stretch of line time, half open. */
export interface Period {
  readonly from: Instant;
  readonly to: Instant;
}
