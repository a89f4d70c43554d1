import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { set, statement } from '../../../gateway/tape/database.ts';
import { unseal } from '../../../gateway/tape/segments.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import type { Tape } from '../../../gateway/tape/tape.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { BAD_DATA_LOST, GOOD } from '../../../model/status/status.ts';
import type { Instant } from '../../../model/units/units.ts';
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
  refusal,
  SEGMENT,
  tapeOf,
  withTapeFile,
} from './tapeFile.ts';

withTapeFile();

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
