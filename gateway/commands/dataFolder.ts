import { existsSync, renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { lockFolder } from '../tape/folderLock.ts';
import type { Asked } from './arguments.ts';
import { goesOn, readRun, runFile } from './demo.ts';

const words = wordsIn('en').gateway;

/** Keeps real and simulated machines apart: a folder holds the tape of the one or of the other. */
export function checkFolder({ line, data }: Pick<Asked, 'line' | 'data'>): void {
  const isDemos = existsSync(runFile(data));
  if (line !== undefined && isDemos) {
    throw new LineError(words.demoFolder(data), { why: words.demoFolderWhy, mend: words.otherFolderMend });
  }
  if (line === undefined && !isDemos && existsSync(join(data, 'tape.sqlite'))) {
    throw new LineError(words.lineFolder(data), { why: words.lineFolderWhy, mend: words.otherFolderMend });
  }
}

/**
 * The tape of another demo run is kept under another name, never deleted: two machines do not share a tape. Answers
 * that name, or undefined where the run goes on. A folder that another process uses is left alone, with words.
 */
export function setAsideUnlessSame(
  { data, fresh, speed, seed, from }: Asked,
  now: number,
): string | undefined {
  if (!existsSync(runFile(data))) return undefined;
  const before = readRun(data);
  const same =
    before !== undefined &&
    goesOn(before, now, lastWritten(data)) &&
    speed === 1 &&
    from === undefined &&
    (seed === undefined || seed === before.seed);
  if (same && !fresh) return undefined;
  lockFolder(data).release();
  const aside = `${data}-until-${new Date(now).toISOString().replaceAll(/[:.]/g, '-')}`;
  try {
    renameSync(data, aside);
  } catch (error) {
    throw new LineError(words.notSetAside(data), {
      why: words.system.why((error as NodeJS.ErrnoException).code),
      mend: words.notSetAsideMend,
    });
  }
  return aside;
}

/** When a tape was last written to, milliseconds since 1970: its file, or what lies beside it after a kill. */
function lastWritten(data: string): number | undefined {
  const times = ['tape.sqlite', 'tape.sqlite-wal'].flatMap((name) => {
    const found = statSync(join(data, name), { throwIfNoEntry: false });
    return found === undefined ? [] : [found.mtimeMs];
  });
  return times.length === 0 ? undefined : Math.max(...times);
}
