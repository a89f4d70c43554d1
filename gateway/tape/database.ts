import Database from 'better-sqlite3';

/*
 * On Node 24 (24.19 and later) a native object of the database library that is garbage-collected may end the whole
 * process: its destructor asks for an environment that a collection between two tasks does not have. So none is ever
 * collected: databases and statements are made here, once for each text, and kept as long as the process lives. There
 * are few of them. A test looks that nothing else of the gateway makes one.
 */
const kept = new Map<Database.Database, Map<string, Database.Statement>>();

/** Opens a database file. `timeout`: how long it waits for another program that has it, in milliseconds. */
export function openDatabase(file: string, timeout = 0): Database.Database {
  return keeping(new Database(file, { timeout }));
}

/** Opens one that is there to be read alone, also while another program writes to it. */
export function openToRead(file: string, timeout = 0): Database.Database {
  return keeping(new Database(file, { timeout, readonly: true, fileMustExist: true }));
}

function keeping(database: Database.Database): Database.Database {
  kept.set(database, new Map());
  return database;
}

/** The statement of a text, always the same one: a text belongs to one place, which also says how its rows come. */
export function statement<Parameters extends unknown[] = unknown[], Row = unknown>(
  database: Database.Database,
  text: string,
): Database.Statement<Parameters, Row> {
  const known = kept.get(database);
  if (!known) throw new Error('Mistake in Scoreline: a database that was not opened by openDatabase');
  const made = known.get(text) ?? database.prepare(text);
  known.set(text, made);
  return made as Database.Statement<Parameters, Row>;
}

/** A number that the database tells of itself, such as `user_version`. */
export function reading(database: Database.Database, name: string): number {
  return statement(database, `PRAGMA ${name}`).pluck().get() as number;
}

/** A setting, such as `synchronous = FULL`; what it answers is not asked for. */
export function set(database: Database.Database, setting: string): void {
  database.exec(`PRAGMA ${setting}`);
}
