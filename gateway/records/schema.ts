import type { Database } from 'better-sqlite3';
import { reading, set, statement } from '../tape/database.ts';

/** "SCLR": marks the file as records. */
const MARK = 0x53434c52;
/** Format of the tables; a file of another one is emptied and made anew from the tape. */
const FORMAT = 3;

/*
 * `record` is what stands, and costs what it would if nothing else were kept. `since`: the position of the tape from which on
 * it stood, counted from the edition's `origin`. What another took the place of, or what was taken back, moves to `replaced`:
 * it stood from `since` until before `gone`. Such rows lived long or short; those that stood at a position are found without
 * going through all that ended after it by their `reach`, the least power of two that is no less than how long they stood.
 */
const tables = `
  CREATE TABLE edition (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    line TEXT NOT NULL, version TEXT NOT NULL, position INTEGER NOT NULL, origin INTEGER NOT NULL, serves INTEGER NOT NULL
  );
  CREATE TABLE record (
    edition INTEGER NOT NULL, kind TEXT NOT NULL, at INTEGER NOT NULL, id TEXT NOT NULL, until INTEGER,
    since INTEGER NOT NULL, body TEXT NOT NULL, subject TEXT,
    PRIMARY KEY (edition, kind, at, id)
  ) WITHOUT ROWID;
  CREATE INDEX by_subject ON record (edition, kind, subject, at) WHERE subject IS NOT NULL;
  CREATE TABLE replaced (
    edition INTEGER NOT NULL, reach INTEGER NOT NULL, gone INTEGER NOT NULL,
    kind TEXT NOT NULL, at INTEGER NOT NULL, id TEXT NOT NULL, until INTEGER,
    since INTEGER NOT NULL, body TEXT NOT NULL, subject TEXT,
    PRIMARY KEY (edition, reach, gone, kind, at, id)
  ) WITHOUT ROWID;
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
