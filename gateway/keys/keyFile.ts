import {
  closeSync,
  fstatSync,
  fsyncSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';

const english = wordsIn('en').gateway;
const words = english.keys;

/**
 * A key of our own; undefined where there is none yet. One that others could read is not used, since they may have.
 * `mend`: what to do about one that they have.
 */
export function readKeyFile(file: string, mend: string): string | undefined {
  const opened = openedFile(file);
  if (opened === undefined) return undefined;
  try {
    const { mode, uid } = fstatSync(opened);
    if ((mode & 0o077) !== 0 || ![process.getuid?.(), 0, undefined].includes(uid))
      throw new LineError(words.notUsed(file), { why: words.openWhy, mend: `${words.openMend} ${mend}` });
    return readFileSync(opened, 'utf8');
  } finally {
    closeSync(opened);
  }
}

/** What lies in a file of our own that is no secret; undefined where there is none. */
export function readOwnFile(file: string): string | undefined {
  const opened = openedFile(file);
  if (opened === undefined) return undefined;
  try {
    return readFileSync(opened, 'utf8');
  } finally {
    closeSync(opened);
  }
}

/** Whole or not at all, also where the power fails: under another name first, which then takes its place. */
export function writeOwnFile(file: string, text: string, mode: number): void {
  const fresh = `${file}.new`;
  onDisk(file, () => {
    rmSync(fresh, { force: true });
    const opened = openSync(fresh, 'wx', mode);
    try {
      writeSync(opened, text);
      fsyncSync(opened);
    } finally {
      closeSync(opened);
    }
    renameSync(fresh, file);
  });
}

/** Runs something that makes a file; what the disk refuses is told in words. */
export function onDisk(file: string, act: () => void): void {
  try {
    act();
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new LineError(words.notWritten(file), {
      why: english.system.why(code),
      mend: words.notWrittenMend,
    });
  }
}

function openedFile(file: string): number | undefined {
  try {
    return openSync(file, 'r');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') return undefined;
    throw new LineError(words.unreadable(file), {
      why: english.system.why(code),
      mend: words.unreadableMend,
    });
  }
}
