import { deflateSync, inflateSync } from 'node:zlib';
import type { Database, Statement } from 'better-sqlite3';
import { minutes } from '../../model/units/units.ts';
import { statement } from './database.ts';
import { opened } from './segments.ts';
import type { Checkpoint } from './tape.ts';
import { deltaOf, withDelta } from './textDelta.ts';

/** A state that is kept for good when so much line time has passed since the last one: any moment is near one. */
export const LASTING_EVERY = minutes(30);
/** So many states in a row are told by what differs from the one before, then one in full: a day of them. */
export const DEPTH_MOST = 47;

interface Row {
  readonly number: number;
  readonly position: number;
  readonly base: number | null;
  readonly depth: number;
  readonly body: Buffer;
}

interface Kept {
  readonly number: number;
  readonly position: number;
  readonly depth: number;
  readonly body: string;
}

/**
 * Saved states of the fold, a cache: what is not here can be folded again from the tape. Those that last are told by what
 * differs from the one before, as a state is hundreds of times what is new in it; now and then one stands in full.
 */
export class Checkpoints {
  private readonly insert: Statement<unknown[]>;
  private readonly dropPassing: Statement<[number, number]>;
  private readonly dropAt: Statement<[number, string, number]>;
  private readonly dropOthers: Statement<[number, string]>;
  private readonly dropOld: Statement<[number, number, number, number]>;
  private readonly dropAll: Statement<[number]>;
  private readonly moveAll: Statement<[number, number, number]>;
  private readonly before: Statement<[number, string, number], Row>;
  private readonly lasting: Statement<[number, string, number], Row>;
  private readonly byNumber: Statement<[number], Row>;
  private readonly within: Statement<[number, string, number, number], number>;
  private readonly transaction: (line: number, checkpoint: Checkpoint) => void;
  /** The newest of each line and version that lasts, opened: the next one is told by it. */
  private readonly newest = new Map<string, Kept>();

  constructor(database: Database) {
    const columns = 'SELECT number, position, base, depth, body FROM checkpoint';
    this.insert = statement(
      database,
      'INSERT INTO checkpoint (line, version, position, passing, base, depth, body) VALUES (?, ?, ?, ?, ?, ?, ?)',
    );
    this.dropPassing = statement(
      database,
      'DELETE FROM checkpoint WHERE line = ? AND passing = 1 AND position <= ?',
    );
    // what was told by it goes with it
    this.dropAt = statement(
      database,
      `WITH RECURSIVE gone (number) AS (
         SELECT number FROM checkpoint WHERE line = ? AND version = ? AND position = ?
         UNION ALL SELECT checkpoint.number FROM checkpoint JOIN gone ON checkpoint.base = gone.number
       ) DELETE FROM checkpoint WHERE number IN (SELECT number FROM gone)`,
    );
    this.dropOthers = statement(database, 'DELETE FROM checkpoint WHERE line = ? AND version <> ?');
    // those that a later one is told by stay with it
    this.dropOld = statement(
      database,
      `WITH RECURSIVE needed (number) AS (
         SELECT base FROM checkpoint WHERE line = ? AND position >= ? AND base IS NOT NULL
         UNION SELECT checkpoint.base FROM checkpoint JOIN needed ON checkpoint.number = needed.number
           WHERE checkpoint.base IS NOT NULL
       ) DELETE FROM checkpoint WHERE line = ? AND position < ? AND number NOT IN (SELECT number FROM needed)`,
    );
    this.dropAll = statement(database, 'DELETE FROM checkpoint WHERE line = ?');
    this.moveAll = statement(
      database,
      'UPDATE checkpoint SET line = ?, position = position + ? WHERE line = ?',
    );
    this.before = statement(
      database,
      `${columns} WHERE line = ? AND version = ? AND position <= ? ORDER BY position DESC LIMIT 1`,
    );
    this.lasting = statement(
      database,
      `${columns} WHERE line = ? AND version = ? AND position < ? AND passing = 0 ORDER BY position DESC LIMIT 1`,
    );
    this.byNumber = statement(database, `${columns} WHERE number = ?`);
    this.within = statement<[number, string, number, number], number>(
      database,
      `SELECT position FROM checkpoint WHERE line = ? AND version = ? AND position >= ? AND position < ?
       ORDER BY position`,
    ).pluck();
    this.transaction = database.transaction((line: number, checkpoint: Checkpoint) =>
      this.write(line, checkpoint),
    ).immediate;
  }

  keep(line: number, checkpoint: Checkpoint): void {
    this.transaction(line, checkpoint);
  }

  positions(line: number, version: string, from: number, to: number): number[] {
    return this.within.all(line, version, from, to);
  }

  nearest(line: number, position: number, version: string): { position: number; body: string } | undefined {
    let limit = position;
    for (;;) {
      const row = this.before.get(line, version, limit);
      if (!row) return undefined;
      const body = this.bodyOf(row);
      if (body !== undefined) return { position: row.position, body };
      limit = row.position - 1;
    }
  }

  /** Drops those of every version but this one. */
  keepOnly(line: number, version: string): void {
    this.dropOthers.run(line, version);
    this.forget();
  }

  /** Drops those before a position, but for what later ones are told by. */
  dropBefore(line: number, position: number): void {
    this.dropOld.run(line, position, line, position);
    this.forget();
  }

  clear(line: number): void {
    this.dropAll.run(line);
    this.forget();
  }

  /** Gives a line's states to another one, so many positions later. */
  move(from: number, to: number, by: number): void {
    this.moveAll.run(to, by, from);
    this.forget();
  }

  private write(line: number, { position, version, body, passing = false }: Checkpoint): void {
    this.dropPassing.run(line, position);
    this.dropAt.run(line, version, position);
    if (passing) {
      this.insert.run(line, version, position, 1, null, 0, deflateSync(body));
      return;
    }
    const base = this.baseFor(line, version, position);
    const depth = base && base.depth < DEPTH_MOST ? base.depth + 1 : 0;
    const { lastInsertRowid } =
      base && depth > 0
        ? this.insert.run(
            line,
            version,
            position,
            0,
            base.number,
            depth,
            deflateSync(deltaOf(base.body, body)),
          )
        : this.insert.run(line, version, position, 0, null, 0, deflateSync(body));
    this.newest.set(`${line} ${version}`, { number: Number(lastInsertRowid), position, depth, body });
  }

  /** The one before that lasts, opened; where it is damaged the next stands in full. */
  private baseFor(line: number, version: string, position: number): Kept | undefined {
    const row = this.lasting.get(line, version, position);
    if (!row) return undefined;
    const newest = this.newest.get(`${line} ${version}`);
    if (newest?.number === row.number) return newest;
    const body = this.bodyOf(row);
    return body === undefined ? undefined : { ...row, body };
  }

  /** Undefined where it, or one that it is told by, is not what was written: zlib's own checksum tells. */
  private bodyOf(row: Row): string | undefined {
    const chain = [row];
    for (let base = row.base; base !== null; base = chain.at(-1)!.base) {
      const next = this.byNumber.get(base);
      if (!next || chain.length > DEPTH_MOST) return undefined;
      chain.push(next);
    }
    let body = opened(chain.pop()!.body, (bytes) => inflateSync(bytes).toString('utf8'));
    for (const { body: delta } of chain.toReversed()) {
      if (body === undefined) return undefined;
      const base = body;
      body = opened(delta, (bytes) => withDelta(base, inflateSync(bytes)));
    }
    return body;
  }

  /** Numbers and lines are others now. */
  private forget(): void {
    this.newest.clear();
  }
}
