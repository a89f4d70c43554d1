import type { Database } from 'better-sqlite3';
import { openDatabase, reading, set, statement } from '../../gateway/tape/database.ts';
import type { Change } from '../../model/signals/signals.ts';

/** Rows asked for at once: as many changes as ten minutes of the line have. */
const AT_ONCE = 5748;

/**
 * What the tape is measured against: one table of SQLite with a row a change, set up as the tape's database is, so that a
 * commit is durable.
 */
export class PlainRows {
  private readonly database: Database;
  private readonly write: (changes: readonly Change[]) => void;

  constructor(file: string) {
    this.database = openDatabase(file);
    set(this.database, 'journal_mode = WAL');
    set(this.database, 'synchronous = FULL');
    this.database.exec(
      'CREATE TABLE change (position INTEGER PRIMARY KEY, signal INTEGER, at INTEGER, received INTEGER, status INTEGER, value)',
    );
    const insert = statement(
      this.database,
      'INSERT INTO change (signal, at, received, status, value) VALUES (?, ?, ?, ?, ?)',
    );
    this.write = this.database.transaction((changes: readonly Change[]) => {
      for (const { signal, at, received, status, value } of changes)
        insert.run(signal, at, received, status, typeof value === 'boolean' ? Number(value) : value);
    });
  }

  /** Durable when it returns. */
  append(changes: readonly Change[]): void {
    this.write(changes);
  }

  /** Every change, some thousand at a time; answers how many there were. */
  read(): number {
    const some = statement<[number, number], Change>(
      this.database,
      'SELECT signal, at, received, status, value FROM change WHERE position > ? AND position <= ? ORDER BY position',
    );
    let seen = 0;
    for (let from = 0; ; from += AT_ONCE) {
      const changes = some.all(from, from + AT_ONCE);
      if (changes.length === 0) return seen;
      seen += changes.length;
    }
  }

  /** Bytes of the file that hold something. */
  bytes(): number {
    return (
      (reading(this.database, 'page_count') - reading(this.database, 'freelist_count')) *
      reading(this.database, 'page_size')
    );
  }

  close(): void {
    this.database.close();
  }
}
