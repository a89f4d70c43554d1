import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { Making } from '../../../gateway/records/making.ts';
import { openRecords, type Records } from '../../../gateway/records/records.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { RECORD_KINDS } from '../../../model/records/records.ts';
import { byLineTime, type Change } from '../../../model/signals/signals.ts';
import { epochMs, HOUR, type Instant } from '../../../model/units/units.ts';
import type { EntryBody } from '../../../model/entries/entries.ts';
import { stops } from '../../model/notices/noticeRows.ts';
import { stand } from '../live/shell.ts';
import { Memory, openMemoryTape } from '../tape/memoryTape.ts';
import { boundLine, changesOf, monday, runFor } from '../../simulator/simulatedLine.ts';

const { line } = boundLine();
const { key, level, facts, look } = stops('bottom-major');
const raisedAs = { key, level, facts, look };
const folder = mkdtempSync(join(tmpdir(), 'scoreline-records-live-'));
const named = { next: 0 };
const opened: Records[] = [];

afterAll(() => {
  for (const records of opened) records.close();
  rmSync(folder, { recursive: true, force: true });
});

function open(): Records {
  named.next += 1;
  const name = `${named.next}`;
  const records = openRecords(mkdtempSync(join(folder, name)));
  opened.push(records);
  return records;
}

/** What is entered of a notice, so many hours after six. */
const entries: readonly (readonly [number, EntryBody])[] = [
  [1.9, { kind: 'noticeRaised', notice: 'n1', ...raisedAs, since: epochMs(monday), station: 'bottom-major' }],
  [2.02, { kind: 'noticeTold', notice: 'n1', person: '12', way: 'mail', round: 0, step: 0, failed: false }],
  [2.5, { kind: 'noticeTaken', notice: 'n1' }],
  [2.9, { kind: 'noticeMoved', notice: 'n1', to: 'normal', key: raisedAs.key }],
  [5, { kind: 'noticeClosed', notice: 'n1', found: 'part', done: 'partChanged' }],
];

function entered(): Change[] {
  const signal = line.signals.findIndex(({ role }) => role === 'entry');
  return entries.map(([hours, body], place) => {
    const at = (monday + hours * HOUR) as Instant;
    const entry = { id: `e${place}`, at: epochMs(at), author: { kind: 'itself' }, ...body };
    return { signal, at, received: at, status: 0, value: JSON.stringify(entry) };
  });
}

/** A lively shift and a half of the simulated line, and what people and the gateway entered meanwhile, in line time. */
const told = [...changesOf(boundLine(), runFor(12, { seed: 5, lively: 3 }).told), ...entered()].sort(
  byLineTime,
);

const contents = (records: Records) =>
  Object.fromEntries(
    RECORD_KINDS.map((kind) => [
      kind,
      records.ask({ line: line.id, kind, from: 0 as Instant, to: (monday + 40 * HOUR) as Instant }),
    ]),
  );

async function offered(records: Records, changes: readonly Change[], each: number, memory = new Memory()) {
  const stood = await stand(line, { records, memory });
  for (let from = 0; from < changes.length; from += each)
    await stood.live.offer(changes.slice(from, from + each));
  return stood;
}

async function anew(memory: Memory, records: Records, version: string): Promise<Making> {
  const tape = openMemoryTape(memory, new Map([[line.id, line.signals]]));
  const making = new Making({ tape, records, line, version, stopping: new AbortController().signal });
  await making.goOn(tape.end(line.id));
  records.serve(line.id, making.edition);
  return making;
}

describe('records of a live line', { timeout: 300_000 }, () => {
  it('[TI3] are the same however its changes come, and when they are made anew from the tape', async () => {
    const memory = new Memory();
    const live = open();
    await offered(live, told, 977, memory);
    const kept = contents(live);
    for (const kind of RECORD_KINDS) expect(kept[kind]!.length, kind).toBeGreaterThan(0);
    const other = open();
    await offered(other, told, 20_011);
    expect(contents(other)).toEqual(kept);
    const again = open();
    await anew(memory, again, 'x');
    expect(contents(again)).toEqual(kept);
  });

  it('[TI2] after late data they are what they would be had it come in time', async () => {
    // three minutes of what was told come forty minutes late
    const late = told.filter(({ at }) => at >= monday + 2 * HOUR && at < monday + 2 * HOUR + HOUR / 20);
    expect(late.length).toBeGreaterThan(500);
    const rest = told.filter((change) => !late.includes(change));
    const place = rest.findIndex(({ at }) => at >= monday + 2.7 * HOUR);
    const arrived = [...rest.slice(0, place), ...late, ...rest.slice(place)];
    expect([...arrived].sort(byLineTime)).toEqual(told);
    const records = open();
    await offered(records, arrived, 977);
    const inTime = open();
    await offered(inTime, told, 977);
    expect(contents(records)).toEqual(contents(inTime));
  });

  it('go on after a restart as if there had been none, from the newest saved state or without one', async () => {
    const whole = open();
    await offered(whole, told, 977);
    for (const saved of [true, false]) {
      const memory = new Memory();
      const records = open();
      const half = Math.floor(told.length / 2);
      const first = await offered(records, told.slice(0, half), 977, memory);
      if (saved) await first.live.stop();
      else memory.checkpoints.clear();
      expect(records.edition(line.id)!.position).toBeGreaterThan(half - 2000);
      const second = await offered(records, told.slice(half), 977, memory);
      expect(second.live.recordsDue()).toBe(false);
      expect(contents(records)).toEqual(contents(whole));
    }
  });

  it('those of another version go on serving until new ones are made; then these are the line’s', async () => {
    const memory = new Memory();
    const records = open();
    const half = Math.floor(told.length / 2);
    const stood = await offered(records, told.slice(0, half), 977, memory);
    const old = records.begin(line.id, 'of another version');
    records.write(old, [], half);
    records.serve(line.id, old);
    expect(contents(records).stop).toEqual([]);
    await stood.live.stop();
    const second = await stand(line, { records, memory });
    expect(second.live.recordsDue()).toBe(true);
    const { tape, live } = second;
    const parts = { tape, records, line, version: live.version, stopping: new AbortController().signal };
    const making = new Making(parts);
    await making.goOn(half - 100);
    for (let from = half; from < told.length; from += 977) await live.offer(told.slice(from, from + 977));
    await live.takeOver(making, false);
    expect(live.recordsDue()).toBe(false);
    const whole = open();
    await offered(whole, told, 977);
    expect(contents(records)).toEqual(contents(whole));
    const fold = new LineFold(line);
    fold.take(told);
    expect(live.fold().text()).toBe(fold.text());
  });

  it('[TI2] a history that is brought in is folded before all that was heard, records and state', async () => {
    const place = told.findIndex(({ at }) => at >= monday + 8 * HOUR);
    const [past, present] = [told.slice(0, place), told.slice(place)];
    const memory = new Memory();
    const records = open();
    const stood = await offered(records, present.slice(0, 3000), 977, memory);
    const { tape, live } = stood;
    const making = new Making({
      tape,
      records,
      line,
      version: live.version,
      stopping: new AbortController().signal,
    });
    async function* chunks() {
      for (let from = 0; from < past.length; from += 10_000) {
        await live.offer(present.slice(3000 + from / 50, 3000 + from / 50 + 200));
        yield past.slice(from, from + 10_000);
      }
    }
    await making.takeHistory(chunks());
    await live.takeOver(making, true);
    const done = live.position();
    for (let from = done; from < present.length; from += 977)
      await live.offer(present.slice(from, from + 977));
    const whole = open();
    const inTime = await offered(whole, told, 977);
    expect(live.fold().text()).toBe(inTime.live.fold().text());
    expect(contents(records)).toEqual(contents(whole));
    await live.stop();
    const again = await stand(line, { records, memory });
    expect(again.live.fold().text()).toBe(inTime.live.fold().text());
  });

  it('a making that is stopped on its way changes nothing', async () => {
    const memory = new Memory();
    const records = open();
    const { live, tape } = await offered(records, told.slice(0, 50_000), 5000, memory);
    const before = contents(records);
    const stopping = new AbortController();
    const making = new Making({ tape, records, line, version: live.version, stopping: stopping.signal });
    stopping.abort();
    expect(await making.goOn(50_000)).toBe(false);
    async function* chunks() {
      yield told.slice(0, 100);
    }
    await expect(making.takeHistory(chunks())).rejects.toThrow();
    await live.takeOver(making, true);
    expect(contents(records)).toEqual(before);
    expect(tape.begin(line.id)).toBe(0);
  });
});
