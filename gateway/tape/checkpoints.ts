import { deflateSync, inflateSync } from 'node:zlib';
import type { Database, Statement } from 'better-sqlite3';
import { statement } from './database.ts';
import type { Checkpoint } from './tape.ts';

/** Saved states kept for one line, whatever their version. */
export const CHECKPOINTS_MOST = 48;

/** Saved states of the fold, a cache: what is not here can be folded again from the tape. */
export class Checkpoints {
  private readonly insert: Statement<[number, string, number, Buffer]>;
  private readonly thin: Statement<[number, number, number]>;
  private readonly before: Statement<[number, string, number], { position: number; body: Buffer }>;
  private readonly within: Statement<[number, string, number, number], number>;
  private readonly transaction: (line: number, checkpoint: Checkpoint) => void;

  constructor(database: Database) {
    this.insert = statement(
      database,
      'INSERT OR REPLACE INTO checkpoint (line, version, position, body) VALUES (?, ?, ?, ?)',
    );
    this.thin = statement(
      database,
      `DELETE FROM checkpoint WHERE line = ? AND number NOT IN
       (SELECT number FROM checkpoint WHERE line = ? ORDER BY number DESC LIMIT ?)`,
    );
    this.before = statement(
      database,
      `SELECT position, body FROM checkpoint WHERE line = ? AND version = ? AND position <= ?
       ORDER BY position DESC LIMIT 1`,
    );
    this.within = statement<[number, string, number, number], number>(
      database,
      `SELECT position FROM checkpoint WHERE line = ? AND version = ? AND position >= ? AND position < ?
       ORDER BY position`,
    ).pluck();
    this.transaction = database.transaction((line: number, { position, version, body }: Checkpoint) => {
      this.insert.run(line, version, position, deflateSync(body));
      this.thin.run(line, line, CHECKPOINTS_MOST);
    }).immediate;
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
      const body = inflated(row.body);
      if (body !== undefined) return { position: row.position, body };
      limit = row.position - 1;
    }
  }
}

/** Undefined where the bytes are not what was written: zlib's own checksum tells. */
function inflated(bytes: Buffer): string | undefined {
  try {
    return inflateSync(bytes).toString('utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code?.startsWith('Z_')) return undefined;
    throw error;
  }
}
