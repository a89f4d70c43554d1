import type { Database } from 'better-sqlite3';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { reading, set, statement } from './database.ts';

const words = wordsIn('en').tape;

/** "SCLT": marks the file as a tape. */
const MARK = 0x53434c54;
/** Format of the tables. A change of them is a new number here and a step that brings the older one up to it. */
const FORMAT = 1;
/** What the write-ahead log may keep on disk once it has been written back. */
const LOG_BYTES = 8 * 1024 * 1024;

const tables = `
  CREATE TABLE line (number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE);
  CREATE TABLE signal (
    line INTEGER NOT NULL, number INTEGER NOT NULL, id TEXT NOT NULL,
    PRIMARY KEY (line, number), UNIQUE (line, id)
  ) WITHOUT ROWID;
  CREATE TABLE segment (
    line INTEGER NOT NULL, start INTEGER NOT NULL, count INTEGER NOT NULL, body BLOB NOT NULL, UNIQUE (line, start)
  );
  CREATE TABLE batch (
    line INTEGER NOT NULL, start INTEGER NOT NULL, count INTEGER NOT NULL, body BLOB NOT NULL, UNIQUE (line, start)
  );
  CREATE TABLE checkpoint (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    line INTEGER NOT NULL, version TEXT NOT NULL, position INTEGER NOT NULL, body BLOB NOT NULL,
    UNIQUE (line, version, position)
  );
`;

/**
 * Makes a database ready to be a tape: its tables if it is new, and at every opening the settings that make a commit
 * durable against loss of power, as these do not stay with the file.
 */
export function prepare(database: Database): void {
  const { name } = database;
  const mark = reading(database, 'application_id');
  const format = reading(database, 'user_version');
  const empty = statement(database, 'SELECT count(*) FROM sqlite_master').pluck().get() === 0;
  if (mark !== MARK && !(empty && mark === 0 && format === 0)) {
    throw new LineError(words.foreign(name), { why: words.foreignWhy, mend: words.foreignMend });
  }
  if (format > FORMAT) {
    throw new LineError(words.newer(name, format, FORMAT), { why: words.newerWhy, mend: words.newerMend });
  }
  set(database, 'journal_mode = WAL');
  set(database, 'synchronous = FULL');
  set(database, `journal_size_limit = ${LOG_BYTES}`);
  const create = database.transaction(() => {
    if (!empty) return;
    database.exec(tables);
    set(database, `application_id = ${MARK}`);
    set(database, `user_version = ${FORMAT}`);
  });
  create.immediate(); // also where there is nothing to create: a tape that cannot be written is refused at once
}
