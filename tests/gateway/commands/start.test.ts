import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { text } from 'node:stream/consumers';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '../../..');

/** The start command as a process of its own, where it does not get far. */
async function start(...args: string[]) {
  const child = spawn(process.execPath, ['--import', 'tsx', 'gateway/commands/start.ts', ...args], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const closed = once(child, 'close') as Promise<[number | null]>;
  const [out, error, [code]] = await Promise.all([text(child.stdout), text(child.stderr), closed]);
  return { code, out, error };
}

describe('the start command as a process', () => {
  it('tells its options and ends well', async () => {
    const { code, out, error } = await start('--help');
    expect(code).toBe(0);
    expect(out).toMatch(/--line FILE[\s\S]*--help/);
    expect(error).toBe('');
  });

  it.each(['--colour', '--port -1', '--data=', '--host='])(
    'refuses in three sentences and ends with 1, before it touches any folder: %s',
    async (args) => {
      const { code, out, error } = await start(...args.split(' '));
      expect(code).toBe(1);
      expect(out).toBe('');
      expect(error.trim().split('\n')).toEqual([
        expect.stringMatching(/^The command line was not understood: .*\w.*\.$/),
        'An option is misspelled, lacks its value, or has one that does not fit.',
        'Run it with --help to see what there is.',
      ]);
    },
  );

  it('does not listen beyond this machine without encryption, and touches no folder before it says so', async () => {
    const data = join(mkdtempSync(join(tmpdir(), 'scoreline-start-')), 'data');
    const { code, out, error } = await start('--host', '0.0.0.0', '--data', data);
    expect(code).toBe(1);
    expect(out).toBe('');
    expect(error.trim().split('\n')).toEqual([
      'Scoreline does not listen on 0.0.0.0 without encryption.',
      expect.stringMatching(/^On the network others could .*\.$/),
      expect.stringMatching(/--tls own.*--tls files.*--tls proxy.*--clear-text/),
    ]);
    expect(existsSync(data)).toBe(false);
    rmSync(dirname(data), { recursive: true });
  });

  it.each([
    ['package.json', 'Something else of that name is there already.'],
    ['package.json/data', 'A part of the path is a file where a folder has to be.'],
  ])('says why %s cannot be the data folder, in words of our own', async (folder, why) => {
    const { code, error } = await start('--data', folder);
    expect(code).toBe(1);
    expect(error.trim().split('\n')).toEqual([
      `The data folder ${resolve(root, folder)} cannot be used.`,
      why,
      'Give a folder that this user may write to with --data DIR.',
    ]);
  });
});
