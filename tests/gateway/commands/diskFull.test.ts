import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { DataType } from 'node-opcua';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { intakeOptions } from '../../../gateway/commands/intakes.ts';
import { type Gateway, run } from '../../../gateway/commands/run.ts';
import { reading, set } from '../../../gateway/tape/database.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import type { Change } from '../../../model/signals/signals.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { instantFromMs } from '../../../model/units/units.ts';
import type { LineView } from '../../../model/view/view.ts';
import { poll } from '../../integration/process.ts';
import { changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { bound, changed } from '../binding/smallFile.ts';
import { namespace, startTestServer, type TestServer } from '../intake/testServer.ts';
import { entry, msAt, stand } from '../live/shell.ts';
import { gathered } from '../tape/stretch.ts';

/*
 * A whole gateway on a data folder whose tape is not let grow: SQLite refuses a page more than it may have, as it does
 * where the disk has no room for one. The PLC goes on meanwhile.
 */
const lot = '  - { role: lot, tag: Lot }\n'; // long ones, so that a page is soon full
const folder = mkdtempSync(join(tmpdir(), 'scoreline-full-'));
const data = join(folder, 'data');
const tapeFile = join(data, 'tape.sqlite');
const logged: { readonly level: number; readonly msg: string }[] = [];
let plc: TestServer;
let text: string;
let gateway: Gateway;
let database: Database.Database;
let made = 0;
let making: NodeJS.Timeout;
const acknowledged: string[] = [];

beforeAll(async () => {
  plc = await startTestServer({
    tags: { State: DataType.Int32, Good: DataType.UInt32, Lot: DataType.String },
  });
  plc.set('State', 6, instantFromMs(Date.now()));
  plc.set('Good', 0, instantFromMs(Date.now()));
  const file = join(folder, 'line.yaml');
  text = `${changed('opc.tcp://127.0.0.1:4840', plc.endpoint).replace('urn:x', namespace)}${lot}`;
  writeFileSync(file, text);
  const log = pino({ level: 'warn' }, { write: (row: string) => void logged.push(JSON.parse(row)) });
  const settings = vi.spyOn(Database.prototype, 'exec');
  gateway = await run(
    {
      line: file,
      data,
      port: 0,
      host: '127.0.0.1',
      names: [],
      fresh: false,
      speed: 1,
      seed: undefined,
      from: undefined,
      help: false,
    },
    { log, say: () => {} },
  );
  database = (settings.mock.contexts as Database.Database[]).find(({ name }) => name === tapeFile)!;
  settings.mockRestore();
  making = setInterval(() => {
    made += 1;
    plc.set('Good', made, instantFromMs(Date.now()));
    plc.set('Lot', randomBytes(500).toString('hex'), instantFromMs(Date.now()));
  }, 40);
  await poll(async () => (await view()).plan.good > 10);
});

afterAll(async () => {
  clearInterval(making);
  await gateway?.stop();
  await plc?.stop();
  rmSync(folder, { recursive: true, force: true });
});

it('a disk that is full is said everywhere, nothing is shown that is not recorded, and with room again all goes on', async () => {
  expect((await enter('note-0')).status).toBe(201);
  acknowledged.push('note-0');
  set(database, `max_page_count = ${reading(database, 'page_count')}`);
  const refused = await poll(async () => {
    const health = await ask<Health>('healthz');
    return health.status === 'notRecorded' && health.lines[0]!;
  });
  const what = `Nothing more can be recorded: there is no room left for ${tapeFile}.`;
  const mend = 'Make room on the disk. What was recorded before is complete.';
  expect(refused.notRecorded).toMatchObject({ what, mend });
  expect(logged.map(({ level, msg }) => [level, msg])).toEqual([[50, expect.stringContaining(what)]]);

  // what a batch has no room for, a few notes may still have
  const answer = await poll(async () => {
    const one = await enter(`note-${acknowledged.length}`);
    if (one.status === 201) acknowledged.push(`note-${acknowledged.length}`);
    return one.status !== 201 && one;
  });
  expect(answer.status).toBe(503);
  expect(await answer.json()).toMatchObject({ ok: false, trouble: what, mend });

  const { end } = await onTape();
  await poll(() => made > refused.goodCartons + 60);
  const shown = await view();
  expect(shown.plan.good).toBe(refused.goodCartons);
  expect(shown.sight.unrecordedSince).toBe(refused.notRecorded!.since);
  expect(shown.matters[0]).toEqual({ kind: 'notRecorded', since: refused.notRecorded!.since, what, mend });
  const then = await onTape();
  expect(then.end).toBe(end);
  expect(goodsOf(then.changes)).toBe(shown.plan.good);

  set(database, 'max_page_count = 1000000');
  clearInterval(making);
  const after = await poll(async () => {
    const now = await view();
    return now.plan.good >= made - goodsAtFirst(then.changes) && now;
  });
  expect(after.sight).not.toHaveProperty('unrecordedSince');
  expect(after.matters).toEqual([]);
  expect(await ask<Health>('healthz')).toMatchObject({ status: 'ok' });
  const refusedNote = `note-${acknowledged.length}`;
  for (const id of [...acknowledged, refusedNote]) expect((await enter(id)).status).toBe(201);
  acknowledged.push(refusedNote);
  expect(logged.slice(1).map(({ level, msg }) => [level, msg])).toEqual([
    [40, 'The tape is being written again; what the server could not hold meanwhile is a gap.'],
  ]);
});

it('and its tape is whole then: every carton once, every entry that was acknowledged once, and no gap', async () => {
  await gateway.stop();
  const { line } = bound(text);
  const tape = await openSqliteTape(data, new Map([[line.id, line.signals]]));
  const all = await gathered(tape.read(line.id, 0, tape.end(line.id)));
  await tape.close();
  const of = (role: string) => all.filter(({ signal }) => line.signals[signal]!.role === role);
  // heard from its beginning until the gateway was ended
  expect(of('link').map(({ value }) => value)).toEqual([true, false]);
  const counts = of('goodCount').map(({ value }) => Number(value));
  expect(counts).toEqual(Array.from({ length: counts.length }, (_, n) => counts[0]! + n));
  expect(counts.at(-1)).toBe(made);
  const entered = of('entry').map(({ value }) => (JSON.parse(String(value)) as { id: string }).id);
  expect(entered).toEqual(acknowledged);
});

describe('a disk with room for a little', () => {
  const line = smallLine();
  const full = new LineError('There is no room.', { why: 'None.', mend: 'Make room.' });

  /** A live line whose tape takes no more than one change at once while it has little room. */
  async function tight() {
    const room = { little: false };
    const stood = await stand(line, {
      second: 30,
      through: (tape) => ({
        ...tape,
        append: (id, some) => (room.little && some.length > 1 ? Promise.reject(full) : tape.append(id, some)),
      }),
    });
    await stood.live.offer(changes(line, running()));
    return { ...stood, room };
  }

  it('is full until what was heard is recorded, whatever entries it takes meanwhile', async () => {
    const { live, room, clock } = await tight();
    room.little = true;
    await expect(live.offer(changes(line, goods(1, 9, 1)))).rejects.toThrow(full.message);
    clock.second += 5;
    await live.enter(entry('n-1', 35, { kind: 'note', words: 'looked in' }));
    const told = { since: msAt(30), what: full.message, mend: full.mend };
    expect(live.unrecorded()).toEqual(told);
    expect(live.view()).toMatchObject({
      sight: { unrecordedSince: told.since },
      matters: [{ kind: 'notRecorded', ...told }],
    });
    room.little = false;
    await live.offer(changes(line, goods(1, 9, 1)));
    expect(live.unrecorded()).toBeUndefined();
    expect(live.view().matters).toEqual([]);
  });

  it('records nothing behind what a gateway gave up as it ended: the next start declares all of it', async () => {
    const { live, tape, room } = await tight();
    const stopping = new AbortController();
    const server = { id: 'plc', endpoint: 'opc.tcp://127.0.0.1:1', security: 'none', clock: 'utc' } as const;
    const { take } = intakeOptions(
      { ...server, namespace: '' },
      {
        bound: { line, servers: [], tags: new Map() },
        live,
        data: folder,
        log: pino({ level: 'silent' }),
        stopping: stopping.signal,
      },
    );
    room.little = true;
    stopping.abort();
    await take(changes(line, goods(1, 9, 1)));
    await take(changes(line, goods(10, 10, 10)));
    expect(tape.end(line.id)).toBe(running().length);
  });
});

interface Health {
  readonly status: string;
  readonly lines: readonly {
    readonly goodCartons: number;
    readonly notRecorded?: { readonly since: number; readonly what: string; readonly mend: string };
  }[];
}

interface Row extends Omit<Change, 'signal'> {
  readonly signal: string;
}

async function ask<Answer>(path: string): Promise<Answer> {
  return (await (await fetch(`${gateway.address}${path}`)).json()) as Answer;
}

function view(): Promise<LineView> {
  return ask<LineView>('api/lines/l/view');
}

function onTape(): Promise<{ readonly end: number; readonly changes: readonly Row[] }> {
  return ask('api/lines/l/changes?from=0&to=10000');
}

/** Good cartons that a tape tells: from its first count to its last. */
function goodsOf(changes: readonly Row[]): number {
  return Number(changes.findLast(isGood)?.value) - goodsAtFirst(changes);
}

function goodsAtFirst(changes: readonly Row[]): number {
  return Number(changes.find(isGood)?.value);
}

function isGood({ signal, value }: Row): boolean {
  return signal.startsWith('good') && value !== null;
}

function enter(id: string): Promise<Response> {
  return fetch(`${gateway.address}api/lines/l/entries`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      id,
      author: { kind: 'screen', screen: 'desk' },
      kind: 'note',
      words: 'looked in',
    }),
  });
}
