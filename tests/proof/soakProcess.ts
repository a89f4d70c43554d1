import { fork } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import type { SoakReading, SoakWord } from './soakReading.ts';

/** A gateway in a process of its own, with what it has told of itself. */
export interface SoakProcess {
  readonly address: string;
  readonly readings: readonly SoakReading[];
  stop(): Promise<void>;
  /** At once, whatever it is doing. */
  kill(): void;
}

/** Starts it on the line file of a folder. One that ends unasked ends this process as well: there is nothing to prove then. */
export async function startGateway(folder: string): Promise<SoakProcess> {
  const child = fork(join(import.meta.dirname, 'soakGateway.ts'), [join(folder, 'line.yaml'), folder], {
    execArgv: ['--expose-gc', '--import', 'tsx'],
  });
  const readings: SoakReading[] = [];
  let asked = false;
  child.on('message', (word: SoakWord) => {
    if (word.kind === 'reading') readings.push(word.reading);
  });
  child.once('exit', (code) => {
    if (!asked) throw new Error(`The gateway ended by itself: ${code}`);
  });
  const word = async <Kind extends SoakWord['kind']>(kind: Kind) => {
    for (;;) {
      const [told] = (await once(child, 'message')) as [SoakWord];
      if (told.kind === kind) return told as Extract<SoakWord, { kind: Kind }>;
    }
  };
  const { address } = await word('opened');
  return {
    address,
    readings,
    stop: async () => {
      asked = true;
      const stopped = word('stopped');
      child.send('stop');
      await stopped;
      child.disconnect();
    },
    kill: () => {
      asked = true;
      child.kill('SIGKILL');
    },
  };
}
