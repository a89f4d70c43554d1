import type { DatumWhy, Fitted } from '../entries/sheetEntries.ts';
import type { Author } from '../entries/entries.ts';
import type { Instant } from '../units/units.ts';
import type { ChangeoverKind } from './state.ts';

/** How a number is known that people said: confirmed as the book's is weaker than typed. */
export type SaidHow = 'typed' | 'readBack' | 'confirmed';

/** [SP1] What people said last of where an adjustment stands, under which datum; and what was said before, if it is taken back. */
export interface SettingRecord {
  adjustment: string;
  value: number;
  how: SaidHow;
  /** [SP10] What its scale read before; null where nobody said. */
  found: number | null;
  at: Instant;
  entry: string;
  author: Author;
  datum: number;
  before: Omit<SettingRecord, 'before'> | null;
}

/** [SP5] A sensor read another number: `from` before its first change, `to` after the newest; one move while it keeps changing. */
export interface MoveRecord {
  adjustment: string;
  begin: Instant;
  end: Instant;
  from: number | null;
  to: number;
  datum: number;
}

/** [SP4] What runs from a moment on: the lot of board, or change parts. `step`: which of them; null for a lot and for the whole set. */
export interface FittedRecord {
  what: Fitted;
  step: string | null;
  name: string;
  at: Instant;
  /** Null where the PLC told it. */
  said: { entry: string; author: Author } | null;
}

/** [SP3] The datum of an adjustment's numbers: 1 until it is re-zeroed or a part replaced. `offset` from the datum before. */
export interface DatumRecord {
  adjustment: string;
  datum: number;
  at: Instant;
  why: DatumWhy;
  words: string | null;
  entry: string;
  author: Author;
  offset: number | null;
}

/** [BK1] A number that a person approved for a size, beside the one of the line's file. */
export interface BookRecord {
  size: string;
  adjustment: string;
  value: number | null;
  at: Instant;
  entry: string;
  author: Author;
}

/** [SP6] Where an adjustment stood when the newest run of a size ended that had come to its rate. */
export interface RanAtRecord {
  size: string;
  adjustment: string;
  value: number;
  how: SaidHow | 'sensor';
  at: Instant;
}

/** [SH1] The sheet of a changeover, from its beginning until all is done and the line is at rate, or somebody closes it. */
export interface SheetRecord {
  id: string;
  kind: ChangeoverKind;
  size: string;
  from: string | null;
  begin: Instant;
  /** Null where the PLC told of the changeover first. */
  author: Author | null;
  /** When the PLC's changeover began that it belongs to; null as long as there is none. */
  changeover: Instant | null;
  atRate: Instant | null;
  /** Where each adjustment stood when it began. */
  was: { adjustment: string; value: number; how: SaidHow | 'sensor' }[];
  /** [SH2] Other names of it: begun by a screen that had not heard of it, or told by the PLC of one that a person began. */
  alsoBegun: string[];
  /** Newest for each step. */
  done: StepRecord[];
  handed: { at: Instant; author: Author; words: string | null }[];
  ended: {
    at: Instant;
    how: 'done' | 'closed' | 'replaced';
    author: Author | null;
    why: string | null;
  } | null;
}

/** [SH10] A sheet that ended before the newest one began. */
export interface SheetBefore
  extends Pick<SheetRecord, 'id' | 'alsoBegun' | 'kind' | 'size' | 'atRate' | 'ended'> {
  /** The one that took its place; null where it had ended by then. `author`: null where the PLC told of the size. */
  by: Pick<SheetRecord, 'kind' | 'size' | 'author'> | null;
}

export interface StepRecord {
  step: string;
  at: Instant;
  author: Author;
  entry: string;
  well: boolean;
  words: string | null;
  /** Of a number. */
  value: number | null;
  how: SaidHow | null;
  /** [SP10] */
  found: number | null;
}
