import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeAll, beforeEach, expect, it, vi } from 'vitest';
import { type LiveNote, startLiveLine } from '../../../gateway/live/liveLine.ts';
import { Making } from '../../../gateway/records/making.ts';
import { openRecords } from '../../../gateway/records/records.ts';
import { openDatabase, statement } from '../../../gateway/tape/database.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { epochMs, type Instant } from '../../../model/units/units.ts';
import { boundLine, changesOf, monday, runFor } from '../../simulator/simulatedLine.ts';

vi.setConfig({ testTimeout: 300_000, hookTimeout: 300_000 });

const bound = boundLine();
const { line } = bound;
const lines = new Map([[line.id, line.signals]]);
let told: readonly Change[];
let folder: string;

beforeAll(() => {
  told = changesOf(bound, runFor(2).told);
});
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'scoreline-damaged-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** A line that starts from what lies in the folder, and what its tape told. */
async function start() {
  const troubles: string[] = [];
  const tape = await openSqliteTape(folder, lines, ({ message }) => troubles.push(message));
  const notes: LiveNote[] = [];
  const live = await startLiveLine({
    line,
    tape,
    now: () => epochMs(told.at(-1)!.at),
    speed: 1,
    outside: () => ({ servers: [] }),
    told: (note) => void notes.push(note),
  });
  return { tape, live, notes, troubles };
}

/** Flips bits in the middle of the sealed segment that holds a place, or takes it away; answers where it lies. */
function damage(place: number, how: 'bend' | 'remove'): { readonly start: number; readonly end: number } {
  const database = openDatabase(join(folder, 'tape.sqlite'));
  const row = statement<[number], { start: number; count: number; body: Buffer }>(
    database,
    'SELECT start, count, body FROM segment WHERE start <= ? ORDER BY start DESC LIMIT 1',
  ).get(place)!;
  row.body[Math.floor(row.body.length / 2)]! ^= 0x24;
  if (how === 'bend')
    statement(database, 'UPDATE segment SET body = ? WHERE start = ?').run(row.body, row.start);
  else statement(database, 'DELETE FROM segment WHERE start = ?').run(row.start);
  database.close();
  return { start: row.start, end: row.start + row.count };
}

async function recorded(): Promise<void> {
  const tape = await openSqliteTape(folder, lines);
  for (let from = 0; from < told.length; from += 400)
    await tape.append(line.id, told.slice(from, from + 400));
  await tape.close();
}

it.each(['bend', 'remove'] as const)(
  '[TP5] a line starts from a tape with a segment that cannot be read: its time is a gap, all else is right (%s)',
  async (how) => {
    await recorded();
    const { start: from, end: to } = damage(told.length / 2, how);
    const { live, notes, tape, troubles } = await start();
    expect(troubles).toHaveLength(1);
    expect(troubles[0]).toContain('is damaged between changes');
    expect(notes).toMatchObject([{ kind: 'resumed', position: told.length, whole: true }]);
    const whole = new LineFold(line);
    whole.take(told);
    const { state } = live.fold();
    const span = { from: told[from - 1]!.at, to: told[to - 1]!.at };
    const others = whole.state.shift.gaps;
    expect(state.shift.gaps.filter((gap) => !others.some((other) => other.from === gap.from))).toEqual([
      { ...span, kind: 'unknown' },
    ]);
    // what was counted in it is counted, and what the line does now is known
    expect(state.shift.account.good).toBe(whole.state.shift.account.good);
    const tags = line.signals.filter(({ role }) => role !== 'link').map(({ index }) => index);
    expect(tags.map((index) => state.values[index])).toEqual(tags.map((index) => whole.state.values[index]));
    expect(tags.map((index) => state.known[index])).toEqual(tags.map((index) => whole.state.known[index]));
    expect(state.gap).toEqual(whole.state.gap);
    const after = (stops: typeof state.stops) => stops.filter((stop) => stop.begin > span.to);
    expect(after(state.stops).map(({ begin, end }) => [begin, end])).toEqual(
      after(whole.state.stops).map(({ begin, end }) => [begin, end]),
    );
    expect(tape.damages(line.id)).toEqual([{ positions: { from, to }, at: span }]);
    await live.stop();
    await tape.close();
  },
);

it('[TP5] its records tell of the gap, and a state that was kept before the damage is gone on from', async () => {
  await recorded();
  const first = await start();
  await first.live.stop();
  await first.tape.close();
  const { start: from, end: to } = damage(told.length / 3, 'bend');
  const { live, tape, troubles } = await start();
  // all that is needed for that lies in the state
  expect(troubles).toEqual([]);
  const records = openRecords(folder);
  const { version } = live;
  const making = new Making({ tape, records, line, version, stopping: new AbortController().signal });
  expect(await making.goOn(told.length)).toBe(true);
  expect(troubles).toHaveLength(1);
  const span = { from: told[from - 1]!.at, to: told[to - 1]!.at };
  expect(making.fold.state.shift.gaps).toContainEqual({ ...span, kind: 'unknown' });
  records.close();
  await tape.close();
});

it('[TP4] states are kept on the way of a making, and those of another version go when it is taken over', async () => {
  await recorded();
  const { live, tape } = await start();
  const end = tape.end(line.id);
  await tape.keep(line.id, { position: 100, version: 'another', body: '{}' });
  const records = openRecords(folder);
  const { version } = live;
  const making = new Making({ tape, records, line, version, stopping: new AbortController().signal });
  expect(await making.goOn(end)).toBe(true);
  await live.takeOver(making, false);
  const kept = tape.checkpoints(line.id, version, 0, end + 1);
  const moments = kept.map((position) => told[position - 1]!.at - monday);
  expect(moments.length).toBeGreaterThanOrEqual(3);
  for (const position of kept) {
    const fold = new LineFold(line);
    fold.take(told.slice(0, position));
    expect(tape.nearest(line.id, position, version)?.body).toBe(JSON.stringify(fold.save()));
  }
  expect(tape.checkpoints(line.id, 'another', 0, end)).toEqual([]);
  const late = await tape.nearest(line.id, end, version);
  expect((JSON.parse(late!.body) as { state: { at: Instant } }).state.at).toBeGreaterThan(0);
  records.close();
  await live.stop();
  await tape.close();
});
