import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { expect, it, vi } from 'vitest';
import { openDatabase, reading, statement } from '../../../gateway/tape/database.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import { gathered, signals, stretch } from './stretch.ts';

vi.setConfig({ testTimeout: 300_000 });

const line = 'line-3';
const lines = new Map([[line, signals('cycles', 'starved', 'lot')]]);
/** What the stored file of format 1 was made of: 1,950 changes, and a history before them. */
const whole = [...stretch(0, 900), ...stretch(1000, 2950)];

async function withOlder(act: (folder: string) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'tape-'));
  try {
    cpSync(join(import.meta.dirname, 'format-1'), folder, { recursive: true });
    await act(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function inFile<Result>(folder: string, act: (database: Database) => Result): Result {
  const database = openDatabase(join(folder, 'tape.sqlite'));
  try {
    return act(database);
  } finally {
    database.close();
  }
}

const all = (tape: Tape) => gathered(tape.read(line, -10_000, 10_000));

it('[TP2] a file of format 1 is brought up where it lies, and nothing of it is lost', async () => {
  await withOlder(async (folder) => {
    expect(inFile(folder, (database) => reading(database, 'user_version'))).toBe(1);
    const tape = await openSqliteTape(folder, lines);
    expect([tape.begin(line), tape.end(line)]).toEqual([-900, 1950]);
    expect(await all(tape)).toStrictEqual(whole);
    expect(tape.nearest(line, 1950, '1')).toEqual({ position: 1500, body: '{"saved":true}' });
    expect(await tape.append(line, stretch(2950, 3700))).toBe(2700);
    await tape.close();
    expect(inFile(folder, (database) => reading(database, 'user_version'))).toBe(4);
    const again = await openSqliteTape(folder, lines);
    expect(await all(again)).toStrictEqual([...whole, ...stretch(2950, 3700)]);
    await again.close();
  });
});

it('[TP2] when its segments are is worked out after it was opened; a damaged one stays without', async () => {
  await withOlder(async (folder) => {
    inFile(folder, (database) =>
      statement(database, "UPDATE segment SET body = x'789c00' WHERE start = 0").run(),
    );
    const told: string[] = [];
    const tape = await openSqliteTape(folder, lines, ({ message }) => told.push(message));
    const sealed = () => tape.pieces(line, -900, 1950).filter((piece) => piece.sealed);
    expect(sealed().map(({ start, count }) => [start, count])).toEqual([
      [-900, 600],
      [-300, 300],
      [0, 600],
      [600, 600],
      [1200, 600],
    ]);
    const timed = (from: number, to: number) => ({
      least: Math.min(...whole.slice(from, to).map(({ at }) => at)),
      most: Math.max(...whole.slice(from, to).map(({ at }) => at)),
    });
    await expect
      .poll(() => sealed().map(({ at }) => at))
      .toEqual([timed(0, 600), timed(600, 900), undefined, timed(1500, 2100), timed(2100, 2700)]);
    expect(told).toEqual(['The tape of line-3 is damaged between changes 0 and 600.']);
    await tape.close();
    const left = (database: Database) =>
      statement(database, 'SELECT start FROM span WHERE damaged = 1').pluck().all();
    expect(inFile(folder, left)).toEqual([0]);
  });
});
