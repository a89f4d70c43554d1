import Database from 'better-sqlite3';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const words = wordsIn('en').tape;

/** Runs something on the disk; what the disk refuses becomes a `LineError` about that file. */
export function onDisk<Result>(file: string, act: () => Result): Result {
  try {
    return act();
  } catch (error) {
    throw diskTrouble(error, file);
  }
}

/** What a person can do about an error of the disk or of the database; any other error is given back as it is. */
export function diskTrouble(error: unknown, file: string): unknown {
  if (error instanceof Database.SqliteError) return sqliteTrouble(error.code, file) ?? error;
  const code = (error as NodeJS.ErrnoException | undefined)?.code;
  switch (code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return full(file);
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
    case 'ENOTDIR':
    case 'EEXIST':
      return readOnly(file);
    case 'EIO':
      return disk(file, code);
    default:
      return error;
  }
}

function sqliteTrouble(code: string, file: string): LineError | undefined {
  if (code === 'SQLITE_FULL') return full(file);
  if (/^SQLITE_(READONLY|CANTOPEN|PERM|AUTH)/.test(code)) return readOnly(file);
  if (/^SQLITE_(CORRUPT|NOTADB)/.test(code)) {
    return new LineError(words.damagedFile(file), {
      why: words.damagedFileWhy,
      mend: words.damagedFileMend,
    });
  }
  if (/^SQLITE_(BUSY|LOCKED)/.test(code)) {
    return new LineError(words.busy(file), { why: words.busyWhy, mend: words.busyMend });
  }
  if (/^SQLITE_(IOERR|PROTOCOL|NOLFS)/.test(code)) return disk(file, code);
  return undefined;
}

function full(file: string): LineError {
  return new LineError(words.full(file), { why: words.fullWhy, mend: words.fullMend });
}

function readOnly(file: string): LineError {
  return new LineError(words.readOnly(file), { why: words.readOnlyWhy, mend: words.readOnlyMend });
}

function disk(file: string, code: string): LineError {
  return new LineError(words.disk(file), { why: words.diskWhy(code), mend: words.diskMend });
}
