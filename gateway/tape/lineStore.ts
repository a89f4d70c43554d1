import type { Statement } from 'better-sqlite3';
import type { Change, Signal } from '../../model/signals/signals.ts';
import { decode, encode } from '../../model/tape/codec.ts';
import { changesOf } from '../../model/tape/columns.ts';
import { assert, LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { statement } from './database.ts';
import { Followers } from './followers.ts';
import { HistoryStore, type Tables } from './historyStore.ts';
import { LastValues } from './lastValues.ts';
import { type Division, divide, opened, seal, unsealColumns } from './segments.ts';
import type { SegmentRow } from './segmentTable.ts';
import { SignalNumbers } from './signalNumbers.ts';
import { Tail } from './tail.ts';
import type { Damage, Placed, StoredPiece } from './tape.ts';
import { type Stretch, UnreadStretches } from './unread.ts';

const words = wordsIn('en').tape;

/** What was written: how many bytes of it lie behind the last segment, and what every signal had told by that one's end. */
export interface Written extends Division {
  readonly bytes: number;
  readonly last: LastValues;
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
  private readonly tables: Tables;
  private readonly numbers: SignalNumbers;
  private readonly unread: UnreadStretches;
  private readonly put: (division: Division) => Written;
  private readonly keptFrom: Statement<[number], number>;
  private readonly drop: (position: number) => void;
  private tail: Tail;
  /** At the end of the last segment. */
  private last: LastValues;

  /**
   * Reads the tail of a line; makes a new line where there is none. To be called in a transaction. `told`: what is found
   * that cannot be read.
   */
  constructor(tables: Tables, id: string, signals: readonly Signal[], told: (damage: Damage) => void) {
    const { database, segments } = tables;
    this.id = id;
    this.tables = tables;
    statement(database, 'INSERT OR IGNORE INTO line (id) VALUES (?)').run(id);
    this.number = statement(database, 'SELECT number FROM line WHERE id = ?').pluck().get(id) as number;
    this.numbers = new SignalNumbers(database, this.number, signals);
    this.unread = new UnreadStretches(
      { number: this.number, signals, numbers: this.numbers },
      segments,
      told,
    );
    const newest = segments.newest(this.number);
    this.tail = new Tail(newest ? newest.start + newest.count : 0);
    this.last = new LastValues(this.numbers.entries, newest && segments.lastOf(this.number, newest.start));
    this.keptFrom = statement<[number], number>(
      database,
      'SELECT position FROM kept_from WHERE line = ?',
    ).pluck();
    this.begin = this.keptFrom.get(this.number) ?? Math.min(0, segments.oldest(this.number) ?? 0);
    this.drop = database.transaction((position: number) => {
      segments.dropBefore(this.number, position);
      tables.checkpoints.dropBefore(this.number, position);
      statement(database, 'INSERT OR REPLACE INTO kept_from (line, position) VALUES (?, ?)').run(
        this.number,
        position,
      );
    }).immediate;
    new HistoryStore(tables, this.number, this.numbers).clear();
    this.readTail();
    for (const { start } of segments.damaged(this.number)) this.foundDamaged(start);
    this.followers = new Followers(this.end);
    this.put = this.writing();
  }

  /** Position after the newest change. */
  get end(): number {
    return this.tail.end;
  }

  /** Writes changes behind the tail, within a transaction of the caller's, sealing what they complete. */
  write(changes: readonly Change[]): Written {
    return this.put(divide(this.tail.changes, this.numbers.toTape(changes)));
  }

  /** What was written is durable: the memory follows. True when something was sealed. */
  moved({ sealed, rest, bytes, last }: Written): boolean {
    if (sealed.length > 0) {
      this.tail = new Tail(sealed.reduce((end, { length }) => end + length, this.tail.start));
      this.last = last;
    }
    this.tail.add(rest, bytes);
    this.followers.moved(this.end);
    return sealed.length > 0;
  }

  /** Takes away what lies before a position, where a sealed segment begins. */
  dropBefore(position: number): void {
    if (position <= this.begin) return;
    assert(this.tables.segments.at(this.number, position)?.start === position, 'a tape cut within a segment');
    this.drop(position);
    this.begin = position;
  }

  beginHistory(): HistoryStore {
    this.history = new HistoryStore(this.tables, this.number, this.numbers);
    this.history.clear();
    return this.history;
  }

  endHistory(history: HistoryStore): number {
    this.begin = history.finish(this.number, this.begin);
    return this.begin;
  }

  /**
   * Changes from a position up to another or to the end of their segment, and the position after them. Where a segment
   * cannot be read, what stands for it (`model/tape/standIn.ts`).
   */
  piece(from: number, to: number): Placed {
    if (from >= this.tail.start) {
      const next = Math.min(to, this.end);
      const part = this.tail.changes.slice(from - this.tail.start, next - this.tail.start);
      const positions = this.positionsOf(from, part.length, (place) => part[place]!.signal);
      return { changes: this.numbers.fromTape(part), from, next, ...positions };
    }
    const row = this.tables.segments.at(this.number, from);
    const holds = row !== undefined && row.start + row.count > from;
    const columns = holds ? opened(row.body, unsealColumns) : undefined;
    if (!holds || columns?.count !== row.count) return this.unreadPiece(from, to, row);
    const next = Math.min(to, row.start + row.count);
    const { translation } = this.numbers;
    const part = { from: from - row.start, to: next - row.start };
    const changes = changesOf(columns, translation ? { ...part, places: translation } : part);
    const signalAt = (place: number) => columns.signal[part.from + place]!;
    return { changes, from, next, ...this.positionsOf(from, next - from, signalAt) };
  }

  /** Where those are that are not left out. */
  private positionsOf(
    from: number,
    count: number,
    signalAt: (place: number) => number,
  ): Pick<Placed, 'positions'> {
    const { translation } = this.numbers;
    if (!translation) return {};
    const positions: number[] = [];
    for (let place = 0; place < count; place += 1)
      if (translation[signalAt(place)] !== undefined) positions.push(from + place);
    return { positions };
  }

  /** Pieces that hold positions of [from, to), in order. */
  pieces(from: number, to: number): StoredPiece[] {
    const pieces: StoredPiece[] = this.tables.segments
      .spans(this.number, from, to)
      .map(({ damaged: _, ...piece }) => piece);
    const tail = this.tail.piece();
    return tail && from < to && from < this.end && to > tail.start ? [...pieces, tail] : pieces;
  }

  pieceBytes(start: number): Uint8Array | undefined {
    if (start === this.tail.start && this.tail.changes.length > 0) return this.tail.sealed();
    const row = this.tables.segments.at(this.number, start);
    return row?.start === start ? row.body : undefined;
  }

  standInBytes(start: number): Uint8Array | undefined {
    const [span] = this.tables.segments.spans(this.number, start, start + 1);
    if (span?.start !== start) return undefined;
    const end = start + span.count;
    const changes = this.unread.changes({ start, end }, { from: start, to: end }, this.tail.piece());
    return seal(this.numbers.toTape(changes));
  }

  places(): ReadonlyMap<number, number> {
    return this.numbers.places();
  }

  damages(): readonly Damage[] {
    return this.unread.known();
  }

  /** A segment cannot be opened: it is told, once. */
  foundDamaged(start: number): void {
    this.unread.note(this.unreadAt(start, this.tables.segments.at(this.number, start)), this.tail.piece());
  }

  private unreadPiece(from: number, to: number, row: SegmentRow | undefined): Placed {
    const stretch = this.unreadAt(from, row);
    this.unread.note(stretch, this.tail.piece());
    const next = Math.min(to, stretch.end);
    const changes = this.unread.changes(stretch, { from, to: next }, this.tail.piece());
    // what stands for it tells of all of it
    return { changes, from, next, positions: changes.map(() => next - 1) };
  }

  /** A segment that is damaged; or one that is gone, or what is not covered by any. */
  private unreadAt(position: number, row: SegmentRow | undefined): Stretch {
    const before = row && row.start + row.count > position ? undefined : row;
    if (row && !before) return { start: row.start, end: row.start + row.count };
    const { segments } = this.tables;
    const [span] = segments.spans(this.number, position, position + 1);
    if (span) return { start: span.start, end: span.start + span.count };
    const start = before ? before.start + before.count : this.begin;
    return { start, end: segments.after(this.number, position) ?? this.tail.start };
  }

  /** What of it cannot be read is put aside as a segment of its own: the line goes on behind it. */
  private readTail(): void {
    const rows = statement<[number], SegmentRow>(
      this.tables.database,
      'SELECT start, count, body FROM batch WHERE line = ? ORDER BY start',
    ).all(this.number);
    for (const row of rows) {
      if (row.start > this.end) this.putAside(row.start - this.end, Buffer.alloc(0));
      if (row.start !== this.end) throw this.overlap(row.start);
      const changes = opened(row.body, decode);
      if (changes?.length === row.count) this.tail.add(changes, row.body.length);
      else this.putAside(row.count, row.body);
    }
  }

  private putAside(count: number, body: Buffer): void {
    const { database, segments } = this.tables;
    const { start, changes, end } = this.tail;
    if (changes.length > 0) segments.add({ line: this.number, start }, changes, this.last);
    segments.addDamaged({ line: this.number, start: end }, count, body);
    this.unread.note({ start: end, end: end + count }, undefined);
    this.tail = new Tail(end + count);
    // what was told in it is not known
    this.last = new LastValues(this.numbers.entries);
    statement(database, 'DELETE FROM batch WHERE line = ? AND start < ?').run(this.number, this.tail.start);
  }

  private overlap(position: number): LineError {
    return new LineError(words.overlap(this.id, position), {
      why: words.overlapWhy,
      mend: words.damagedMend,
    });
  }

  private writing(): (division: Division) => Written {
    const { database, segments } = this.tables;
    const insertBatch = statement(
      database,
      'INSERT INTO batch (line, start, count, body) VALUES (?, ?, ?, ?)',
    );
    const deleteTail = statement(database, 'DELETE FROM batch WHERE line = ?');
    return ({ sealed, rest }: Division) => {
      let start = sealed.length > 0 ? this.tail.start : this.end;
      let { last } = this;
      if (sealed.length > 0) deleteTail.run(this.number);
      for (const segment of sealed) {
        last = segments.add({ line: this.number, start }, segment, last);
        start += segment.length;
      }
      if (rest.length === 0) return { sealed, rest, bytes: 0, last };
      const body = encode(rest);
      insertBatch.run(this.number, start, rest.length, body);
      return { sealed, rest, bytes: body.length, last };
    };
  }
}
