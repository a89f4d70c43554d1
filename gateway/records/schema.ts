import type { Database } from 'better-sqlite3';
import { reading, set, statement } from '../tape/database.ts';

/** "SCLR": marks the file as records. */
const MARK = 0x53434c52;
/** Format of the tables; a file of another one is emptied and made anew from the tape. */
const FORMAT = 2;

const tables = `
  CREATE TABLE edition (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    line TEXT NOT NULL, version TEXT NOT NULL, position INTEGER NOT NULL, serves INTEGER NOT NULL
  );
  CREATE TABLE record (
    edition INTEGER NOT NULL, kind TEXT NOT NULL, at INTEGER NOT NULL, id TEXT NOT NULL, until INTEGER, body TEXT NOT NULL,
    subject TEXT,
    PRIMARY KEY (edition, kind, at, id)
  ) WITHOUT ROWID;
  CREATE INDEX by_subject ON record (edition, kind, subject, at) WHERE subject IS NOT NULL;
`;

/** Makes a database ready to hold records: anew where it is another format's. Not as durable as a tape: it is a cache. */
export function prepareRecords(database: Database): void {
  set(database, 'journal_mode = WAL');
  set(database, 'synchronous = NORMAL');
  set(database, `journal_size_limit = ${8 * 1024 * 1024}`);
  if (areRecords(database)) return;
  const names = statement(
    database,
    "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'",
  )
    .pluck()
    .all() as string[];
  for (const name of names) database.exec(`DROP TABLE "${name}"`);
  database.exec(tables);
  set(database, `application_id = ${MARK}`);
  set(database, `user_version = ${FORMAT}`);
}

/** Whether a database holds records of this format. */
export function areRecords(database: Database): boolean {
  return reading(database, 'application_id') === MARK && reading(database, 'user_version') === FORMAT;
}
