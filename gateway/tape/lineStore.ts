import type { Database, Statement } from 'better-sqlite3';
import type { Change, Signal } from '../../model/signals/signals.ts';
import { decode, encode } from '../../model/tape/codec.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { statement } from './database.ts';
import { Followers } from './followers.ts';
import { HistoryStore } from './historyStore.ts';
import { type Division, divide, seal, unseal } from './segments.ts';
import { SignalNumbers } from './signalNumbers.ts';

const words = wordsIn('en').tape;

interface Row {
  readonly start: number;
  readonly count: number;
  readonly body: Buffer;
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
  private readonly segmentAt: Statement<[number, number], Row>;
  private readonly put: (division: Division) => void;
  /** Changes after the last segment, by the tape's signal numbers. */
  private tail: Change[] = [];
  private tailStart: number;

  /** Reads the tail of a line; makes a new line where there is none. To be called in a transaction. */
  constructor(database: Database, id: string, signals: readonly Signal[]) {
    this.id = id;
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
    new HistoryStore(database, this.number, this.numbers).clear();
    this.readTail(database);
    this.followers = new Followers(this.end);
    this.put = this.writing(database);
  }

  /** Position after the newest change. */
  get end(): number {
    return this.tailStart + this.tail.length;
  }

  /** Writes changes behind the tail, within a transaction of the caller's, sealing what they complete. */
  write(changes: readonly Change[]): Division {
    const division = divide(this.tail, this.numbers.toTape(changes));
    this.put(division);
    return division;
  }

  /** What was written is durable: the memory follows. True when something was sealed. */
  moved({ sealed, rest }: Division): boolean {
    for (const segment of sealed) this.tailStart += segment.length;
    if (sealed.length > 0) this.tail = [];
    for (const change of rest) this.tail.push(change);
    this.followers.moved(this.end);
    return sealed.length > 0;
  }

  beginHistory(database: Database): HistoryStore {
    this.history = new HistoryStore(database, this.number, this.numbers);
    this.history.clear();
    return this.history;
  }

  endHistory(history: HistoryStore): number {
    this.begin = history.finish(this.number);
    return this.begin;
  }

  /** Changes from a position up to another or to the end of their segment, and the position after them. */
  piece(from: number, to: number): { readonly changes: readonly Change[]; readonly next: number } {
    const sealed = from < this.tailStart;
    const { start, changes } = sealed ? this.segment(from) : { start: this.tailStart, changes: this.tail };
    const next = Math.min(to, start + changes.length);
    const whole = sealed && from === start && next === start + changes.length;
    return {
      changes: this.numbers.fromTape(whole ? changes : changes.slice(from - start, next - start)),
      next,
    };
  }

  private segment(position: number): { readonly start: number; readonly changes: readonly Change[] } {
    const row = this.segmentAt.get(this.number, position);
    if (!row || row.start + row.count <= position) throw this.missing(position);
    return { start: row.start, changes: this.contentOf(row, unseal) };
  }

  private readTail(database: Database): void {
    const rows = statement<[number], Row>(
      database,
      'SELECT start, count, body FROM batch WHERE line = ? ORDER BY start',
    ).all(this.number);
    for (const row of rows) {
      if (row.start !== this.end) throw this.missing(this.end);
      for (const change of this.contentOf(row, decode)) this.tail.push(change);
    }
  }

  private contentOf({ start, count, body }: Row, open: (bytes: Uint8Array) => Change[]): Change[] {
    const changes = openOrUndefined(body, open);
    if (changes?.length === count) return changes;
    throw new LineError(words.damaged(this.id, start, start + count), {
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

  private writing(database: Database): (division: Division) => void {
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
        insertSegment.run(this.number, start, segment.length, seal(segment));
        start += segment.length;
      }
      if (rest.length > 0) insertBatch.run(this.number, start, rest.length, encode(rest));
    };
  }
}

/** Undefined where the bytes are damaged; a format of a later version is told as such. */
function openOrUndefined(body: Buffer, open: (bytes: Uint8Array) => Change[]): Change[] | undefined {
  try {
    return open(body);
  } catch (error) {
    if (error instanceof LineError && error.message === words.damagedBlob) return undefined;
    if ((error as NodeJS.ErrnoException).code?.startsWith('Z_')) return undefined;
    throw error;
  }
}
