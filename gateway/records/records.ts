import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Database, Statement } from 'better-sqlite3';
import type { RecordBodies, RecordKind, RecordStep } from '../../model/records/records.ts';
import { assert, LineError } from '../../model/trouble/trouble.ts';
import type { Instant } from '../../model/units/units.ts';
import { openDatabase, statement } from '../tape/database.ts';
import { onDisk } from '../tape/diskTrouble.ts';
import { dropBefore } from './dropBefore.ts';
import { answersFrom, type RecordQuestion, type RecordsRead, type RowsRead } from './recordsRead.ts';
import { RecordsWriter } from './recordsWriter.ts';
import { Remembered } from './remembered.ts';
import { rowSteps, type Written } from './rows.ts';
import { StoodRows } from './stoodRows.ts';
import { prepareRecords } from './schema.ts';
import { StandingRows } from './standingRows.ts';

/** One making of a line's records; while a new one is being made the old one goes on serving. */
export interface Edition {
  readonly number: number;
  /** Of the model and the line's definition. */
  readonly version: string;
  /** All that the tape holds up to this position is in it. */
  readonly position: number;
  /** The position of the tape that it counts from: how far before 0 a history begins is not known while it is brought in. */
  readonly origin: number;
}

/** How long a writer waits for another program, such as one that copies the file. Milliseconds. */
const BUSY_MS = 200;

/** Opens the records in a data folder. A cache: a file that is damaged is thrown away and made anew from the tape. */
export function openRecords(folder: string): Records {
  const file = join(folder, 'records.sqlite');
  try {
    return open(file);
  } catch (error) {
    if (!(error instanceof LineError)) throw error;
    for (const end of ['', '-wal', '-shm']) onDisk(file, () => rmSync(`${file}${end}`, { force: true }));
    return open(file);
  }
}

function open(file: string): Records {
  return onDisk(file, () => {
    const database = openDatabase(file, BUSY_MS);
    try {
      return new Records(database);
    } catch (error) {
      database.close();
      throw error;
    }
  });
}

/** The records of all lines, in a file beside the tape. What a power cut takes of them is folded again. */
export class Records implements RecordsRead {
  private readonly database: Database;
  private readonly serving: Statement<[string], Edition>;
  private readonly placing: Statement<[number, number]>;
  private readonly standing: StandingRows;
  private readonly stood: StoodRows;
  private readonly writer: RecordsWriter;
  private readonly answers: Omit<RecordsRead, 'remember'>;
  private readonly remembered = new Remembered();
  /** How often anything was written: what was read before may be otherwise since. */
  private writings = 0;
  private readonly beginning: (line: string, version: string) => number;
  private readonly taking: (line: string, number: number) => void;

  constructor(database: Database) {
    prepareRecords(database);
    this.database = database;
    this.serving = statement(
      database,
      'SELECT number, version, position, origin FROM edition WHERE line = ? AND serves = 1',
    );
    this.placing = statement(database, 'UPDATE edition SET origin = ? WHERE number = ?');
    this.standing = new StandingRows(database);
    this.stood = new StoodRows(database);
    this.writer = new RecordsWriter(database);
    this.answers = this.answering((line) => {
      const edition = this.serving.get(line);
      return edition && this.standing.of(edition.number);
    });
    this.beginning = this.beginner();
    this.taking = this.taker();
  }

  /** The making that serves; undefined for a line that has none yet. */
  edition(line: string): Edition | undefined {
    return this.guarded(() => this.serving.get(line));
  }

  /** Begins to make a line's records anew, beside the ones that serve. An earlier making that came to no end is dropped. */
  begin(line: string, version: string): Edition {
    const number = this.guarded(() => this.beginning(line, version));
    return { number, version, position: 0, origin: 0 };
  }

  /** All positions of a making were counted from this one of the tape. */
  place(edition: Edition, origin: number): Edition {
    this.guarded(() => this.placing.run(origin, edition.number));
    return { ...edition, origin };
  }

  /** From here on this making serves, and the one before is gone. */
  serve(line: string, { number }: Edition): void {
    this.guarded(() => this.taking(line, number));
    this.writings += 1;
    this.remembered.clear();
  }

  /** Does steps to a making, all of one position, all or none; then all up to that position of the tape is in it. */
  write(edition: Edition, steps: readonly RecordStep[], position: number): void {
    this.writeAll(edition, [{ position, steps: rowSteps(steps) }], position);
  }

  /** The same with what each of some changes did, in their order; `position` is that after all of them. */
  writeAll(edition: Edition, writes: readonly Written[], position: number): void {
    const changed = this.guarded(() => this.writer.write(edition, writes, position));
    if (changed === undefined) return;
    this.writings += 1;
    this.remembered.forget(edition.number, changed);
  }

  /** The same questions, answered with what had been written by a position of the tape. */
  asOf(position: number): RecordsRead {
    let read: { readonly writings: number; readonly line: string; readonly rows: RowsRead | undefined };
    const rowsOf = (line: string) => {
      if (read?.writings === this.writings && read.line === line) return read.rows;
      const edition = this.serving.get(line);
      const rows = edition && this.stood.of(edition.number, position - edition.origin);
      read = { writings: this.writings, line, rows };
      return rows;
    };
    return {
      ...this.answering(rowsOf),
      remember: (line, key, to, make) => {
        const edition = this.edition(line);
        return edition ? this.remembered.getStood(edition.number, position, { key, to }, make) : make();
      },
    };
  }

  ask<Kind extends RecordKind>(question: RecordQuestion<Kind>): RecordBodies[Kind][] {
    return this.answers.ask(question);
  }

  last<Kind extends RecordKind>(line: string, kind: Kind, before: Instant): RecordBodies[Kind] | undefined {
    return this.answers.last(line, kind, before);
  }

  newest<Kind extends RecordKind>(line: string, kind: Kind, most: number): RecordBodies[Kind][] {
    return this.answers.newest(line, kind, most);
  }

  newestOf<Kind extends RecordKind>(
    of: { readonly line: string; readonly kind: Kind; readonly subject: string },
    before: Instant,
    most: number,
  ): RecordBodies[Kind][] {
    return this.answers.newestOf(of, before, most);
  }

  remember<Value>(line: string, key: string, to: Instant, make: () => Value): Value {
    const edition = this.edition(line);
    return edition ? this.remembered.get(edition.number, key, to, make) : make();
  }

  /** Takes away what was over before a moment, but for the newest of each kind: it may tell what holds since then. */
  dropBefore(line: string, from: Instant): void {
    this.guarded(() => {
      const edition = this.serving.get(line);
      if (edition) dropBefore(this.database, edition.number, from);
    });
    this.writings += 1;
    this.remembered.clear();
  }

  first(line: string): Instant | undefined {
    return this.answers.first(line);
  }

  close(): void {
    this.database.close();
  }

  private answering(rowsOf: (line: string) => RowsRead | undefined): Omit<RecordsRead, 'remember'> {
    const answers = answersFrom(rowsOf);
    return {
      ask: (question) => this.guarded(() => answers.ask(question)),
      last: (line, kind, before) => this.guarded(() => answers.last(line, kind, before)),
      newest: (line, kind, most) => this.guarded(() => answers.newest(line, kind, most)),
      newestOf: (of, before, most) => this.guarded(() => answers.newestOf(of, before, most)),
      first: (line) => this.guarded(() => answers.first(line)),
    };
  }

  private beginner(): Records['beginning'] {
    const others = statement<[string], number>(
      this.database,
      'SELECT number FROM edition WHERE line = ? AND serves = 0',
    ).pluck();
    const insert = statement<[string, string]>(
      this.database,
      'INSERT INTO edition (line, version, position, origin, serves) VALUES (?, ?, 0, 0, 0)',
    );
    return this.database.transaction((line: string, version: string) => {
      for (const number of others.all(line)) this.drop(number);
      return Number(insert.run(line, version).lastInsertRowid);
    }).immediate;
  }

  private taker(): Records['taking'] {
    const others = statement<[string, number], number>(
      this.database,
      'SELECT number FROM edition WHERE line = ? AND number <> ?',
    ).pluck();
    const take = statement<[number]>(this.database, 'UPDATE edition SET serves = 1 WHERE number = ?');
    return this.database.transaction((line: string, number: number) => {
      for (const other of others.all(line, number)) this.drop(other);
      take.run(number);
    }).immediate;
  }

  private drop(number: number): void {
    statement<[number]>(this.database, 'DELETE FROM record WHERE edition = ?').run(number);
    statement<[number]>(this.database, 'DELETE FROM replaced WHERE edition = ?').run(number);
    statement<[number]>(this.database, 'DELETE FROM edition WHERE number = ?').run(number);
  }

  private guarded<Result>(act: () => Result): Result {
    assert(this.database.open, 'the records are closed');
    return onDisk(this.database.name, act);
  }
}
