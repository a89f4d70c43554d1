import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  appendFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backUp, namesIn } from '../../../gateway/backup/backup.ts';
import { heldIn } from '../../../gateway/backup/fileHash.ts';
import { linesIn } from '../../../gateway/backup/linesIn.ts';
import { readManifest } from '../../../gateway/backup/manifest.ts';
import { restore } from '../../../gateway/backup/restore.ts';
import { openDatabase, statement } from '../../../gateway/tape/database.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { setTimeout } from 'node:timers/promises';
import { poll, startProgram } from '../../integration/process.ts';
import { gathered, stretch } from '../tape/stretch.ts';
import { dataFolder, folderForTest, lineId, lines, tapeIn, work } from './site.ts';

const asked = { lineFiles: [], keys: false, now: Date.UTC(2026, 2, 16) };

async function backedUp(data: string, more: Partial<Parameters<typeof backUp>[0]> = {}) {
  const folder = join(folderForTest(), 'backup');
  const backup = await backUp({ ...asked, folder, data, ...more }, work());
  return { folder, backup };
}

async function refusal(act: Promise<unknown>): Promise<LineError> {
  const error = await act.then(
    () => undefined,
    (caught: unknown) => caught,
  );
  expect(error).toBeInstanceOf(LineError);
  return error as LineError;
}

describe('a backup', () => {
  it('[OI5] holds the tape as it was at one moment of it, while another process goes on recording', async () => {
    const data = await dataFolder(4000);
    const tape = await openSqliteTape(data, lines);
    let at = 4000;
    const state = { over: false };
    const recording = (async () => {
      for (; !state.over; at += 50) await tape.append(lineId, stretch(at, at + 50));
    })();
    const { folder, backup } = await backedUp(data);
    state.over = true;
    await recording;
    await tape.close();

    const [line] = backup.lines;
    expect(line!.end).toBeGreaterThanOrEqual(4000);
    expect(line!.end).toBeLessThanOrEqual(at);
    expect(line!.end % 50).toBe(0);
    const copy = await openSqliteTape(folder, lines);
    expect(await gathered(copy.read(lineId, 0, line!.end))).toEqual(stretch(0, line!.end));
    expect(copy.end(lineId)).toBe(line!.end);
    await copy.close();
  });

  it('[OI5] names every file with its hash, the tape’s changes with theirs, and what it left out', async () => {
    const data = await dataFolder();
    mkdirSync(join(data, 'tls'));
    writeFileSync(join(data, 'tls', 'key.pem'), 'a key');
    writeFileSync(join(data, 'records.sqlite'), 'a cache');
    writeFileSync(join(data, 'ways.yaml'), 'ways: []\n');
    const line = join(dirname(data), 'line.yaml');
    writeFileSync(line, 'id: line-3\n');
    const { folder, backup } = await backedUp(data, { lineFiles: [line] });
    expect(backup.files.map(({ name }) => name)).toEqual([
      'line/line.yaml',
      'people.sqlite',
      'tape.sqlite',
      'ways.yaml',
    ]);
    for (const { name, ...held } of backup.files)
      expect(await heldIn(join(folder, name), new AbortController().signal)).toEqual(held);
    expect(backup.lines).toEqual(await linesIn(join(data, 'tape.sqlite'), work()));
    expect(backup.leftOut).toEqual(['records.sqlite', 'tls']);
    expect(namesIn(folder)).toEqual([
      'backup.json',
      'line/line.yaml',
      'people.sqlite',
      'tape.sqlite',
      'ways.yaml',
    ]);

    const whole = await backedUp(data, { keys: true });
    expect(readFileSync(join(whole.folder, 'tls', 'key.pem'), 'utf8')).toBe('a key');
    expect(whole.backup.leftOut).toEqual(['records.sqlite']);
  });

  it('[OI5] leaves nothing where somebody ends it, and overwrites nothing that is there', async () => {
    const data = await dataFolder();
    for (const at of [/^Copying/, /^Hashing/, /^Reading/]) {
      const folder = join(folderForTest(), 'backup');
      await expect(backUp({ ...asked, folder, data }, work(at))).rejects.toThrow();
      expect(readdirSync(dirname(folder))).toEqual([]);
    }
    const { folder } = await backedUp(data);
    const before = readFileSync(join(folder, 'backup.json'), 'utf8');
    expect((await refusal(backUp({ ...asked, folder, data }, work()))).message).toContain(folder);
    expect(readFileSync(join(folder, 'backup.json'), 'utf8')).toBe(before);
    const empty = folderForTest();
    const none = await refusal(backUp({ ...asked, folder: join(empty, 'b'), data: empty }, work()));
    expect(none.message).toBe(`There is no tape in ${empty}.`);
  });
});

describe('putting a backup back', () => {
  it('[OI6] gives a data folder that is what was backed up, by the hash of its changes, and goes on from there', async () => {
    const data = await dataFolder();
    const { folder, backup } = await backedUp(data);
    const other = join(folderForTest(), 'a', 'data');
    mkdirSync(dirname(other));
    expect(await restore(folder, other, work())).toEqual(backup);
    expect(await linesIn(join(other, 'tape.sqlite'), work())).toEqual(
      await linesIn(join(data, 'tape.sqlite'), work()),
    );
    expect(namesIn(other)).toEqual(['people.sqlite', 'tape.sqlite']);
    await tapeIn(other, 2000, 2500);
    await tapeIn(data, 2000, 2500);
    expect(await linesIn(join(other, 'tape.sqlite'), work())).toEqual(
      await linesIn(join(data, 'tape.sqlite'), work()),
    );
  });

  it('[OI6] brings back a tape that was damaged on the disk as it was, and both say how much of it', async () => {
    const data = await dataFolder();
    const database = openDatabase(join(data, 'tape.sqlite'));
    statement(database, "UPDATE segment SET body = x'00' WHERE start = 600").run();
    database.close();
    const { folder, backup } = await backedUp(data);
    expect(backup.lines).toMatchObject([{ begin: 0, end: 2000, unread: 600 }]);
    const target = join(folderForTest(), 'data');
    expect((await restore(folder, target, work())).lines).toEqual(backup.lines);
  });

  it.each(['tape.sqlite', 'people.sqlite'])(
    '[OI6] refuses one that is damaged or lacks a file, names it, and puts nothing back: %s',
    async (name) => {
      const { folder } = await backedUp(await dataFolder());
      const file = join(folder, name);
      const bytes = readFileSync(file);
      const target = join(folderForTest(), 'data');
      const spoilt = [
        () => writeFileSync(file, bytes.with(bytes.length >> 1, bytes[bytes.length >> 1]! ^ 1)),
        () => appendFileSync(file, 'x'),
        () => rmSync(file),
      ];
      for (const spoil of spoilt) {
        writeFileSync(file, bytes);
        spoil();
        const { message, why } = await refusal(restore(folder, target, work()));
        expect(message).toBe(`The backup is damaged: ${file}.`);
        expect(why).toMatch(/hash or length/);
        expect(readdirSync(dirname(target))).toEqual([]);
      }
    },
  );

  it('[OI6] refuses a damaged list of what is in it, a folder that is none, and a data folder that is there', async () => {
    const data = await dataFolder();
    const { folder } = await backedUp(data);
    const target = join(folderForTest(), 'data');
    expect((await refusal(restore(data, target, work()))).message).toBe(`${data} is no backup.`);
    const taken = await refusal(restore(folder, data, work()));
    expect(taken.message).toBe(`${data} is there already, and not empty.`);
    const list = join(folder, 'backup.json');
    const text = readFileSync(list, 'utf8');
    for (const other of [text.replace('"end": 2000', '"end": 2001'), text.slice(0, -9), '']) {
      writeFileSync(list, other);
      expect((await refusal(restore(folder, target, work()))).message).toBe(
        `The backup is damaged: ${list}.`,
      );
    }
    writeFileSync(list, text.replace('"tape.sqlite"', '"../tape.sqlite"'));
    expect((await refusal(restore(folder, target, work()))).message).toMatch(/damaged/);
    expect(existsSync(target)).toBe(false);
  });

  it('[OI6] leaves nothing where somebody ends it', async () => {
    const { folder } = await backedUp(await dataFolder());
    for (const at of [/^Checking the/, /^Copying/, /^Checking what/, /^Reading/]) {
      const target = join(folderForTest(), 'data');
      await expect(restore(folder, target, work(at))).rejects.toThrow();
      expect(readdirSync(dirname(target))).toEqual([]);
    }
    expect(readManifest(folder).lines).toHaveLength(1);
  });
});

/** Starts Scoreline and kills it as soon as something is there; answers by which signal it ended. */
async function killedAt(file: string, args: readonly string[]): Promise<string | null> {
  const command = ['--import', 'tsx', 'gateway/commands/start.ts', ...args];
  const child = spawn(process.execPath, command, { stdio: 'ignore' });
  const ended = once(child, 'exit') as Promise<[number | null, string | null]>;
  while (!existsSync(file) && child.exitCode === null) await setTimeout(1);
  child.kill('SIGKILL');
  const [, signal] = await ended;
  return signal;
}

describe('a process that is killed', () => {
  it('[OI5][OI6] leaves nothing that is taken for whole, and the next one does all of it', async () => {
    const data = await dataFolder(60_000);
    const folder = join(folderForTest(), 'backup');
    const restored = join(folderForTest(), 'data');
    const line = ['--line', join(import.meta.dirname, '../../../simulator/lines/line-3.yaml')];
    const commands = [
      { made: folder, args: ['backup', folder, '--data', data, ...line] },
      { made: restored, args: ['restore', folder, '--data', restored] },
    ];
    for (const { made, args } of commands) {
      expect(await killedAt(`${made}.unfinished`, args)).toBe('SIGKILL');
      expect(existsSync(made)).toBe(false);

      const again = startProgram('gateway/commands/start.ts', args);
      await again.until(/SHA-256 [0-9a-f]{64}/);
      expect(await poll(() => again.child.exitCode ?? undefined)).toBe(0);
      expect(existsSync(`${made}.unfinished`)).toBe(false);
    }
    expect(await linesIn(join(restored, 'tape.sqlite'), work())).toEqual(
      await linesIn(join(data, 'tape.sqlite'), work()),
    );
  });
});
