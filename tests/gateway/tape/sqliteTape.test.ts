import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openDatabase, reading, set, statement } from '../../../gateway/tape/database.ts';
import { unseal } from '../../../gateway/tape/segments.ts';
import { openSqliteTape, tapeOn } from '../../../gateway/tape/sqliteTape.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import type { Change, Signal } from '../../../model/signals/signals.ts';
import { BAD_DATA_LOST, GOOD } from '../../../model/status/status.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import type { Instant } from '../../../model/units/units.ts';
import { gathered, signals, stretch } from './stretch.ts';

const line = 'line-3';
const three = signals('cycles', 'starved', 'lot');
const link: Signal = { ...signals('link')[0]!, index: 3, role: 'link' };
const lines = new Map([[line, [...three, link]]]);
/** Far beyond what the slowest machine needs. Milliseconds. */
const CEILING = 300_000;
/** Ten minutes of the stretch make a segment. */
const SEGMENT = 600;

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tape-'));
  file = join(folder, 'tape.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true }));

/** A closed tape of so many changes, in batches of fifty. */
async function tapeOf(count: number): Promise<void> {
  const tape = await openSqliteTape(folder, lines);
  await fill(tape, 0, count);
  await tape.close();
}

async function fill(tape: Tape, from: number, to: number): Promise<void> {
  for (let at = from; at < to; at += 50) await tape.append(line, stretch(at, Math.min(to, at + 50)));
}

function inFile(act: (database: Database) => void): void {
  const database = openDatabase(file);
  act(database);
  database.close();
}

async function refusal(act: Promise<unknown>): Promise<LineError> {
  const error = await act.then(
    () => undefined,
    (caught: unknown) => caught,
  );
  expect(error).toBeInstanceOf(LineError);
  const trouble = error as LineError;
  for (const text of [trouble.message, trouble.why, trouble.mend]) expect(text).toMatch(/\.$/);
  return trouble;
}

const all = (tape: Tape, from = 0, to = Number.POSITIVE_INFINITY) => gathered(tape.read(line, from, to));

/** A change in one byte in the middle of a stored body. */
function bend(table: string, start: number): void {
  inFile((database) => {
    const row = statement(database, `SELECT body FROM ${table} WHERE start = ?`).get(start) as {
      body: Buffer;
    };
    row.body[Math.floor(row.body.length / 2)]! ^= 0x10;
    statement(database, `UPDATE ${table} SET body = ? WHERE start = ?`).run(row.body, start);
  });
}

describe('the tape in a file', { timeout: CEILING }, () => {
  it('is set at every opening so that a commit is durable, and bounds its log', async () => {
    for (let opening = 0; opening < 2; opening += 1) {
      const database = openDatabase(file);
      const tape = tapeOn(database, lines);
      expect(reading(database, 'journal_mode')).toBe('wal');
      expect(reading(database, 'synchronous'), 'FULL').toBe(2);
      expect(reading(database, 'journal_size_limit')).toBe(8 * 1024 * 1024);
      await tape.close();
    }
  });

  it('holds sealed segments of ten minutes and a tail of one row a batch', async () => {
    await tapeOf(1950);
    inFile((database) => {
      const rows = statement(database, 'SELECT start, count FROM segment ORDER BY start').raw().all();
      expect(rows).toEqual([0, 1, 2].map((place) => [place * SEGMENT, SEGMENT]));
      expect(statement(database, 'SELECT start, count FROM batch ORDER BY start').raw().all()).toEqual([
        [1800, 50],
        [1850, 50],
        [1900, 50],
      ]);
    });
  });

  it('[TP1] gives the bytes of a sealed segment as they lie in the file, and tells of them without opening any', async () => {
    await tapeOf(1950);
    bend('segment', SEGMENT);
    const tape = await openSqliteTape(folder, lines);
    const pieces = tape.pieces(line, 0, 1950);
    expect(pieces.map(({ start, count, sealed }) => [start, count, sealed])).toEqual([
      [0, 600, true],
      [600, 600, true],
      [1200, 600, true],
      [1800, 150, false],
    ]);
    const given = pieces.filter(({ sealed }) => sealed).map(({ start }) => tape.pieceBytes(line, start));
    expect(pieces.slice(0, 3).map(({ bytes }) => bytes)).toEqual(given.map((bytes) => bytes!.length));
    await tape.close();
    inFile((database) => {
      const stored = statement(database, 'SELECT body FROM segment ORDER BY start').pluck().all();
      expect(given).toStrictEqual(stored);
    });
  });

  it('writes the log back and empties it after sealing', async () => {
    const tape = await openSqliteTape(folder, lines);
    await fill(tape, 0, SEGMENT);
    expect(statSync(`${file}-wal`).size).toBeGreaterThan(50_000);
    await fill(tape, SEGMENT, SEGMENT + 100);
    expect(statSync(`${file}-wal`).size).toBeLessThan(50_000);
    await tape.close();
  });

  it('gives the same stored bytes for appends, for an import and for the same in any chunks', async () => {
    const changes = stretch(0, 4321);
    const hashes: string[] = [];
    for (const size of [50, 333, 5000]) {
      for (const way of ['append', 'import'] as const) {
        const place = join(folder, `${way}-${size}`);
        const tape = await openSqliteTape(place, lines);
        const chunks = Array.from({ length: Math.ceil(changes.length / size) }, (_, at) =>
          changes.slice(at * size, (at + 1) * size),
        );
        if (way === 'import') await tape.importSealed(line, chunks);
        else for (const chunk of chunks) await tape.append(line, chunk);
        expect(await all(tape)).toStrictEqual(changes);
        await tape.close();
        hashes.push(segmentHash(join(place, 'tape.sqlite')));
      }
    }
    expect(new Set(hashes).size).toBe(1);
    expect(hashes[0]).toMatch(/^7 segments /);
  });

  it('appends wait for an import that is under way, and lie behind it', async () => {
    const tape = await openSqliteTape(folder, lines);
    const chunks = async function* () {
      yield stretch(0, 700);
      await new Promise((resolve) => setTimeout(resolve, 20));
      yield stretch(700, 1500);
    };
    const [imported, appended] = await Promise.all([
      tape.importSealed(line, chunks()),
      tape.append(line, stretch(1500, 1503)),
    ]);
    expect([imported, appended]).toEqual([1500, 1503]);
    expect(await all(tape)).toStrictEqual(stretch(0, 1503));
    await tape.close();
  });

  it('an import that fails on its way leaves a beginning, and the tape goes on', async () => {
    const tape = await openSqliteTape(folder, lines);
    const chunks = async function* () {
      yield stretch(0, 60_000);
      yield stretch(60_000, 60_100);
      throw new Error('the history ended badly');
    };
    await expect(tape.importSealed(line, chunks())).rejects.toThrow('the history ended badly');
    expect(tape.end(line)).toBe(60_000);
    expect(await tape.append(line, stretch(60_000, 60_001))).toBe(60_001);
    expect(await all(tape)).toStrictEqual(stretch(0, 60_001));
    await tape.close();
  });
});

/** One hash over the stored segments, places and bytes. */
function segmentHash(path: string): string {
  const database = openDatabase(path);
  const rows = statement(database, 'SELECT start, count, body FROM segment ORDER BY start').all() as {
    start: number;
    count: number;
    body: Buffer;
  }[];
  database.close();
  const hash = createHash('sha256');
  for (const { start, count, body } of rows) hash.update(`${start} ${count} ${body.length} `).update(body);
  return `${rows.length} segments ${hash.digest('hex')}`;
}

async function openTold(): Promise<{ tape: Tape; told: string[] }> {
  const told: string[] = [];
  return { tape: await openSqliteTape(folder, lines, ({ message }) => told.push(message)), told };
}

function newestIn(from: number, to: number): Instant {
  return Math.max(...stretch(from, to).map(({ at }) => at)) as Instant;
}

/** No server was heard from what came before to the end of it, and then every tag was read. */
function inPlaceOf(from: number, to: number): Change[] {
  const [begin, end] = [newestIn(0, from), newestIn(from, to)];
  const received = Math.max(...stretch(from, to).map((one) => one.received)) as Instant;
  const link = { signal: 3, received, status: 0 };
  const last = [0, 1, 2].map((signal) => {
    const told = stretch(0, to).filter((one) => one.signal === signal);
    return { ...told.reduce((a, b) => (b.at >= a.at ? b : a)), at: end, received };
  });
  return [{ ...link, at: begin, value: false }, ...last, { ...link, at: end, value: true }];
}

describe('a damaged tape', { timeout: CEILING }, () => {
  it('[TP5] a damaged segment is told once with its place; what lies before and after is read', async () => {
    await tapeOf(1950);
    bend('segment', SEGMENT);
    const { tape, told } = await openTold();
    expect(await all(tape, 0, SEGMENT)).toStrictEqual(stretch(0, SEGMENT));
    expect(await all(tape, 1200)).toStrictEqual(stretch(1200, 1950));
    expect(told).toEqual([]);
    expect(tape.damages(line)).toEqual([]);
    for (let time = 0; time < 2; time += 1)
      expect(await all(tape)).toStrictEqual([
        ...stretch(0, SEGMENT),
        ...inPlaceOf(SEGMENT, 1200),
        ...stretch(1200, 1950),
      ]);
    expect(told).toEqual(['The tape of line-3 is damaged between changes 600 and 1,200.']);
    expect(unseal(tape.standInBytes(line, SEGMENT)!), 'for whoever folds elsewhere').toStrictEqual(
      inPlaceOf(SEGMENT, 1200),
    );
    expect(tape.standInBytes(line, SEGMENT + 1)).toBeUndefined();
    expect(tape.standInBytes(line, 1800), 'the open end').toBeUndefined();
    const [damage] = tape.damages(line);
    expect(damage).toEqual({
      positions: { from: 600, to: 1200 },
      at: { from: newestIn(0, 600), to: newestIn(600, 1200) },
    });
    await tape.close();
  });

  it('[TP5] of a part of it as much stands as is known there: nothing within, everything again at its end', async () => {
    await tapeOf(1950);
    bend('segment', SEGMENT);
    const tape = await openSqliteTape(folder, lines);
    const whole = inPlaceOf(SEGMENT, 1200);
    const lost = whole.slice(0, 1);
    expect(await all(tape, 590, 700)).toStrictEqual([...stretch(590, 600), ...lost]);
    expect(await all(tape, 700, 900)).toEqual([]);
    expect(await all(tape, 1000, 1210)).toStrictEqual([...whole, ...stretch(1200, 1210)]);
    await tape.close();
  });

  it('[TP5] the first segment of all is no gap before the tape: what was known at its end is told there', async () => {
    const tape = await openSqliteTape(folder, lines);
    // an order that was entered before anything was heard
    await tape.append(line, [{ ...stretch(0, 1)[0]!, at: 1 as Instant }]);
    await fill(tape, 0, 700);
    await tape.close();
    bend('segment', 0);
    const again = await openSqliteTape(folder, lines);
    const end = newestIn(0, 600);
    expect((await all(again, 0, 601)).map(({ signal, at, value }) => [signal, at, value])).toEqual([
      [3, end, false],
      ...stretch(597, 600).map(({ signal, value }) => [signal, end, value]),
      [3, end, true],
    ]);
    expect(again.damages(line)[0]!.at).toEqual({ from: end, to: end });
    await again.close();
  });

  it('[TP5] a damaged batch of the open end is put aside at opening, and the line goes on behind it', async () => {
    await tapeOf(150);
    bend('batch', 50);
    const { tape, told } = await openTold();
    expect(told).toEqual(['The tape of line-3 is damaged between changes 50 and 100.']);
    const read = await all(tape);
    expect(read.slice(0, 50)).toStrictEqual(stretch(0, 50));
    expect(read.slice(50, -50).map(({ signal, status, value }) => [signal, status, value])).toEqual([
      [3, GOOD, false],
      [0, BAD_DATA_LOST, null],
      [1, BAD_DATA_LOST, null],
      [2, BAD_DATA_LOST, null],
      [3, GOOD, true],
    ]);
    expect(read.slice(-50)).toStrictEqual(stretch(100, 150));
    expect(await tape.append(line, stretch(150, 900))).toBe(900);
    await tape.close();
    const again = await openTold();
    expect(again.tape.damages(line).map(({ positions }) => positions)).toEqual([{ from: 50, to: 100 }]);
    expect((await all(again.tape, 100)).slice(0, 800)).toStrictEqual(stretch(100, 900));
    await again.tape.close();
  });

  it('[TP5] a part that is gone is told and stood in for like a damaged one', async () => {
    await tapeOf(1950);
    inFile((database) => {
      statement(database, 'DELETE FROM segment WHERE start = ?').run(SEGMENT);
      statement(database, 'DELETE FROM batch WHERE start = ?').run(1850);
    });
    const { tape, told } = await openTold();
    expect(await all(tape, 0, 1850)).toStrictEqual([
      ...stretch(0, SEGMENT),
      ...inPlaceOf(SEGMENT, 1200),
      ...stretch(1200, 1850),
    ]);
    expect(await all(tape, 1900)).toStrictEqual(stretch(1900, 1950));
    expect(told).toEqual([
      'The tape of line-3 is damaged between changes 1,850 and 1,900.',
      'The tape of line-3 is damaged between changes 600 and 1,200.',
    ]);
    await tape.close();
  });

  it('[TP4] a state is told by what differs from the one before; those told by a damaged one are passed over', async () => {
    const tape = await openSqliteTape(folder, lines);
    await tape.append(line, stretch(0, 100));
    const noise = Array.from({ length: 3000 }, (_, place) => Math.round(Math.sin(place) * 1e9));
    const body = (position: number) => JSON.stringify({ position, noise });
    for (const position of [20, 40, 60, 80])
      await tape.keep(line, { position, version: '1', body: body(position) });
    await tape.close();
    inFile((database) => {
      const sizes = statement(database, 'SELECT length(body) FROM checkpoint ORDER BY position').pluck();
      const [first, ...others] = sizes.all() as number[];
      for (const size of others) expect(size).toBeLessThan(first! / 50);
      statement(database, "UPDATE checkpoint SET body = x'789c00' WHERE position = 60").run();
    });
    const again = await openSqliteTape(folder, lines);
    expect(again.nearest(line, 100, '1')).toEqual({ position: 40, body: body(40) });
    await again.keep(line, { position: 90, version: '1', body: body(90) });
    expect(again.nearest(line, 100, '1')).toEqual({ position: 90, body: body(90) });
    await again.close();
  });

  it('a damaged saved state is passed over for the one before it', async () => {
    const tape = await openSqliteTape(folder, lines);
    await tape.append(line, stretch(0, 100));
    for (const position of [40, 80])
      await tape.keep(line, { position, version: '1', body: `state ${position}` });
    await tape.close();
    inFile((database) => {
      statement(database, "UPDATE checkpoint SET body = x'789c00' WHERE position = 80").run();
    });
    const again = await openSqliteTape(folder, lines);
    expect(again.nearest(line, 100, '1')).toEqual({ position: 40, body: 'state 40' });
    await again.close();
  });

  it('a file that is no tape, or one whose pages were overwritten, is refused', async () => {
    writeFileSync(file, 'no database at all, and long enough to be looked at. '.repeat(100));
    expect((await refusal(openSqliteTape(folder, lines))).message).toBe(`The tape ${file} is damaged.`);
    rmSync(file);
    await tapeOf(1950);
    writeFileSync(file, readFileSync(file).fill(0xff, 4096));
    expect((await refusal(openSqliteTape(folder, lines))).message).toBe(`The tape ${file} is damaged.`);
    rmSync(file);
    inFile((database) => database.exec('CREATE TABLE other (a)'));
    expect((await refusal(openSqliteTape(folder, lines))).message).toBe(`${file} is not a tape.`);
  });

  it('a tape of a later version is refused, and the folder is free again afterwards', async () => {
    await tapeOf(10);
    inFile((database) => set(database, 'user_version = 7'));
    const trouble = await refusal(openSqliteTape(folder, lines));
    expect(trouble.message).toBe(`The tape ${file} has format 7; this Scoreline knows formats up to 4.`);
    inFile((database) => set(database, 'user_version = 4'));
    await (await openSqliteTape(folder, lines)).close();
  });
});

describe('a tape that cannot be written', { timeout: CEILING }, () => {
  it('with no room left an append is refused as a whole, also one that seals, and goes on when there is room', async () => {
    const database = openDatabase(file);
    const tape = tapeOn(database, lines);
    await fill(tape, 0, SEGMENT - 50);
    const pages = reading(database, 'page_count');
    set(database, `max_page_count = ${pages}`);
    const told: number[] = [];
    tape.follow(line, tape.end(line), (position) => told.push(position));
    const noise = (place: number) => Math.sin(place) * 1e9; // takes eight bytes however it is packed
    const wide = stretch(SEGMENT - 50, SEGMENT + 20_000).map((one, place) => ({
      ...one,
      value: noise(place),
    }));
    const trouble = await refusal(tape.append(line, wide));
    expect(trouble.message).toBe(`Nothing more can be recorded: there is no room left for ${file}.`);
    expect(tape.end(line)).toBe(SEGMENT - 50);
    expect(await all(tape)).toStrictEqual(stretch(0, SEGMENT - 50));
    expect(told).toEqual([]);
    set(database, 'max_page_count = 1000000');
    expect(await tape.append(line, wide)).toBe(SEGMENT + 20_000);
    await tape.close();
    const again = await openSqliteTape(folder, lines);
    expect(await all(again)).toStrictEqual([...stretch(0, SEGMENT - 50), ...wide]);
    await again.close();
  });

  it('a read-only one is told as such, and keeps what it has', async () => {
    const database = openDatabase(file);
    const tape = tapeOn(database, lines);
    await tape.append(line, stretch(0, 10));
    set(database, 'query_only = 1');
    expect((await refusal(tape.append(line, stretch(10, 20)))).message).toBe(`${file} cannot be written.`);
    await refusal(tape.keep(line, { position: 5, version: '1', body: '{}' }));
    set(database, 'query_only = 0');
    expect(await tape.append(line, stretch(10, 20))).toBe(20);
    expect(await all(tape)).toStrictEqual(stretch(0, 20));
    await tape.close();
  });

  it('a folder that is a file, and a tape that is a folder, are refused', async () => {
    const taken = join(folder, 'taken');
    writeFileSync(taken, '');
    expect((await refusal(openSqliteTape(taken, lines))).message).toBe(`${taken} cannot be written.`);
    expect((await refusal(openSqliteTape(join(taken, 'below'), lines))).message).toContain(
      'cannot be written',
    );
    mkdirSync(file);
    expect((await refusal(openSqliteTape(folder, lines))).message).toBe(`${file} cannot be written.`);
  });
});
