import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmdirSync,
  rmSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { lockFolder } from '../tape/folderLock.ts';
import { onFile } from './onFile.ts';

const words = wordsIn('en').gateway.backup;

/**
 * Makes a folder whole or not at all: `make` fills one beside it, named `….unfinished`, which gets the name when all of it is
 * there and on the disk. This user alone may look into it unless `mode` says otherwise. What was not finished goes; where the process was killed, at the next try.
 */
export async function makeFolder<Result>(
  folder: string,
  make: (unfinished: string) => Promise<Result>,
  mode = 0o700,
): Promise<Result> {
  refuseUnlessFree(folder);
  const unfinished = `${folder}.unfinished`;
  onFile(unfinished, () => mkdirSync(unfinished, { recursive: true, mode }));
  const lock = lockFolder(unfinished);
  const locks = new Set(['tape.lock', 'tape.owner']);
  try {
    for (const name of readdirSync(unfinished))
      if (!locks.has(name)) rmSync(join(unfinished, name), { recursive: true });
    const result = await make(unfinished);
    lock.release();
    for (const name of locks) rmSync(join(unfinished, name), { force: true });
    syncFolder(unfinished);
    refuseUnlessFree(folder);
    onFile(folder, () => {
      if (existsSync(folder)) rmdirSync(folder);
      renameSync(unfinished, folder);
      syncFolder(dirname(folder));
    });
    return result;
  } catch (error) {
    lock.release();
    rmSync(unfinished, { recursive: true, force: true });
    throw error;
  }
}

/** A folder that holds anything is never written into. */
export function refuseUnlessFree(folder: string): void {
  if (!existsSync(folder)) return;
  const held = onFile(folder, () => readdirSync(folder));
  if (held.length > 0)
    throw new LineError(words.taken(folder), { why: words.takenWhy, mend: words.takenMend });
}

/** Its names outlast a loss of power; some systems cannot do that for a folder. */
function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const opened = openSync(folder, 'r');
  try {
    fsyncSync(opened);
  } finally {
    closeSync(opened);
  }
}
