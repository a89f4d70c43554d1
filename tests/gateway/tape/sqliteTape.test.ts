import { createHash } from 'node:crypto';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDatabase, reading, statement } from '../../../gateway/tape/database.ts';
import { openSqliteTape, tapeOn } from '../../../gateway/tape/sqliteTape.ts';
import { stretch } from './stretch.ts';
import {
  all,
  bend,
  CEILING,
  file,
  fill,
  folder,
  inFile,
  line,
  lines,
  SEGMENT,
  tapeOf,
  withTapeFile,
} from './tapeFile.ts';

withTapeFile();

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
