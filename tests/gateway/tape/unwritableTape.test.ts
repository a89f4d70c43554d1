import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDatabase, reading, set } from '../../../gateway/tape/database.ts';
import { openSqliteTape, tapeOn } from '../../../gateway/tape/sqliteTape.ts';
import { stretch } from './stretch.ts';
import { all, CEILING, file, fill, folder, line, lines, refusal, SEGMENT, withTapeFile } from './tapeFile.ts';

withTapeFile();

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
