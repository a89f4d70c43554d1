import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { gathered, signals, stretch } from './stretch.ts';

const line = 'line-3';
const lines = new Map([[line, signals('cycles', 'starved', 'lot')]]);
const appender = join(import.meta.dirname, 'appender.ts');
const CEILING = 300_000;

describe('the tape against the end of its process', () => {
  let folder: string;
  let children: ChildProcess[];
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'tape-'));
    children = [];
  });
  afterEach(async () => {
    for (const child of children)
      if (child.exitCode === null && child.signalCode === null) child.kill('SIGKILL');
    rmSync(folder, { recursive: true });
  });

  /** A child on the folder, and its lines as they come. */
  function start(
    command: string,
    args: string[],
  ): { child: ChildProcess; said: AsyncIterableIterator<string> } {
    const child = spawn(command, args, { stdio: ['ignore', 'pipe', 'inherit'] });
    children.push(child);
    return { child, said: createInterface({ input: child.stdout! })[Symbol.asyncIterator]() };
  }
  const startNode = (...args: string[]) =>
    start(process.execPath, ['--import', 'tsx', appender, folder, ...args]);

  it(
    'kill -9 at any moment loses nothing that was acknowledged, and leaves nothing half-written',
    async () => {
      let acknowledged = 0;
      for (const waits of [1, 7, 12, 30, 95]) {
        const { child, said } = startNode();
        expect((await said.next()).value).toBe(`open ${acknowledged}`);
        for (let heard = 0; heard < waits; heard += 1) acknowledged = Number((await said.next()).value);
        child.kill('SIGKILL');
        // what it had printed before it was ended counts as acknowledged too
        for await (const text of said) acknowledged = Number(text);

        const tape = await openSqliteTape(folder, lines);
        const end = tape.end(line);
        expect(end).toBeGreaterThanOrEqual(acknowledged);
        expect(end % 70, 'whole batches only').toBe(0);
        expect(await gathered(tape.read(line, 0, end))).toStrictEqual(stretch(0, end));
        await tape.close();
        acknowledged = end;
      }
      expect(acknowledged).toBeGreaterThan(140 * 70);
    },
    CEILING,
  );

  it(
    'a folder that another process has open is refused with its number; when that one is killed it is free',
    async () => {
      const { child, said } = startNode('hold');
      expect((await said.next()).value).toBe('open 0');
      const refusal = await openSqliteTape(folder, lines).catch((error: unknown) => error);
      expect(refusal).toBeInstanceOf(LineError);
      expect((refusal as LineError).message).toBe(`The data folder ${folder} is in use.`);
      expect((refusal as LineError).why).toContain(`process ${child.pid}`);
      const ended = once(child, 'exit');
      child.kill('SIGKILL');
      await ended;
      const tape = await openSqliteTape(folder, lines);
      await tape.append(line, stretch(0, 3));
      const again = await openSqliteTape(folder, lines).catch((error: unknown) => error);
      expect(again, 'twice in one process').toBeInstanceOf(LineError);
      expect(await gathered(tape.read(line, 0, 3))).toStrictEqual(stretch(0, 3));
      await tape.close();
      await (await openSqliteTape(folder, lines)).close();
    },
    CEILING,
  );

  it(
    'where the system lets the files grow no further it says so, and everything before is complete',
    async () => {
      const limited = `ulimit -f 250 && exec "${process.execPath}" --import tsx "${appender}" "${folder}"`;
      const { said } = start('sh', ['-c', limited]);
      const texts: string[] = [];
      for await (const text of said) texts.push(text);
      const refused = texts.pop();
      const acknowledged = Number(texts.at(-1));
      expect(refused).toMatch(
        /^refused The disk refused to store .*tape\.sqlite\. The system reported SQLITE_IOERR/,
      );
      expect(acknowledged).toBeGreaterThan(0);
      const tape = await openSqliteTape(folder, lines);
      expect(tape.end(line)).toBe(acknowledged);
      expect(await gathered(tape.read(line, 0, acknowledged))).toStrictEqual(stretch(0, acknowledged));
      await tape.append(line, stretch(acknowledged, acknowledged + 5));
      await tape.close();
    },
    CEILING,
  );
});
