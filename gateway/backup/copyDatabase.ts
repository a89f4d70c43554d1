import { chmodSync, closeSync, fsyncSync, openSync } from 'node:fs';
import { openToRead, statement } from '../tape/database.ts';

/*
 * Copies a database while others write to it, by SQLite's own VACUUM INTO: one moment of it, whole, without what was deleted.
 * It is a process of its own, because that holds it up from beginning to end: whoever started it sees the file grow, and
 * can end it. Called with the database and the file to make; what goes wrong is a code on the standard error.
 */

/** How long it waits for a writer. Milliseconds. */
const BUSY_MS = 10_000;

const [source = '', target = ''] = process.argv.slice(2);
try {
  const database = openToRead(source, BUSY_MS);
  statement(database, 'VACUUM INTO ?').run(target);
  database.close();
  const file = openSync(target, 'r+');
  fsyncSync(file);
  chmodSync(target, 0o600);
  closeSync(file);
} catch (error) {
  process.stderr.write(`code ${(error as { code?: string }).code ?? String(error)}\n`);
  process.exitCode = 1;
}
