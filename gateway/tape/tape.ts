import type { Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';
import type { Span } from './spans.ts';

/** A saved state of the fold, stamped with the version of the model that made it. */
export interface Checkpoint {
  /** It stands until the next one of the line is kept at its position or later, for a quick restart; else it is kept for good. */
  readonly passing?: boolean;
  /** The state after this many changes. */
  readonly position: number;
  readonly version: string;
  readonly body: string;
}

/** A stretch of the tape as it is stored: a sealed segment, or (`sealed` false) the open end after the last one. */
export interface StoredPiece {
  readonly start: number;
  readonly count: number;
  readonly sealed: boolean;
  /** Least and greatest line time of its changes, entries included; undefined where it is damaged or not worked out yet. */
  readonly at: Span | undefined;
  /** The same of when they were received. */
  readonly received: Span | undefined;
  /** As stored. */
  readonly bytes: number;
}

/** Changes that follow one another on the tape, and where they are. */
export interface Placed {
  readonly changes: readonly Change[];
  /** Positions [from, next) are those of the changes, and of what is left out between them. */
  readonly from: number;
  readonly next: number;
  /** Position of each; left out where there is one for each of them. */
  readonly positions?: readonly number[];
}

/** The position after one of them. */
export function positionAfter({ from, positions }: Placed, place: number): number {
  return (positions?.[place] ?? from + place) + 1;
}

/** A stretch of the tape that cannot be read. */
export interface Damage {
  /** [from, to). */
  readonly positions: { readonly from: number; readonly to: number };
  /** Line time from what came before it to its end; undefined where nobody knows. */
  readonly at: { readonly from: Instant; readonly to: Instant } | undefined;
}

/** A history that is on the disk, and no line's yet: by which number of a line it is found there, and how long it is. */
export interface HiddenHistory {
  readonly number: number;
  readonly count: number;
}

/**
 * The append-only record of every signal change and human entry, line by line, in order of arrival. A position counts
 * changes: position p lies after the first p of them, and stays theirs for good. A history that is brought in later lies
 * before them, below 0.
 *
 * Signals are stored by a number of the tape's own, one for each id ever seen, so a changed line file keeps the
 * meaning of what was recorded. Changes of signals that the line no longer has are left out when read, and keep their
 * positions: a chunk may then hold fewer changes than the positions it covers, and what was read up to is told by the
 * range asked for, never by counting. When the signal comes back into the file, so do they.
 *
 * Trouble that a person can mend (disk full, read-only, damaged) is a `LineError`; after one, the tape holds exactly
 * what it held before the call.
 */
export interface Tape {
  /** Records changes in the order given, all or none; they are durable when it resolves. Answers the position after them. */
  append(line: string, changes: readonly Change[]): Promise<number>;
  /**
   * Changes of positions [from, to) in order of arrival, in chunks of the tape's choosing, none of them empty. What is
   * appended after reading began is not among them. Other work gets its turn between chunks, and appends go on.
   * Where a stretch cannot be read, what stands for it: its time is unknown (`model/tape/standIn.ts`).
   */
  read(line: string, from: number, to: number): AsyncIterable<readonly Change[]>;
  /** The same, and where each of them is; also chunks of which all is left out. */
  placed(line: string, from: number, to: number): AsyncIterable<Placed>;
  /** Position of the oldest change: 0; less where a history was brought in before it, more where its beginning was taken away. */
  begin(line: string): number;
  /** Position after the newest change. */
  end(line: string): number;
  /** Pieces that hold positions of [from, to), in order; nothing is opened for it. */
  pieces(line: string, from: number, to: number): readonly StoredPiece[];
  /**
   * The bytes of the piece that begins at `start`, a zlib stream of what `model/tape/codec.ts` writes: those of a sealed one
   * exactly as they are stored, those of the open end made the same way. Its signals are the tape's own numbers.
   * Undefined where no piece begins there.
   */
  pieceBytes(line: string, start: number): Uint8Array | undefined;
  /**
   * What is folded in place of the sealed piece that begins at `start` by whoever cannot open it, in the same form: what `read`
   * gives where the piece is damaged. Undefined where no sealed piece begins there.
   */
  standInBytes(line: string, start: number): Uint8Array | undefined;
  /** The signal of the line, by its place in the line's file, for each of the tape's own numbers; without those it no longer has. */
  numbersOf(line: string): ReadonlyMap<number, number>;
  /**
   * Tells the newest position soon after it is beyond `after`, and then after further appends; never within a call of
   * this interface, and once for several appends where they come close together. The answer ends it.
   */
  follow(line: string, after: number, tell: (position: number) => void): () => void;
  /** What is known to be damaged, in order: what was found when it was read. */
  damages(line: string): readonly Damage[];
  /** Keeps a saved state. */
  keep(line: string, checkpoint: Checkpoint): Promise<void>;
  /**
   * Keeps a state of a history that is being brought in: its position counts the history's changes. It stands or falls with
   * the history.
   */
  keepBefore(line: string, checkpoint: Checkpoint): Promise<void>;
  /** Drops the saved states of all versions but this one: they have been made anew. */
  keepOnly(line: string, version: string): Promise<void>;
  /** The furthest saved state of this version at or before a position. One that is damaged is passed over: it can be made again. */
  nearest(
    line: string,
    position: number,
    version: string,
  ): { readonly position: number; readonly body: string } | undefined;
  /** Positions of [from, to) at which states of this version are saved, ascending. */
  checkpoints(line: string, version: string, from: number, to: number): readonly number[];
  /**
   * Takes away for good what lies before a position, where a sealed segment begins. Positions of what stays are the same, and
   * `begin` answers this one; saved states before it are gone.
   */
  dropBefore(line: string, position: number): void;
  /**
   * Appends a long history, durable when it resolves, and gives the same stored bytes as appending it chunk by chunk.
   * Where it fails on its way, a beginning of it may stand; `end` says how much. Appends to the line wait for it.
   */
  importSealed(
    line: string,
    changes: AsyncIterable<readonly Change[]> | Iterable<readonly Change[]>,
  ): Promise<number>;
  /**
   * Brings a history in that lies before all that a line's tape holds; appends go on meanwhile. It has the positions below
   * those of the line, all of it at once when this resolves, and nothing of it where it fails or `chunks` throws. `check` is
   * called when all of it is on the disk and none of it is the line's yet; where that throws, nothing of it stays either.
   * Saved states are gone then, as they were without it, and those of the history stand. Answers the position of its first
   * change.
   */
  importBefore(
    line: string,
    chunks: AsyncIterable<readonly Change[]> | Iterable<readonly Change[]>,
    check?: (hidden: HiddenHistory) => Promise<void>,
  ): Promise<number>;
  /** Ends it, after imports that are under way. Nothing may be asked of it afterwards; a second call does nothing. */
  close(): Promise<void>;
}
