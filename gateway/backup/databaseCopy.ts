import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { statSync } from 'node:fs';
import { text } from 'node:stream/consumers';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { onFile } from './onFile.ts';

const { backup: words, system } = wordsIn('en').gateway;
const program = fileURLToPath(new URL('./copyDatabase.ts', import.meta.url));
/** How often its file is looked at. Milliseconds. */
const LOOK_EVERY = 250;

/** One moment of a database, in a file of its own, while others write to it. `share`: told how much of it is there. */
export async function copyDatabase(
  source: string,
  target: string,
  stopping: AbortSignal,
  share: (done: number) => void,
): Promise<void> {
  stopping.throwIfAborted();
  const of = onFile(source, () => sizeOf(source) + sizeOf(`${source}-wal`));
  const child = spawn(process.execPath, ['--import', 'tsx', program, source, target], {
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  const end = () => void child.kill();
  stopping.addEventListener('abort', end);
  const state = { over: false };
  const over = Promise.all([once(child, 'exit') as Promise<[number | null]>, text(child.stderr)]).finally(
    () => {
      state.over = true;
    },
  );
  const looking = look(target, of, state, share);
  try {
    const [[code], said] = await over;
    stopping.throwIfAborted();
    if (code === 0) return share(1);
    throw new LineError(words.notCopied(source), {
      why: system.why(/^code (\w+)$/m.exec(said)?.[1]),
      mend: words.notCopiedMend,
    });
  } finally {
    stopping.removeEventListener('abort', end);
    await looking;
  }
}

async function look(
  target: string,
  of: number,
  state: { readonly over: boolean },
  share: (done: number) => void,
): Promise<void> {
  while (!state.over) {
    await setTimeout(LOOK_EVERY);
    if (!state.over) share(Math.min(0.99, sizeOf(target) / Math.max(1, of)));
  }
}

function sizeOf(file: string): number {
  return statSync(file, { throwIfNoEntry: false })?.size ?? 0;
}
