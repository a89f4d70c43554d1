import type { Database } from 'better-sqlite3';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { reading, set, statement } from './database.ts';

const words = wordsIn('en').tape;

/** "SCLT": marks the file as a tape. */
const MARK = 0x53434c54;
/** Format of the tables. A change of them is a new number here and a step that brings the older one up to it. */
const FORMAT = 4;
/** What the write-ahead log may keep on disk once it has been written back. */
const LOG_BYTES = 8 * 1024 * 1024;

/** What stands beside each segment since format 2; an older one's times are worked out when there is time for it. */
const spans = `
  CREATE TABLE span (
    line INTEGER NOT NULL, start INTEGER NOT NULL, count INTEGER NOT NULL, bytes INTEGER NOT NULL,
    at_least INTEGER, at_most INTEGER, received_least INTEGER, received_most INTEGER,
    damaged INTEGER NOT NULL DEFAULT 0, PRIMARY KEY (line, start)
  ) WITHOUT ROWID;
`;
/**
 * Since format 3: what each signal had told last at the end of a segment, for when the segment is damaged; and saved states
 * that are told by what differs from an earlier one, which `base` names.
 */
const lasts = `
  CREATE TABLE last (
    line INTEGER NOT NULL, start INTEGER NOT NULL, body BLOB NOT NULL, PRIMARY KEY (line, start)
  ) WITHOUT ROWID;
`;
const checkpoints = `
  CREATE TABLE checkpoint (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    line INTEGER NOT NULL, version TEXT NOT NULL, position INTEGER NOT NULL,
    passing INTEGER NOT NULL, base INTEGER, depth INTEGER NOT NULL, body BLOB NOT NULL,
    UNIQUE (line, version, position)
  );
  CREATE INDEX checkpoint_passing ON checkpoint (line) WHERE passing = 1;
  CREATE INDEX checkpoint_base ON checkpoint (base) WHERE base IS NOT NULL;
`;
/** Since format 4: where a line's tape begins, where its beginning was taken away. */
const keptFroms = `
  CREATE TABLE kept_from (line INTEGER PRIMARY KEY, position INTEGER NOT NULL);
`;
const tables = `${spans}${lasts}${checkpoints}${keptFroms}
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
`;

/** By the format that it brings to the next one. */
const steps: Readonly<Record<number, string>> = {
  1: `${spans}
    INSERT INTO span (line, start, count, bytes) SELECT line, start, count, length(body) FROM segment ORDER BY line, start;
  `,
  2: `${lasts}
    ALTER TABLE checkpoint RENAME TO checkpoint_before;
    ${checkpoints}
    INSERT INTO checkpoint (number, line, version, position, passing, base, depth, body)
      SELECT number, line, version, position, 0, NULL, 0, body FROM checkpoint_before;
    DROP TABLE checkpoint_before;
  `,
  3: keptFroms,
};

/**
 * Makes a database ready to be a tape: its tables if it is new, and at every opening the settings that make a commit
 * durable against loss of power, as these do not stay with the file.
 */
export function prepare(database: Database): void {
  const empty = statement(database, 'SELECT count(*) FROM sqlite_master').pluck().get() === 0;
  const format = formatOf(database, empty);
  set(database, 'journal_mode = WAL');
  set(database, 'synchronous = FULL');
  set(database, `journal_size_limit = ${LOG_BYTES}`);
  const create = database.transaction(() => {
    if (empty) {
      database.exec(tables);
      set(database, `application_id = ${MARK}`);
    } else for (let from = format; from < FORMAT; from += 1) database.exec(steps[from]!);
    if (format < FORMAT) set(database, `user_version = ${FORMAT}`);
  });
  create.immediate(); // also where there is nothing to do: a tape that cannot be written is refused at once
}

/** The format of a tape. Refuses what is none, or one of a later version; `empty`: an empty file may still become one. */
export function formatOf(database: Database, empty = false): number {
  const { name } = database;
  const mark = reading(database, 'application_id');
  const format = reading(database, 'user_version');
  if (mark !== MARK && !(empty && mark === 0 && format === 0)) {
    throw new LineError(words.foreign(name), { why: words.foreignWhy, mend: words.foreignMend });
  }
  if (format > FORMAT) {
    throw new LineError(words.newer(name, format, FORMAT), { why: words.newerWhy, mend: words.newerMend });
  }
  return format;
}
