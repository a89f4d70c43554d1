import Database from 'better-sqlite3';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { onDisk } from '../tape/diskTrouble.ts';

const words = wordsIn('en').people;

/** Runs something on the file of the people; what the disk refuses, or a file that is damaged, is told in words. */
export function onPeopleFile<Result>(file: string, act: () => Result): Result {
  return onDisk(file, () => {
    try {
      return act();
    } catch (error) {
      if (error instanceof Database.SqliteError && /^SQLITE_(CORRUPT|NOTADB)/.test(error.code))
        throw new LineError(words.damaged(file), words.damagedTold);
      throw error;
    }
  });
}
