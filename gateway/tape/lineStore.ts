import type { Database, Statement } from 'better-sqlite3';
import type { Change, Signal } from '../../model/signals/signals.ts';
import { decode, encode } from '../../model/tape/codec.ts';
import { type Columns, changesOf } from '../../model/tape/columns.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { statement } from './database.ts';
import { Followers } from './followers.ts';
import { HistoryStore } from './historyStore.ts';
import type { SegmentIndex } from './segmentIndex.ts';
import { type Division, divide, opened, seal, unsealColumns } from './segments.ts';
import { SignalNumbers } from './signalNumbers.ts';
import { Spans } from './spans.ts';
import type { StoredPiece } from './tape.ts';

const words = wordsIn('en').tape;

interface Row {
  readonly start: number;
  readonly count: number;
  readonly body: Buffer;
}

/** What was written, and how many bytes of it lie behind the last segment. */
export interface Written extends Division {
  readonly bytes: number;
}

/**
 * One line's part of the tape: sealed segments, and after them a tail of batches whose changes are also held in
 * memory. The memory follows the disk, never the other way round.
 */
export class LineStore {
  readonly number: number;
  readonly followers: Followers;
  /** A history that is being imported; appends wait for it. */
  importing: Promise<unknown> | undefined;
  /** A history that is being brought in before all of this. */
  history: HistoryStore | undefined;
  /** Position of the oldest change. */
  begin = 0;

  private readonly id: string;
  private readonly numbers: SignalNumbers;
  private readonly index: SegmentIndex;
  private readonly segmentAt: Statement<[number, number], Row>;
  private readonly put: (division: Division) => number;
  /** Changes after the last segment, by the tape's signal numbers. */
  private tail: Change[] = [];
  private tailStart: number;
  private tailBytes = 0;
  private tailSpans = new Spans();

  /** Reads the tail of a line; makes a new line where there is none. To be called in a transaction. */
  constructor(database: Database, id: string, signals: readonly Signal[], index: SegmentIndex) {
    this.id = id;
    this.index = index;
    statement(database, 'INSERT OR IGNORE INTO line (id) VALUES (?)').run(id);
    this.number = statement(database, 'SELECT number FROM line WHERE id = ?').pluck().get(id) as number;
    this.numbers = new SignalNumbers(database, this.number, signals);
    this.segmentAt = statement<[number, number], Row>(
      database,
      'SELECT start, count, body FROM segment WHERE line = ? AND start <= ? ORDER BY start DESC LIMIT 1',
    );
    this.tailStart =
      (statement(database, 'SELECT start + count FROM segment WHERE line = ? ORDER BY start DESC LIMIT 1')
        .pluck()
        .get(this.number) as number | undefined) ?? 0;
    const oldest = statement(database, 'SELECT start FROM segment WHERE line = ? ORDER BY start LIMIT 1')
      .pluck()
      .get(this.number) as number | undefined;
    this.begin = Math.min(0, oldest ?? 0);
    new HistoryStore(database, this.number, this.numbers, this.index).clear();
    this.readTail(database);
    this.followers = new Followers(this.end);
    this.put = this.writing(database);
  }

  /** Position after the newest change. */
  get end(): number {
    return this.tailStart + this.tail.length;
  }

  /** Writes changes behind the tail, within a transaction of the caller's, sealing what they complete. */
  write(changes: readonly Change[]): Written {
    const division = divide(this.tail, this.numbers.toTape(changes));
    return { ...division, bytes: this.put(division) };
  }

  /** What was written is durable: the memory follows. True when something was sealed. */
  moved({ sealed, rest, bytes }: Written): boolean {
    for (const segment of sealed) this.tailStart += segment.length;
    if (sealed.length > 0) {
      this.tail = [];
      this.tailBytes = 0;
      this.tailSpans = new Spans();
    }
    this.lengthen(rest, bytes);
    this.followers.moved(this.end);
    return sealed.length > 0;
  }

  beginHistory(database: Database): HistoryStore {
    this.history = new HistoryStore(database, this.number, this.numbers, this.index);
    this.history.clear();
    return this.history;
  }

  endHistory(history: HistoryStore): number {
    this.begin = history.finish(this.number);
    return this.begin;
  }

  /** Changes from a position up to another or to the end of their segment, and the position after them. */
  piece(from: number, to: number): { readonly changes: readonly Change[]; readonly next: number } {
    if (from >= this.tailStart) {
      const next = Math.min(to, this.end);
      const part = this.tail.slice(from - this.tailStart, next - this.tailStart);
      return { changes: this.numbers.fromTape(part), next };
    }
    const { start, columns } = this.segment(from);
    const next = Math.min(to, start + columns.count);
    const { translation } = this.numbers;
    const part = { from: from - start, to: next - start, ...(translation ? { places: translation } : {}) };
    return { changes: changesOf(columns, part), next };
  }

  /** Pieces that hold positions of [from, to), in order. */
  pieces(from: number, to: number): StoredPiece[] {
    const pieces = this.index.pieces(this.number, from, to);
    const { tailStart: start, tailBytes: bytes, tailSpans } = this;
    const count = this.tail.length;
    if (count === 0 || from >= to || from >= start + count || to <= start) return pieces;
    return [
      ...pieces,
      { start, count, sealed: false, at: tailSpans.at, received: tailSpans.received, bytes },
    ];
  }

  pieceBytes(start: number): Uint8Array | undefined {
    if (start === this.tailStart && this.tail.length > 0) return seal(this.tail);
    const row = this.segmentAt.get(this.number, start);
    return row?.start === start ? row.body : undefined;
  }

  places(): ReadonlyMap<number, number> {
    return this.numbers.places();
  }

  private lengthen(changes: readonly Change[], bytes: number): void {
    for (const change of changes) this.tail.push(change);
    this.tailSpans.add(changes);
    this.tailBytes += bytes;
  }

  private segment(position: number): { readonly start: number; readonly columns: Columns } {
    const row = this.segmentAt.get(this.number, position);
    if (!row || row.start + row.count <= position) throw this.missing(position);
    const columns = opened(row.body, unsealColumns);
    if (columns?.count !== row.count) throw this.damaged(row);
    return { start: row.start, columns };
  }

  private readTail(database: Database): void {
    const rows = statement<[number], Row>(
      database,
      'SELECT start, count, body FROM batch WHERE line = ? ORDER BY start',
    ).all(this.number);
    for (const row of rows) {
      if (row.start !== this.end) throw this.missing(this.end);
      const changes = opened(row.body, decode);
      if (changes?.length !== row.count) throw this.damaged(row);
      this.lengthen(changes, row.body.length);
    }
  }

  private damaged({ start, count }: Row): LineError {
    return new LineError(words.damaged(this.id, start, start + count), {
      why: words.damagedWhy,
      mend: words.damagedMend,
    });
  }

  private missing(position: number): LineError {
    return new LineError(words.missing(this.id, position), {
      why: words.missingWhy,
      mend: words.damagedMend,
    });
  }

  /** Answers how many bytes the open end takes by it. */
  private writing(database: Database): (division: Division) => number {
    const insertBatch = statement(
      database,
      'INSERT INTO batch (line, start, count, body) VALUES (?, ?, ?, ?)',
    );
    const insertSegment = statement(
      database,
      'INSERT INTO segment (line, start, count, body) VALUES (?, ?, ?, ?)',
    );
    const deleteTail = statement(database, 'DELETE FROM batch WHERE line = ?');
    return ({ sealed, rest }: Division) => {
      let start = sealed.length > 0 ? this.tailStart : this.end;
      if (sealed.length > 0) deleteTail.run(this.number);
      for (const segment of sealed) {
        const body = seal(segment);
        insertSegment.run(this.number, start, segment.length, body);
        this.index.add({ line: this.number, start }, segment, body.length);
        start += segment.length;
      }
      if (rest.length === 0) return 0;
      const body = encode(rest);
      insertBatch.run(this.number, start, rest.length, body);
      return body.length;
    };
  }
}
