import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { readLedger } from '../../../simulator/ledger/ledger.ts';
import { historyLine } from '../../../simulator/server/protocol.ts';
import { monday, runFor } from '../simulatedLine.ts';
import { until } from './until.ts';

const CEILING = 600_000;
const main = fileURLToPath(new URL('../../../simulator/main.ts', import.meta.url));
const root = fileURLToPath(new URL('../../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-'));
const started: ChildProcess[] = [];

afterAll(() => {
  for (const child of started) child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

interface Child {
  readonly process: ChildProcess;
  out: string;
  err: string;
  code: number | null | undefined;
}

function start(args: readonly string[]): Child {
  const process_ = spawn(
    process.execPath,
    ['--import', 'tsx', main, '--certificates', join(folder, 'pki'), ...args],
    {
      cwd: root,
      stdio: 'pipe',
    },
  );
  started.push(process_);
  const child: Child = { process: process_, out: '', err: '', code: undefined };
  process_.stdout.on('data', (data) => {
    child.out += String(data);
  });
  process_.stderr.on('data', (data) => {
    child.err += String(data);
  });
  process_.on('close', (code) => {
    child.code = code;
  });
  return child;
}

const ready = (child: Child) => /\n?\{"ready":"[^"]+"\}\n/.test(child.out);
const begin = '2026-03-16T05:00:00Z';
const later = '2026-03-16T06:00:00Z';

it(
  'history comes first, as the machine told it, then where the server listens; a closed input ends it',
  async () => {
    const file = join(folder, 'ledger.jsonl');
    const child = start([
      '--port',
      '0',
      '--seed',
      '8',
      '--history',
      begin,
      '--start',
      later,
      '--ledger',
      file,
    ]);
    await until(() => ready(child) || child.code !== undefined);
    const lines = child.out.trimEnd().split('\n');
    expect(JSON.parse(lines.at(-1) ?? '')).toEqual({
      ready: expect.stringMatching(/^opc\.tcp:\/\/127\.0\.0\.1:\d+$/),
    });
    const expected = runFor(1, { seed: 8, start: monday })
      .told.map(historyLine)
      .join('')
      .trimEnd()
      .split('\n');
    const noted = lines.filter((line) => line.includes('"said":'));
    expect(lines.filter((line) => !noted.includes(line)).slice(0, expected.length)).toEqual(expected);
    child.process.stdin?.end();
    await until(() => child.code !== undefined);
    expect(child.code).toBe(0);
    const ledger = readLedger(readFileSync(file, 'utf8'));
    expect(ledger.filter(({ kind }) => kind === 'carton').length).toBeGreaterThan(1_000);
  },
  CEILING,
);

it(
  'plays the faults of a file at the machine’s time, and says so; a wrong file is told in sentences',
  async () => {
    const file = join(folder, 'faults.txt');
    writeFileSync(file, '0:00:20 server killed for 10 s\n0:00:30 clock stepped by 5 s');
    const child = start(['--port', '0', '--speed', '10', '--faults', file]);
    const wrong = start(['--port', '0', '--faults', join(folder, 'nowhere.txt')]);
    await until(() => child.err.includes('clock stepped by 5 s\n') || child.code !== undefined);
    expect(child.err).toContain('Fault at 0:00:20 server killed for 10 s\n');
    await until(() => wrong.code !== undefined);
    expect([wrong.code, wrong.out]).toEqual([1, '']);
    expect(wrong.err).toContain('nowhere.txt');
    expect(wrong.err).not.toContain('at file:');
    child.process.kill('SIGTERM');
    await until(() => child.code !== undefined);
    expect(child.code).toBe(0);
    expect(child.out.trimEnd().split('\n').length).toBe(1);
  },
  CEILING,
);

it(
  'SIGTERM ends it cleanly',
  async () => {
    const child = start(['--port', '0', '--speed', '10']);
    await until(() => ready(child) || child.code !== undefined);
    child.process.kill('SIGTERM');
    await until(() => child.code !== undefined);
    expect(child.code).toBe(0);
    expect(child.out.trimEnd().split('\n').length).toBe(1);
  },
  CEILING,
);

it(
  'a port in use is told in sentences',
  async () => {
    const taken = createServer();
    const port = await new Promise<number>((resolve) => {
      taken.listen(0, '127.0.0.1', () => {
        const address = taken.address();
        resolve(typeof address === 'object' && address ? address.port : 0);
      });
    });
    const children = [start(['--port', String(port)])];
    await until(() => children.every(({ code }) => code !== undefined));
    taken.close();
    expect(children.map(({ code }) => code)).toEqual([1]);
    expect(children[0]?.err).toContain(`cannot listen on port ${port}`);
    for (const { out, err } of children) {
      expect(out).toBe('');
      expect(err).not.toContain('at file:');
    }
  },
  CEILING,
);

it(
  'prints the line file of a variant',
  async () => {
    const child = start(['--print-line', '--buttons', 'series']);
    await until(() => child.code !== undefined);
    expect(child.out).toContain('stop-circuit');
    expect(child.code).toBe(0);
  },
  CEILING,
);
