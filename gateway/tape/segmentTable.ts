import type { Database, Statement } from 'better-sqlite3';
import type { Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';
import { statement } from './database.ts';
import { LastValues } from './lastValues.ts';
import { seal } from './segments.ts';
import { BEFORE_ALL, type Span, Spans } from './spans.ts';
import type { StoredPiece } from './tape.ts';

/** A sealed segment as it is stored. */
export interface SegmentRow {
  readonly start: number;
  readonly count: number;
  readonly body: Buffer;
}

interface SpanRow {
  readonly start: number;
  readonly count: number;
  readonly bytes: number;
  readonly atLeast: number | null;
  readonly atMost: number | null;
  readonly receivedLeast: number | null;
  readonly receivedMost: number | null;
  readonly damaged: number;
}

/** A sealed segment of any line. */
export interface SegmentPlace {
  readonly line: number;
  readonly start: number;
}

/** What is told of a segment without opening it. */
export interface SegmentSpan extends StoredPiece {
  /** It was looked into, and could not be opened. */
  readonly damaged: boolean;
}

/**
 * Sealed segments of all lines. What is told of one without opening it, where it lies, how large it is, and when, stands
 * beside it in a table of its own, so that years of it are read without touching what they hold; and in another what each
 * signal had told last at its end.
 */
export class SegmentTable {
  private readonly insert: Statement<[number, number, number, Buffer]>;
  private readonly insertSpan: Statement<unknown[]>;
  private readonly insertLast: Statement<[number, number, Buffer]>;
  private readonly bodyAt: Statement<[number, number], SegmentRow>;
  private readonly lastAt: Statement<[number, number], Buffer>;
  private readonly ends: Statement<[number], { readonly start: number; readonly count: number }>;
  private readonly begins: Statement<[number], number>;
  private readonly nextStart: Statement<[number, number], number>;
  private readonly within: Statement<[number, number, number, number, number], SpanRow>;
  private readonly timed: Readonly<Record<'before' | 'after', Statement<[number, number], SpanRow>>>;
  private readonly broken: Statement<[number], SpanRow>;
  private readonly unknown: Statement<[], SegmentPlace>;
  private readonly update: Statement<unknown[]>;
  private readonly moved: readonly Statement<[number, number, number]>[];
  private readonly gone: readonly Statement<[number]>[];
  private readonly goneBefore: readonly Statement<[number, number]>[];

  constructor(database: Database) {
    const span = `SELECT start, count, bytes, at_least AS atLeast, at_most AS atMost, received_least AS receivedLeast,
      received_most AS receivedMost, damaged FROM span WHERE line = ?`;
    this.insert = statement(database, 'INSERT INTO segment (line, start, count, body) VALUES (?, ?, ?, ?)');
    this.insertSpan = statement(
      database,
      `INSERT INTO span (line, start, count, bytes, at_least, at_most, received_least, received_most, damaged)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    this.insertLast = statement(database, 'INSERT INTO last (line, start, body) VALUES (?, ?, ?)');
    this.bodyAt = statement(
      database,
      'SELECT start, count, body FROM segment WHERE line = ? AND start <= ? ORDER BY start DESC LIMIT 1',
    );
    this.lastAt = statement<[number, number], Buffer>(
      database,
      'SELECT body FROM last WHERE line = ? AND start = ?',
    ).pluck();
    this.ends = statement(
      database,
      'SELECT start, count FROM segment WHERE line = ? ORDER BY start DESC LIMIT 1',
    );
    this.begins = statement<[number], number>(
      database,
      'SELECT start FROM segment WHERE line = ? ORDER BY start LIMIT 1',
    ).pluck();
    this.nextStart = statement<[number, number], number>(
      database,
      'SELECT start FROM segment WHERE line = ? AND start > ? ORDER BY start LIMIT 1',
    ).pluck();
    // the segment that holds `from` begins before it: the last that begins there or before
    this.within = statement(
      database,
      `${span} AND start < ?
         AND start >= ifnull((SELECT max(start) FROM span WHERE line = ? AND start <= ?), ?)
       ORDER BY start`,
    );
    this.timed = {
      before: statement(
        database,
        `${span} AND start < ? AND at_most > ${BEFORE_ALL} ORDER BY start DESC LIMIT 1`,
      ),
      after: statement(database, `${span} AND start > ? AND at_most > ${BEFORE_ALL} ORDER BY start LIMIT 1`),
    };
    this.broken = statement(database, `${span} AND damaged = 1 ORDER BY start`);
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
    const tables = ['segment', 'span', 'last'];
    this.moved = tables.map((table) =>
      statement(database, `UPDATE ${table} SET line = ?, start = start + ? WHERE line = ?`),
    );
    this.goneBefore = tables.map((table) =>
      statement(database, `DELETE FROM ${table} WHERE line = ? AND start < ?`),
    );
    this.gone = tables.map((table) => statement(database, `DELETE FROM ${table} WHERE line = ?`));
  }

  /** Seals changes into a segment. `before` is what every signal had told by then; answers what they have after it. */
  add({ line, start }: SegmentPlace, changes: readonly Change[], before: LastValues): LastValues {
    const body = seal(changes);
    this.insert.run(line, start, changes.length, body);
    this.insertSpan.run(line, start, changes.length, body.length, ...columnsOf(changes), 0);
    const last = before.with(changes);
    this.insertLast.run(line, start, last.sealed());
    return last;
  }

  /** Puts bytes that cannot be opened where a segment lies. */
  addDamaged({ line, start }: SegmentPlace, count: number, body: Buffer): void {
    this.insert.run(line, start, count, body);
    this.insertSpan.run(line, start, count, body.length, null, null, null, null, 1);
  }

  /** The last segment that begins at a position or before. */
  at(line: number, position: number): SegmentRow | undefined {
    return this.bodyAt.get(line, position);
  }

  /** Where a line's last segment lies. */
  newest(line: number): { readonly start: number; readonly count: number } | undefined {
    return this.ends.get(line);
  }

  /** Where its first one begins. */
  oldest(line: number): number | undefined {
    return this.begins.get(line);
  }

  /** Where the next one after a position begins. */
  after(line: number, position: number): number | undefined {
    return this.nextStart.get(line, position);
  }

  /** What each signal had told at the end of a segment; nothing where that was not kept, or is damaged too. */
  lastOf(line: number, start: number): readonly Change[] {
    return LastValues.stored(this.lastAt.get(line, start));
  }

  /** Those that hold positions of [from, to), in order. */
  spans(line: number, from: number, to: number): SegmentSpan[] {
    if (from >= to) return [];
    return this.within
      .all(line, to, line, from, from)
      .filter(({ start, count }) => start + count > from)
      .map(segmentSpan);
  }

  /** The nearest one on either side of which is known when it is: one with no more than entries before all time tells nothing. */
  timedBeside(line: number, start: number, side: 'before' | 'after'): SegmentSpan | undefined {
    const row = this.timed[side].get(line, start);
    return row && segmentSpan(row);
  }

  /** Those that are known to be damaged. */
  damaged(line: number): SegmentSpan[] {
    return this.broken.all(line).map(segmentSpan);
  }

  /** The newest segment that an older version wrote without saying when, and that is not known to be damaged. */
  untimed(): SegmentPlace | undefined {
    return this.unknown.get();
  }

  /** Says when a segment is; one that cannot be opened is damaged, and is not looked at again for that. */
  time({ line, start }: SegmentPlace, changes: readonly Change[] | undefined): void {
    this.update.run(...columnsOf(changes ?? []), changes ? 0 : 1, line, start);
  }

  /** Gives a line's segments to another one, so many positions later. */
  move(from: number, to: number, by: number): void {
    for (const table of this.moved) table.run(to, by, from);
  }

  /** Takes those away that begin before a position. */
  dropBefore(line: number, position: number): void {
    for (const table of this.goneBefore) table.run(line, position);
  }

  clear(line: number): void {
    for (const table of this.gone) table.run(line);
  }
}

function columnsOf(changes: readonly Change[]): (number | null)[] {
  const { at, received } = new Spans().add(changes);
  return [at?.least ?? null, at?.most ?? null, received?.least ?? null, received?.most ?? null];
}

function segmentSpan(row: SpanRow): SegmentSpan {
  const { start, count, bytes, damaged } = row;
  return {
    start,
    count,
    sealed: true,
    at: spanOf(row.atLeast, row.atMost),
    received: spanOf(row.receivedLeast, row.receivedMost),
    bytes,
    damaged: damaged === 1,
  };
}

function spanOf(least: number | null, most: number | null): Span | undefined {
  return least === null || most === null ? undefined : { least: least as Instant, most: most as Instant };
}
