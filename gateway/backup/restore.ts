import { existsSync, mkdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { copyOf, heldIn } from './fileHash.ts';
import { linesIn } from './linesIn.ts';
import { type BackupContent, type BackupFile, type BackupLine, readManifest } from './manifest.ts';
import type { Work } from './progress.ts';
import { makeFolder, refuseUnlessFree } from './unfinished.ts';

const words = wordsIn('en').gateway.backup;

/**
 * Puts a backup back as a data folder. Every file is checked before anything is copied, every copy once more, and the tape's
 * changes are read and held against what was backed up; then the folder stands there, whole. Where one was, nothing is done.
 */
export async function restore(folder: string, data: string, work: Work): Promise<BackupContent> {
  const backup = readManifest(folder);
  refuseUnlessFree(data);
  await check(folder, backup, words.checking, work);
  return makeFolder(data, async (unfinished) => {
    for (const { name, bytes } of backup.files) {
      mkdirSync(dirname(join(unfinished, name)), { recursive: true, mode: 0o700 });
      let done = 0;
      await copyOf(join(folder, name), join(unfinished, name), work.stopping, (copied) => {
        done += copied;
        work.progress(words.copying(name), done / Math.max(1, bytes));
      });
    }
    await check(unfinished, backup, words.checkingCopy, work);
    refuseOther(
      join(folder, 'tape.sqlite'),
      backup.lines,
      await linesIn(join(unfinished, 'tape.sqlite'), work),
    );
    return backup;
  });
}

/** Throws what names every file that is not what was backed up. */
async function check(folder: string, backup: BackupContent, what: string, work: Work): Promise<void> {
  const of = backup.files.reduce((sum, { bytes }) => sum + bytes, 0);
  let done = 0;
  const damaged: string[] = [];
  for (const file of backup.files) {
    const read = (bytes: number) => {
      done += bytes;
      work.progress(what, Math.min(1, done / Math.max(1, of)));
    };
    if (!(await isWhole(folder, file, work.stopping, read))) damaged.push(join(folder, file.name));
  }
  if (damaged.length > 0)
    throw new LineError(words.damaged(damaged), { why: words.damagedWhy, mend: words.damagedMend });
}

/** The same of one file of a backup. */
export async function checkFile(
  folder: string,
  backup: BackupContent,
  name: string,
  stopping: AbortSignal,
): Promise<void> {
  const file = backup.files.find((one) => one.name === name);
  if (file && (await isWhole(folder, file, stopping, () => {}))) return;
  throw new LineError(words.damaged([join(folder, name)]), {
    why: words.damagedWhy,
    mend: words.damagedMend,
  });
}

async function isWhole(
  folder: string,
  { name, bytes, sha256 }: BackupFile,
  stopping: AbortSignal,
  read: (bytes: number) => void,
): Promise<boolean> {
  const file = join(folder, name);
  if (!existsSync(file) || statSync(file).size !== bytes) return false;
  return (await heldIn(file, stopping, read)).sha256 === sha256;
}

function refuseOther(file: string, wanted: readonly BackupLine[], found: readonly BackupLine[]): void {
  const same = (line: BackupLine) =>
    found.some(
      ({ id, begin, end, sha256 }) =>
        id === line.id && begin === line.begin && end === line.end && sha256 === line.sha256,
    );
  if (wanted.length === found.length && wanted.every(same)) return;
  throw new LineError(words.damaged([file]), { why: words.otherChangesWhy, mend: words.damagedMend });
}
