import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { afterEach, beforeEach, expect } from 'vitest';
import { openDatabase, statement } from '../../../gateway/tape/database.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import type { Signal } from '../../../model/signals/signals.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { gathered, signals, stretch } from './stretch.ts';

export const line = 'line-3';
const three = signals('cycles', 'starved', 'lot');
const link: Signal = { ...signals('link')[0]!, index: 3, role: 'link' };
export const lines = new Map([[line, [...three, link]]]);
/** Far beyond what the slowest machine needs. Milliseconds. */
export const CEILING = 300_000;
/** Ten minutes of the stretch make a segment. */
export const SEGMENT = 600;

/** The folder of a test, and the tape in it. */
export let folder: string;
export let file: string;

/** Gives each test of a file a folder of its own; to be called by the file. */
export function withTapeFile(): void {
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'tape-'));
    file = join(folder, 'tape.sqlite');
  });
  afterEach(() => rmSync(folder, { recursive: true }));
}

/** A closed tape of so many changes, in batches of fifty. */
export async function tapeOf(count: number): Promise<void> {
  const tape = await openSqliteTape(folder, lines);
  await fill(tape, 0, count);
  await tape.close();
}

export async function fill(tape: Tape, from: number, to: number): Promise<void> {
  for (let at = from; at < to; at += 50) await tape.append(line, stretch(at, Math.min(to, at + 50)));
}

export function inFile(act: (database: Database) => void): void {
  const database = openDatabase(file);
  act(database);
  database.close();
}

export async function refusal(act: Promise<unknown>): Promise<LineError> {
  const error = await act.then(
    () => undefined,
    (caught: unknown) => caught,
  );
  expect(error).toBeInstanceOf(LineError);
  const trouble = error as LineError;
  for (const text of [trouble.message, trouble.why, trouble.mend]) expect(text).toMatch(/\.$/);
  return trouble;
}

export const all = (tape: Tape, from = 0, to = Number.POSITIVE_INFINITY) =>
  gathered(tape.read(line, from, to));

/** A change in one byte in the middle of a stored body. */
export function bend(table: string, start: number): void {
  inFile((database) => {
    const row = statement(database, `SELECT body FROM ${table} WHERE start = ?`).get(start) as {
      body: Buffer;
    };
    row.body[Math.floor(row.body.length / 2)]! ^= 0x10;
    statement(database, `UPDATE ${table} SET body = ? WHERE start = ?`).run(row.body, start);
  });
}
