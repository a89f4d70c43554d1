import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { backUp } from '../../../gateway/backup/backup.ts';
import { type Imported, importTape } from '../../../gateway/backup/importTape.ts';
import { linesIn } from '../../../gateway/backup/linesIn.ts';
import { startLiveLine } from '../../../gateway/live/liveLine.ts';
import { keepPast } from '../../../gateway/commands/past.ts';
import { openRecords } from '../../../gateway/records/records.ts';
import { openDatabase, statement } from '../../../gateway/tape/database.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { Line } from '../../../model/line/line.ts';
import { byLineTime, type Change } from '../../../model/signals/signals.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { epochMs, HOUR, type Instant } from '../../../model/units/units.ts';
import { demoLineFile } from '../../../gateway/commands/demo.ts';
import { startProgram, poll } from '../../integration/process.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { line, recordedFolder } from '../export/recordedFolder.ts';
import { gathered } from '../tape/stretch.ts';
import { folderForTest, work } from './site.ts';

async function refusal(act: Promise<unknown>): Promise<LineError> {
  const error = await act.then(
    () => undefined,
    (caught: unknown) => caught,
  );
  expect(error).toBeInstanceOf(LineError);
  return error as LineError;
}

async function changesIn(data: string, of: Line = line): Promise<Change[]> {
  const tape = await openSqliteTape(data, new Map([[of.id, of.signals]]));
  const all = await gathered(tape.read(of.id, tape.begin(of.id), tape.end(of.id)));
  await tape.close();
  return all;
}

const bring = (source: string, data: string, by = work()): Promise<Imported> =>
  importTape({ source, data, line, from: line.id }, by);

/** What a gateway that starts on it shows, and the stops that it finds in the past. */
async function startedOn(data: string, end: Instant) {
  const tape = await openSqliteTape(data, new Map([[line.id, line.signals]]));
  const records = openRecords(data);
  const now = () => epochMs(end);
  const outside = () => ({ servers: [] });
  const live = await startLiveLine({ line, tape, records, now, speed: 1, outside, told: () => {} });
  const quiet = { error: () => {} } as never;
  await keepPast({ live, tape, records, anew: false, history: undefined, log: quiet, say: () => {} }).done;
  const stops = records.ask({ line: line.id, kind: 'stop', from: monday, to: end });
  const saved = live.fold().save();
  await live.stop();
  records.close();
  await tape.close();
  return { stops, state: saved.state };
}

describe('a tape of another machine', () => {
  it('[OI7] stands before this one’s, change by change, and the past goes on from it as if one gateway had recorded both', async () => {
    const source = await recordedFolder(2);
    const data = await recordedFolder(1, undefined, 3);
    const [before, after] = [await changesIn(source), await changesIn(data)];
    const wanted = await linesIn(join(source, 'tape.sqlite'), work());
    const done = await bring(source, data);
    expect(done).toMatchObject({
      changes: before.length,
      sha256: wanted[0]!.sha256,
      unknown: [],
      begin: -before.length - done.ended,
    });
    const seam = line.signals.filter(({ role }) => role === 'link').slice(0, done.ended);
    const last = before.reduce((a, b) => Math.max(a, b.at), 0);
    const all = await changesIn(data);
    expect(all).toEqual([
      ...before,
      ...seam.map(({ index }) => expect.objectContaining({ signal: index, value: false, at: last })),
      ...after,
    ]);
    expect(await linesIn(join(source, 'tape.sqlite'), work())).toEqual(wanted);

    const { stops, state } = await startedOn(data, (monday + 4 * HOUR) as Instant);
    const fold = new LineFold(line);
    fold.take(all.toSorted(byLineTime));
    expect(state.tally).toEqual(fold.state.tally);
    expect(stops.some(({ begin }) => begin < monday + 2 * HOUR)).toBe(true);
    expect(stops.some(({ begin }) => begin > monday + 3 * HOUR)).toBe(true);
  });

  it('[OI7] comes into a folder that has none, from a backup that is whole, and a second one before the first', async () => {
    const [first, second] = [await recordedFolder(1), await recordedFolder(1, undefined, 3)];
    const folder = join(folderForTest(), 'backup');
    await backUp({ folder, data: second, lineFiles: [], keys: false, now: 0 }, work());
    const data = join(folderForTest(), 'data');
    const done = await bring(folder, data);
    expect(await changesIn(data)).toHaveLength(done.changes + done.ended);
    const { stops, state } = await startedOn(data, (monday + 4 * HOUR) as Instant);
    expect(stops.length).toBeGreaterThan(0);
    expect(state.heardAt).toBeGreaterThan(monday + 3.9 * HOUR);
    const earlier = await bring(join(first, 'tape.sqlite'), data);
    expect(earlier.begin).toBe(done.begin - earlier.changes - earlier.ended);
    const all = await changesIn(data);
    expect(all.slice(0, earlier.changes)).toEqual(await changesIn(first));

    const file = join(folder, 'tape.sqlite');
    const bytes = readFileSync(file);
    writeFileSync(file, bytes.with(9000, bytes[9000]! ^ 1));
    const other = join(folderForTest(), 'data');
    expect((await refusal(bring(folder, other))).message).toBe(`The backup is damaged: ${file}.`);
    expect(existsSync(other)).toBe(false);
  });

  it('[OI7] is refused with both moments where it does not end before this one begins, and nothing has changed', async () => {
    const [source, data] = [await recordedFolder(2), await recordedFolder(1, undefined, 1)];
    const before = await linesIn(join(data, 'tape.sqlite'), work());
    const { message, why } = await refusal(bring(source, data));
    expect(message).toBe('That tape and the one of Line 3 overlap in time.');
    expect(why).toMatch(/^That one ends at 2026-03-16T0[67]:.*, and this one begins at 2026-03-16T06:00:0/);
    expect(await linesIn(join(data, 'tape.sqlite'), work())).toEqual(before);
    const asked = { source, data, line, from: 'line-9' };
    const none = await refusal(importTape(asked, work()));
    expect([none.message, none.why]).toEqual([
      'That tape holds nothing of a line “line-9”.',
      'It holds: line-3.',
    ]);
    writeFileSync(join(source, 'demo.json'), '{}');
    expect((await refusal(bring(source, data))).message).toMatch(/holds the demo line’s tape/);
  });

  it('[OI7] says which signals this line’s file has not, keeps them for when it has, and which that tape has not', async () => {
    const source = await recordedFolder(1);
    const data = join(folderForTest(), 'data');
    const gone = line.signals.find(({ role }) => role === 'condition')!;
    const signals = line.signals
      .filter((signal) => signal !== gone)
      .map((signal, index) => ({ ...signal, index }));
    const added = { ...gone, id: 'new.tag', index: signals.length };
    const smaller = { ...line, signals: [...signals, added] };
    const done = await importTape({ source, data, line: smaller, from: line.id }, work());
    expect([done.unknown, done.missing]).toEqual([[gone.id], ['new.tag']]);
    expect((await changesIn(data, smaller)).length).toBeLessThan(done.changes);
    expect(await changesIn(data)).toHaveLength(done.changes + done.ended);
  });

  it('[OI7] leaves nothing where somebody ends it', async () => {
    const [source, data] = [await recordedFolder(1), await recordedFolder(1, undefined, 2)];
    const before = await changesIn(data);
    for (const at of [/^Reading/, /^Writing/, /^Checking/])
      await expect(bring(source, data, work(at))).rejects.toThrow();
    const database = openDatabase(join(data, 'tape.sqlite'));
    expect(statement(database, 'SELECT count(*) FROM segment WHERE line < 0').pluck().get()).toBe(0);
    database.close();
    expect(await changesIn(data)).toEqual(before);
  });

  it('[OI7] leaves nothing where its process is killed, and the next one brings all of it in', async () => {
    const [source, data] = [await recordedFolder(2), await recordedFolder(1, undefined, 3)];
    const before = await changesIn(data);
    const args = ['import', source, '--line', demoLineFile, '--data', data];
    const hidden = () => {
      const database = openDatabase(join(data, 'tape.sqlite'), 1000);
      const count = statement(database, 'SELECT count(*) FROM segment WHERE line < 0').pluck().get();
      database.close();
      return count as number;
    };
    const child = spawn(process.execPath, ['--import', 'tsx', 'gateway/commands/start.ts', ...args], {
      stdio: 'ignore',
    });
    const ended = once(child, 'exit') as Promise<[number | null, string | null]>;
    while (hidden() === 0 && child.exitCode === null) await setTimeout(1);
    child.kill('SIGKILL');
    expect((await ended)[1]).toBe('SIGKILL');
    expect(await changesIn(data)).toEqual(before);
    const again = startProgram('gateway/commands/start.ts', args);
    await again.until(/They are the changes of that tape, SHA-256 [0-9a-f]{64}/);
    expect(await poll(() => again.child.exitCode ?? undefined)).toBe(0);
    expect((await changesIn(data)).slice(-before.length)).toEqual(before);
  });
});
