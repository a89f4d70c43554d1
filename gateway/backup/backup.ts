import { existsSync, mkdirSync, readdirSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { MODEL_VERSION } from '../../model/fold/version.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { copyDatabase } from './databaseCopy.ts';
import { copyOf, heldIn } from './fileHash.ts';
import { linesIn } from './linesIn.ts';
import { type BackupContent, type BackupFile, manifestOf, writeManifest } from './manifest.ts';
import { onFile } from './onFile.ts';
import type { Work } from './progress.ts';
import { makeFolder } from './unfinished.ts';

const words = wordsIn('en').gateway.backup;

export interface BackupAsked {
  /** Where it is to stand: nothing yet. */
  readonly folder: string;
  readonly data: string;
  /** The line's file and what belongs to it, to be kept beside the tape. */
  readonly lineFiles: readonly string[];
  /** Whether keys and certificates go with it: whoever has them can pass for this gateway. */
  readonly keys: boolean;
  /** Milliseconds since 1970. */
  readonly now: number;
}

/** Where a backup keeps the line's file. */
export const LINE_FOLDER = 'line';

/** What holds keys. The simulated line's are among them. */
const KEYS: ReadonlySet<string> = new Set(['certificates', 'tls', 'push.json', 'simulator']);
/** What is made anew: the records of the past and files that were exported; and what belongs to a process. */
const MADE_ANEW = /^(records\.sqlite|exports|tape\.lock|tape\.owner)|-(wal|shm|journal)$|\.new$/;

/**
 * Copies a data folder, while its gateway runs or not: databases each as they are at one moment, the rest file by file. It
 * stands there whole, with every hash, or not at all. What is left out is told.
 */
export async function backUp(asked: BackupAsked, work: Work): Promise<BackupContent> {
  const { folder, data, keys } = asked;
  if (!existsSync(join(data, 'tape.sqlite')))
    throw new LineError(words.nothingThere(data), {
      why: words.nothingThereWhy,
      mend: words.nothingThereMend,
    });
  return makeFolder(folder, async (unfinished) => {
    const leftOut: string[] = [];
    for (const name of onFile(data, () => readdirSync(data)).sort()) {
      work.stopping.throwIfAborted();
      if (MADE_ANEW.test(name) || (KEYS.has(name) && !keys)) {
        if (!/^tape\.|-(wal|shm|journal)$/.test(name)) leftOut.push(name);
      } else await copyOne(join(data, name), join(unfinished, name), work);
    }
    if (asked.lineFiles.length > 0)
      mkdirSync(join(unfinished, LINE_FOLDER), { recursive: true, mode: 0o700 });
    for (const file of asked.lineFiles)
      await copyOf(file, join(unfinished, LINE_FOLDER, basename(file)), work.stopping);
    const backup = manifestOf({
      made: new Date(asked.now).toISOString(),
      modelVersion: String(MODEL_VERSION),
      keys,
      files: await filesIn(unfinished, work),
      lines: await linesIn(join(unfinished, 'tape.sqlite'), work),
      leftOut,
    });
    writeManifest(unfinished, backup);
    return backup;
  });
}

async function copyOne(source: string, target: string, work: Work): Promise<void> {
  const name = basename(source);
  if (name.endsWith('.sqlite'))
    return copyDatabase(source, target, work.stopping, (share) => work.progress(words.copying(name), share));
  if (statSync(source).isDirectory()) {
    for (const inner of namesIn(source)) {
      mkdirSync(dirname(join(target, inner)), { recursive: true, mode: 0o700 });
      await copyOf(join(source, inner), join(target, inner), work.stopping);
    }
    return;
  }
  await copyOf(source, target, work.stopping);
}

/** Every file of a folder, by its path in it. */
export function namesIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll('\\', '/'),
    )
    .sort();
}

async function filesIn(folder: string, work: Work): Promise<BackupFile[]> {
  const names = namesIn(folder).filter((name) => !/^tape\.(lock|owner)$/.test(name));
  const of = names.reduce((sum, name) => sum + statSync(join(folder, name)).size, 0);
  let done = 0;
  const files: BackupFile[] = [];
  for (const name of names) {
    const held = await heldIn(join(folder, name), work.stopping, (bytes) => {
      done += bytes;
      work.progress(words.hashing, done / Math.max(1, of));
    });
    files.push({ name, ...held });
  }
  return files;
}

/** The line's file and those that belong to it, where they are. */
export function withNeighbours(lineFile: string, others: readonly (string | undefined)[]): readonly string[] {
  const there = others.filter((file) => file !== undefined && existsSync(file)) as string[];
  // one that lies elsewhere would not be found again by the line's file
  return [lineFile, ...there.filter((file) => dirname(file) === dirname(lineFile))];
}
