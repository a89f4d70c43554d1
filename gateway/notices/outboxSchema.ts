import type { Database } from 'better-sqlite3';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { reading, set, statement } from '../tape/database.ts';

const words = wordsIn('en').ways.outbox;
const { tape } = wordsIn('en');

/** "SCLO": marks the file as an outbox. */
const MARK = 0x53434c4f;
/** Format of the table. A change of it is a new number here and a step that brings the older one up to it. */
const FORMAT = 2;

/** `recorded`: null until it has come to an end, then 0, and 1 when the tape has it. */
const tables = `
  CREATE TABLE letter (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL UNIQUE, person TEXT NOT NULL, way TEXT NOT NULL, message TEXT NOT NULL, offered INTEGER NOT NULL,
    state TEXT NOT NULL, tries INTEGER NOT NULL, tries_most INTEGER NOT NULL,
    since INTEGER NOT NULL, wait INTEGER NOT NULL, trouble TEXT, code TEXT, recorded INTEGER
  );
  CREATE INDEX not_recorded ON letter (number) WHERE recorded = 0;
`;

/**
 * Since format 2: of which notice, line and round a letter is and whether it is urgent, without reading what it says; whether
 * it may have arrived by a try of which nobody knows what came of it; and why it was withdrawn.
 */
const columns = `
  ALTER TABLE letter ADD COLUMN line TEXT NOT NULL DEFAULT '';
  ALTER TABLE letter ADD COLUMN notice TEXT NOT NULL DEFAULT '';
  ALTER TABLE letter ADD COLUMN round INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE letter ADD COLUMN urgent INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE letter ADD COLUMN perhaps INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE letter ADD COLUMN withdrawn TEXT;
  UPDATE letter SET
    line = json_extract(message, '$.line'), notice = json_extract(message, '$.notice'),
    round = json_extract(message, '$.round'), urgent = json_extract(message, '$.level') = 'urgent';
  DROP INDEX IF EXISTS by_state;
  CREATE INDEX by_state ON letter (state, urgent DESC, number);
`;

/** Makes a database ready to be an outbox. As durable as a tape: a notice that was taken must outlive a power cut. */
export function prepareOutbox(database: Database): void {
  const { name } = database;
  const mark = reading(database, 'application_id');
  const format = reading(database, 'user_version');
  const empty = statement(database, 'SELECT count(*) FROM sqlite_master').pluck().get() === 0;
  const known = mark === MARK && format >= 1;
  if (!known && !(empty && mark === 0)) {
    throw new LineError(words.foreign(name), { why: words.foreignWhy, mend: words.foreignMend });
  }
  if (format > FORMAT)
    throw new LineError(words.newer(name, format, FORMAT), { why: tape.newerWhy, mend: tape.newerMend });
  set(database, 'journal_mode = WAL');
  set(database, 'synchronous = FULL');
  set(database, `journal_size_limit = ${8 * 1024 * 1024}`);
  const create = database.transaction(() => {
    if (format === FORMAT) return;
    if (empty) database.exec(tables);
    database.exec(columns);
    set(database, `application_id = ${MARK}`);
    set(database, `user_version = ${FORMAT}`);
  });
  create.immediate(); // also where there is nothing to create: an outbox that cannot be written is refused at once
}
