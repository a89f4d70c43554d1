import type { Database, Statement } from 'better-sqlite3';
import type { Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';
import { statement } from './database.ts';
import { type Span, Spans } from './spans.ts';
import type { StoredPiece } from './tape.ts';

interface Row {
  readonly start: number;
  readonly count: number;
  readonly bytes: number;
  readonly atLeast: number | null;
  readonly atMost: number | null;
  readonly receivedLeast: number | null;
  readonly receivedMost: number | null;
}

/** A sealed segment of any line. */
export interface SegmentPlace {
  readonly line: number;
  readonly start: number;
}

/**
 * What is told of sealed segments without opening them: where they lie, how large they are, and when. It stands beside
 * them, in a table of its own, so that years of it are read without touching what they hold.
 */
export class SegmentIndex {
  private readonly insert: Statement<unknown[]>;
  private readonly within: Statement<[number, number, number, number, number], Row>;
  private readonly unknown: Statement<[], SegmentPlace>;
  private readonly update: Statement<unknown[]>;
  private readonly moved: Statement<[number, number, number]>;
  private readonly gone: Statement<[number]>;

  constructor(database: Database) {
    this.insert = statement(
      database,
      `INSERT INTO span (line, start, count, bytes, at_least, at_most, received_least, received_most)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    // the segment that holds `from` begins before it: the last that begins there or before
    this.within = statement(
      database,
      `SELECT start, count, bytes, at_least AS atLeast, at_most AS atMost, received_least AS receivedLeast,
         received_most AS receivedMost
       FROM span WHERE line = ? AND start < ?
         AND start >= ifnull((SELECT max(start) FROM span WHERE line = ? AND start <= ?), ?)
       ORDER BY start`,
    );
    this.unknown = statement(
      database,
      `SELECT line, start FROM span WHERE at_least IS NULL AND damaged = 0 AND line > 0
       ORDER BY start DESC LIMIT 1`,
    );
    this.update = statement(
      database,
      `UPDATE span SET at_least = ?, at_most = ?, received_least = ?, received_most = ?, damaged = ?
       WHERE line = ? AND start = ?`,
    );
    this.moved = statement(database, 'UPDATE span SET line = ?, start = start + ? WHERE line = ?');
    this.gone = statement(database, 'DELETE FROM span WHERE line = ?');
  }

  add({ line, start }: SegmentPlace, changes: readonly Change[], bytes: number): void {
    this.insert.run(line, start, changes.length, bytes, ...columnsOf(changes));
  }

  /** Those that hold positions of [from, to), in order. */
  pieces(line: number, from: number, to: number): StoredPiece[] {
    if (from >= to) return [];
    return this.within
      .all(line, to, line, from, from)
      .filter(({ start, count }) => start + count > from)
      .map(({ start, count, bytes, atLeast, atMost, receivedLeast, receivedMost }) => ({
        start,
        count,
        sealed: true,
        at: spanOf(atLeast, atMost),
        received: spanOf(receivedLeast, receivedMost),
        bytes,
      }));
  }

  /** The newest segment that an older version wrote without saying when, and that is not known to be damaged. */
  untimed(): SegmentPlace | undefined {
    return this.unknown.get();
  }

  /** Says when a segment is; one that cannot be opened is damaged, and is not looked at again for that. */
  time({ line, start }: SegmentPlace, changes: readonly Change[] | undefined): void {
    this.update.run(...columnsOf(changes ?? []), changes ? 0 : 1, line, start);
  }

  /** Gives a line's segments to another one, so much later. */
  move(from: number, to: number, by: number): void {
    this.moved.run(to, by, from);
  }

  clear(line: number): void {
    this.gone.run(line);
  }
}

function columnsOf(changes: readonly Change[]): (number | null)[] {
  const { at, received } = new Spans().add(changes);
  return [at?.least ?? null, at?.most ?? null, received?.least ?? null, received?.most ?? null];
}

function spanOf(least: number | null, most: number | null): Span | undefined {
  return least === null || most === null ? undefined : { least: least as Instant, most: most as Instant };
}
