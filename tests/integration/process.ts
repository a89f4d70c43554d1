import { type ChildProcess, spawn } from 'node:child_process';
import { createServer } from 'node:net';
import { once } from 'node:events';
import { resolve } from 'node:path';

const root = resolve(import.meta.dirname, '../..');

/** A program of the project as a process of its own, with what it has said so far. */
export interface Program {
  readonly child: ChildProcess;
  /** Standard output and error so far. */
  said(): string;
  /** Waits until it says something that fits; tells what it said instead when it ends before. */
  until(wanted: RegExp): Promise<RegExpMatchArray>;
  /** Asks it to end as Ctrl-C does, and answers its exit code. */
  end(): Promise<number | null>;
}

export function startProgram(file: string, args: readonly string[]): Program {
  const child = spawn(process.execPath, ['--import', 'tsx', file, ...args], {
    cwd: root,
    stdio: ['pipe', 'pipe', 'pipe'],
  });
  let said = '';
  let ended = false;
  child.stdout!.on('data', (text: Buffer) => {
    said += String(text);
  });
  child.stderr!.on('data', (text: Buffer) => {
    said += String(text);
  });
  child.once('exit', () => {
    ended = true;
  });
  return {
    child,
    said: () => said,
    until: async (wanted) => {
      for (;;) {
        const match = said.match(wanted);
        if (match) return match;
        if (ended) throw new Error(`${file} ended without saying ${wanted}:\n${said}`);
        await pause(20);
      }
    },
    end: async () => {
      if (ended) return child.exitCode;
      const exit = once(child, 'exit') as Promise<[number | null]>;
      child.kill('SIGINT');
      const [code] = await exit;
      return code;
    },
  };
}

/**
 * Polls until something holds; the test's own ceiling ends it. It looks less and less often, since what is waited for long
 * is mostly waited for beside other tests.
 */
export async function poll<Found>(
  look: () => Promise<Found | undefined | false> | Found | undefined | false,
): Promise<Found> {
  for (let wait = 20; ; wait = Math.min(1.2 * wait, 500)) {
    const found = await look();
    if (found !== undefined && found !== false) return found;
    await pause(wait);
  }
}

export async function freePort(): Promise<number> {
  const server = createServer();
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as { port: number };
  server.close();
  await once(server, 'close');
  return port;
}

function pause(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, ms));
}
