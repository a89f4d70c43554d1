import type { Database, Statement } from 'better-sqlite3';
import { statement } from '../tape/database.ts';
import type { RowRead, RowsRead } from './recordsRead.ts';

/** The rows that stand in a making. */
export class StandingRows {
  private readonly within: Statement<[number, string, number, number], RowRead>;
  private readonly earlier: Statement<[number, string, number, number], RowRead>;
  private readonly bySubject: Statement<[number, string, string, number, number], RowRead>;
  private readonly oldest: Statement<[number, string], number>;

  constructor(database: Database) {
    this.within = statement(
      database,
      'SELECT until, body FROM record WHERE edition = ? AND kind = ? AND at >= ? AND at < ? ORDER BY at, id',
    );
    this.earlier = statement(
      database,
      'SELECT until, body FROM record WHERE edition = ? AND kind = ? AND at < ? ORDER BY at DESC, id DESC LIMIT ?',
    );
    this.bySubject = statement(
      database,
      `SELECT until, body FROM record WHERE edition = ? AND kind = ? AND subject = ? AND at < ?
       ORDER BY at DESC, id DESC LIMIT ?`,
    );
    this.oldest = statement<[number, string], number>(
      database,
      'SELECT at FROM record WHERE edition = ? AND kind = ? ORDER BY at LIMIT 1',
    ).pluck();
  }

  of(edition: number): RowsRead {
    return {
      within: (kind, from, to) => this.within.all(edition, kind, from, to),
      earlier: (kind, before, most) => this.earlier.all(edition, kind, before, most),
      bySubject: (kind, subject, before, most) => this.bySubject.all(edition, kind, subject, before, most),
      oldest: (kind) => this.oldest.get(edition, kind),
    };
  }
}
