import type { Database, Statement } from 'better-sqlite3';
import { statement } from '../tape/database.ts';
import type { RowsRead } from './recordsRead.ts';
import type { Row } from './rows.ts';

type Stood = Pick<Row, 'at' | 'id' | 'until' | 'body'>;
type Replaced = Row;

/** The rows that stood in a making at a position of the tape: those that stand since then, and those that were replaced later. */
export class StoodRows {
  private readonly replaced: Statement<[number, number, number, number], Replaced>;
  private readonly within: Statement<[number, string, number, number, number], Stood>;
  private readonly earlier: Statement<[number, string, number, number, number], Stood>;
  private readonly bySubject: Statement<[number, string, string, number, number, number], Stood>;
  private readonly oldest: Statement<[number, string, number], number>;

  constructor(database: Database) {
    // what stood there and had `reach` before it was gone ends no later than that after it
    this.replaced = statement(
      database,
      `WITH RECURSIVE lives(reach) AS (VALUES (1) UNION ALL SELECT reach * 2 FROM lives WHERE reach < 1125899906842624)
       SELECT kind, at, id, until, body, subject FROM lives CROSS JOIN replaced
       WHERE edition = ? AND replaced.reach = lives.reach AND gone > ? AND gone <= ? + lives.reach AND since <= ?`,
    );
    this.within = statement(
      database,
      `SELECT at, id, until, body FROM record WHERE edition = ? AND kind = ? AND at >= ? AND at < ? AND since <= ?
       ORDER BY at, id`,
    );
    this.earlier = statement(
      database,
      `SELECT at, id, until, body FROM record WHERE edition = ? AND kind = ? AND at < ? AND since <= ?
       ORDER BY at DESC, id DESC LIMIT ?`,
    );
    this.bySubject = statement(
      database,
      `SELECT at, id, until, body FROM record WHERE edition = ? AND kind = ? AND subject = ? AND at < ? AND since <= ?
       ORDER BY at DESC, id DESC LIMIT ?`,
    );
    this.oldest = statement<[number, string, number], number>(
      database,
      'SELECT at FROM record WHERE edition = ? AND kind = ? AND since <= ? ORDER BY at LIMIT 1',
    ).pluck();
  }

  /** `position` is counted from the making's origin. What changes later takes nothing away from what was read. */
  of(edition: number, position: number): RowsRead {
    const replaced = this.replaced.all(edition, position, position, position);
    const gone = (kind: string, isMeant: (row: Replaced) => boolean) =>
      replaced.filter((row) => row.kind === kind && isMeant(row));
    return {
      within: (kind, from, to) =>
        [
          ...this.within.all(edition, kind, from, to, position),
          ...gone(kind, ({ at }) => at >= from && at < to),
        ].sort(oldestFirst),
      earlier: (kind, before, most) =>
        newest(
          [
            ...this.earlier.all(edition, kind, before, position, most),
            ...gone(kind, ({ at }) => at < before),
          ],
          most,
        ),
      bySubject: (kind, subject, before, most) =>
        newest(
          [
            ...this.bySubject.all(edition, kind, subject, before, position, most),
            ...gone(kind, (row) => row.subject === subject && row.at < before),
          ],
          most,
        ),
      oldest: (kind) => {
        const all = [this.oldest.get(edition, kind, position), ...gone(kind, () => true).map(({ at }) => at)];
        return all.reduce((a, b) => (a === undefined || (b !== undefined && b < a) ? b : a));
      },
    };
  }
}

function newest(rows: Stood[], most: number): readonly Stood[] {
  return rows.sort((a, b) => oldestFirst(b, a)).slice(0, most);
}

/** As SQLite sorts texts: by their bytes. */
function oldestFirst(a: Stood, b: Stood): number {
  return a.at - b.at || Buffer.compare(Buffer.from(a.id), Buffer.from(b.id));
}
