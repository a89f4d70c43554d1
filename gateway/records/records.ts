import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Database, Statement } from 'better-sqlite3';
import type { RecordBodies, RecordKind, RecordStep } from '../../model/records/records.ts';
import { subjectOf } from '../../model/records/subjects.ts';
import { assert, LineError } from '../../model/trouble/trouble.ts';
import { type Instant, MINUTE } from '../../model/units/units.ts';
import { openDatabase, statement } from '../tape/database.ts';
import { onDisk } from '../tape/diskTrouble.ts';
import { Remembered } from './remembered.ts';
import { prepareRecords } from './schema.ts';

/** One making of a line's records; while a new one is being made the old one goes on serving. */
export interface Edition {
  readonly number: number;
  /** Of the model and the line's definition. */
  readonly version: string;
  /** All that the tape holds up to this position is in it. */
  readonly position: number;
}

/** What is asked of the records of one kind: all that have a part in [from, to). */
export interface RecordQuestion<Kind extends RecordKind> {
  readonly line: string;
  readonly kind: Kind;
  readonly from: Instant;
  readonly to: Instant;
}

/** How long a writer waits for another program, such as one that copies the file. Milliseconds. */
const BUSY_MS = 200;
/** Of what began before a stretch of time, so many of the newest are looked at: they may reach into it. */
const REACHING = 8;

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
export class Records {
  private readonly database: Database;
  private readonly serving: Statement<[string], Edition>;
  private readonly within: Statement<[number, string, number, number], string>;
  private readonly earlier: Statement<
    [number, string, number, number],
    { until: number | null; body: string }
  >;
  private readonly bySubject: Statement<[number, string, string, number, number], string>;
  private readonly oldest: Statement<[number, string], number>;
  private readonly remembered = new Remembered();
  private readonly writing: (
    number: number,
    steps: readonly RecordStep[],
    position: number,
  ) => Instant | undefined;
  private readonly beginning: (line: string, version: string) => number;
  private readonly taking: (line: string, number: number) => void;

  constructor(database: Database) {
    prepareRecords(database);
    this.database = database;
    this.serving = statement(
      database,
      'SELECT number, version, position FROM edition WHERE line = ? AND serves = 1',
    );
    this.within = statement<[number, string, number, number], string>(
      database,
      'SELECT body FROM record WHERE edition = ? AND kind = ? AND at >= ? AND at < ? ORDER BY at, id',
    ).pluck();
    this.earlier = statement(
      database,
      'SELECT until, body FROM record WHERE edition = ? AND kind = ? AND at < ? ORDER BY at DESC LIMIT ?',
    );
    this.bySubject = statement<[number, string, string, number, number], string>(
      database,
      'SELECT body FROM record WHERE edition = ? AND kind = ? AND subject = ? AND at < ? ORDER BY at DESC LIMIT ?',
    ).pluck();
    this.oldest = statement<[number, string], number>(
      database,
      'SELECT at FROM record WHERE edition = ? AND kind = ? ORDER BY at LIMIT 1',
    ).pluck();
    this.writing = this.writer();
    this.beginning = this.beginner();
    this.taking = this.taker();
  }

  /** The making that serves; undefined for a line that has none yet. */
  edition(line: string): Edition | undefined {
    return this.guarded(() => this.serving.get(line));
  }

  /** Begins to make a line's records anew, beside the ones that serve. An earlier making that came to no end is dropped. */
  begin(line: string, version: string): Edition {
    return { number: this.guarded(() => this.beginning(line, version)), version, position: 0 };
  }

  /** From here on this making serves, and the one before is gone. */
  serve(line: string, { number }: Edition): void {
    this.guarded(() => this.taking(line, number));
    this.remembered.clear();
  }

  /** Does steps to a making, all or none; then all up to a position of the tape is in it. */
  write({ number }: Edition, steps: readonly RecordStep[], position: number): void {
    const from = this.guarded(() => this.writing(number, steps, position));
    if (from !== undefined) this.remembered.forget(number, from);
  }

  /** The oldest first. */
  ask<Kind extends RecordKind>({ line, kind, from, to }: RecordQuestion<Kind>): RecordBodies[Kind][] {
    return this.guarded(() => {
      const edition = this.serving.get(line);
      if (!edition || to <= from) return [];
      const reaching = this.earlier
        .all(edition.number, kind, from, REACHING)
        .filter(({ until }) => until === null || until > from)
        .reverse();
      const bodies = [
        ...reaching.map(({ body }) => body),
        ...this.within.all(edition.number, kind, from, to),
      ];
      return bodies.map((body) => JSON.parse(body) as RecordBodies[Kind]);
    });
  }

  /** The newest that began before a moment. */
  last<Kind extends RecordKind>(line: string, kind: Kind, before: Instant): RecordBodies[Kind] | undefined {
    return this.guarded(() => {
      const edition = this.serving.get(line);
      const row = edition && this.earlier.get(edition.number, kind, before, 1);
      return row && (JSON.parse(row.body) as RecordBodies[Kind]);
    });
  }

  /** So many of the newest, the oldest of them first. */
  newest<Kind extends RecordKind>(line: string, kind: Kind, most: number): RecordBodies[Kind][] {
    return this.guarded(() => {
      const edition = this.serving.get(line);
      const rows = edition ? this.earlier.all(edition.number, kind, Number.MAX_SAFE_INTEGER, most) : [];
      return rows.reverse().map(({ body }) => JSON.parse(body) as RecordBodies[Kind]);
    });
  }

  /** So many of the newest of one subject that began before a moment, the oldest of them first. */
  newestOf<Kind extends RecordKind>(
    { line, kind, subject }: { readonly line: string; readonly kind: Kind; readonly subject: string },
    before: Instant,
    most: number,
  ): RecordBodies[Kind][] {
    return this.guarded(() => {
      const edition = this.serving.get(line);
      const bodies = edition ? this.bySubject.all(edition.number, kind, subject, before, most) : [];
      return bodies.reverse().map((body) => JSON.parse(body) as RecordBodies[Kind]);
    });
  }

  /** What `make` works out of a line's records that began before `to`, once until one of them changes. */
  remember<Value>(line: string, key: string, to: Instant, make: () => Value): Value {
    const edition = this.edition(line);
    return edition ? this.remembered.get(edition.number, key, to, make) : make();
  }

  /** From when on there are records at all. */
  first(line: string): Instant | undefined {
    return this.guarded(() => {
      const edition = this.serving.get(line);
      const end = edition && (this.oldest.get(edition.number, 'minute') as Instant | undefined);
      // a minute's record bears its end
      return end === undefined ? undefined : ((end - MINUTE) as Instant);
    });
  }

  close(): void {
    this.database.close();
  }

  /** Answers from when on anything changed. */
  private writer(): Records['writing'] {
    const put = statement<[number, string, number, string, number | null, string, string | null]>(
      this.database,
      'INSERT OR REPLACE INTO record (edition, kind, at, id, until, body, subject) VALUES (?, ?, ?, ?, ?, ?, ?)',
    );
    const cut = statement<[number, string, number]>(
      this.database,
      'DELETE FROM record WHERE edition = ? AND kind = ? AND at >= ?',
    );
    const cutGaps = statement<[number, number], number>(
      this.database,
      "DELETE FROM record WHERE edition = ? AND kind = 'gap' AND until >= ? RETURNING at",
    ).pluck();
    const drop = statement<[number, string, number, string]>(
      this.database,
      'DELETE FROM record WHERE edition = ? AND kind = ? AND at = ? AND id = ?',
    );
    const move = statement<[number, number]>(
      this.database,
      'UPDATE edition SET position = ? WHERE number = ?',
    );
    return this.database.transaction((number: number, steps: readonly RecordStep[], position: number) => {
      const touched: number[] = [];
      for (const step of steps) {
        if (step.kind === 'cut') {
          touched.push(step.from);
          for (const kind of step.of) cut.run(number, kind, step.from);
          if (step.of.includes('gap')) touched.push(...cutGaps.all(number, step.from));
        }
        if (step.kind === 'drop') {
          touched.push(step.at);
          drop.run(number, step.of, step.at, step.id);
        }
        if (step.kind === 'put') {
          const { kind, at, id, until, body } = step.record;
          touched.push(at);
          put.run(number, kind, at, id, until, JSON.stringify(body), subjectOf(step.record));
        }
      }
      move.run(position, number);
      return touched.length === 0 ? undefined : (touched.reduce((a, b) => Math.min(a, b)) as Instant);
    }).immediate;
  }

  private beginner(): Records['beginning'] {
    const others = statement<[string], number>(
      this.database,
      'SELECT number FROM edition WHERE line = ? AND serves = 0',
    ).pluck();
    const insert = statement<[string, string]>(
      this.database,
      'INSERT INTO edition (line, version, position, serves) VALUES (?, ?, 0, 0)',
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
    statement<[number]>(this.database, 'DELETE FROM edition WHERE number = ?').run(number);
  }

  private guarded<Result>(act: () => Result): Result {
    assert(this.database.open, 'the records are closed');
    return onDisk(this.database.name, act);
  }
}
