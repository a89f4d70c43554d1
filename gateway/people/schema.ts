import type { Database } from 'better-sqlite3';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { reading, set, statement } from '../tape/database.ts';

const words = wordsIn('en');
/** "SCLP": marks the file as people. */
const MARK = 0x53434c50;
/** Format of the tables. A change of them is a new number here and a step that brings the older one up to it. */
const FORMAT = 2;

/* Names stand in a table of their own, so that one can be erased and its number stays. Secrets, tokens and the keys of
   guesses are kept as what cannot be turned back. */
const tables = `
  CREATE TABLE person (
    number TEXT PRIMARY KEY, roles TEXT NOT NULL, created INTEGER NOT NULL, disabled INTEGER
  ) WITHOUT ROWID;
  CREATE TABLE name (number TEXT PRIMARY KEY REFERENCES person, name TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE secret (
    number TEXT NOT NULL REFERENCES person, kind TEXT NOT NULL, hash TEXT NOT NULL, provisional INTEGER NOT NULL,
    PRIMARY KEY (number, kind)
  ) WITHOUT ROWID;
  CREATE TABLE session (
    token BLOB PRIMARY KEY, person TEXT NOT NULL REFERENCES person, kind TEXT NOT NULL, place TEXT NOT NULL,
    provisional INTEGER NOT NULL, from_ms INTEGER NOT NULL, until_ms INTEGER NOT NULL, used_ms INTEGER NOT NULL
  ) WITHOUT ROWID;
  CREATE TABLE guesses (
    key TEXT PRIMARY KEY, known INTEGER NOT NULL, wrong INTEGER NOT NULL, last_ms INTEGER NOT NULL, until_ms INTEGER NOT NULL
  ) WITHOUT ROWID;
  CREATE INDEX guesses_by_age ON guesses (known, last_ms);
  CREATE TABLE setting (name TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
`;

/** Since format 2: browsers that take notices for a person. */
const pushTable = `
  CREATE TABLE push (
    endpoint TEXT PRIMARY KEY, person TEXT NOT NULL REFERENCES person, p256dh TEXT NOT NULL, auth TEXT NOT NULL,
    since_ms INTEGER NOT NULL
  ) WITHOUT ROWID;
  CREATE INDEX push_by_person ON push (person);
`;

/**
 * Makes a database ready to hold people; answers whether it is new. What is deleted is overwritten, and no log of
 * earlier pages stays beside the file: a name that is erased is in no file any more. Nor does a temporary one hold it.
 */
export function preparePeople(database: Database, durable = true): boolean {
  const mark = reading(database, 'application_id');
  const format = reading(database, 'user_version');
  const empty = statement(database, 'SELECT count(*) FROM sqlite_master').pluck().get() === 0;
  refuseForeign(database.name, { mark, format, empty });
  set(database, 'journal_mode = DELETE');
  set(database, `synchronous = ${durable ? 'FULL' : 'OFF'}`);
  set(database, 'secure_delete = ON');
  set(database, 'temp_store = MEMORY');
  set(database, 'foreign_keys = ON');
  const create = database.transaction(() => {
    if (format === FORMAT) return;
    if (empty) database.exec(tables);
    database.exec(pushTable);
    set(database, `application_id = ${MARK}`);
    set(database, `user_version = ${FORMAT}`);
  });
  create.immediate();
  return empty;
}

function refuseForeign(
  name: string,
  { mark, format, empty }: { readonly mark: number; readonly format: number; readonly empty: boolean },
): void {
  if (mark !== MARK && !(empty && mark === 0 && format === 0))
    throw new LineError(words.people.foreign(name), words.people.foreignTold);
  if (format > FORMAT)
    throw new LineError(words.people.newer(name, format, FORMAT), {
      why: words.tape.newerWhy,
      mend: words.tape.newerMend,
    });
}
