import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { openDatabase, set } from './database.ts';
import { diskTrouble, onDisk } from './diskTrouble.ts';

const words = wordsIn('en').tape;

/** A hold on a data folder. */
export interface FolderLock {
  release(): void;
}

/**
 * Takes a data folder for this process, or says who has it. The hold is a lock that the system keeps on a file, so it
 * ends with its process, however that ends: nothing stale is ever left, and no process number is trusted. The number
 * in `tape.owner` is only told to people.
 */
export function lockFolder(folder: string): FolderLock {
  const owner = join(folder, 'tape.owner');
  const file = join(folder, 'tape.lock');
  const lock = onDisk(file, () => openDatabase(file));
  try {
    set(lock, 'journal_mode = memory');
    lock.exec('BEGIN EXCLUSIVE');
    writeFileSync(owner, `${process.pid}\n`);
  } catch (error) {
    lock.close();
    if (error instanceof Database.SqliteError && error.code.startsWith('SQLITE_BUSY'))
      throw inUse(folder, owner);
    throw diskTrouble(error, file);
  }
  return {
    release: () => {
      rmSync(owner, { force: true });
      lock.close();
    },
  };
}

function inUse(folder: string, owner: string): LineError {
  const text = existsSync(owner) ? readFileSync(owner, 'utf8') : '';
  const process = /^[0-9]+\n$/.test(text) ? Number(text) : undefined;
  return new LineError(words.inUse(folder), { why: words.inUseWhy(process), mend: words.inUseMend });
}
