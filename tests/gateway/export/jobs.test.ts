import { once } from 'node:events';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { createApi } from '../../../gateway/api/api.ts';
import { knownHost } from '../../../gateway/api/hostNames.ts';
import { ExportJobs, type ExportsParts } from '../../../gateway/export/jobs.ts';
import { startLiveLine } from '../../../gateway/live/liveLine.ts';
import { openRecords } from '../../../gateway/records/records.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { StoredTape } from '../../../gateway/tape/storedTape.ts';
import { EXPORT_TABLES } from '../../../model/export/columns.ts';
import type { ExportRow } from '../../../model/export/job.ts';
import { epochMs, HOUR, type Instant } from '../../../model/units/units.ts';
import { poll } from '../../integration/process.ts';
import { monday } from '../../simulator/simulatedLine.ts';
import { csvRows } from './csvRows.ts';
import { line, recordedFolder } from './recordedFolder.ts';
import { unzipped } from './unzipped.ts';

const parent = mkdtempSync(join(tmpdir(), 'scoreline-jobs-'));
let data: string;
beforeAll(async () => {
  data = await recordedFolder(3, parent);
});
afterAll(() => rmSync(parent, { recursive: true }));

const end = (monday + 3 * HOUR) as Instant;
const whole = { from: epochMs(monday), to: epochMs(end), tables: ['stops', 'changes'], format: 'csv' };

/** The web side of what was recorded. */
async function site(bounds: ExportsParts['bounds'] = {}) {
  const clock = { ms: epochMs(end) as number };
  const tape = await openSqliteTape(data, new Map([[line.id, line.signals]]));
  const records = openRecords(data);
  const now = () => clock.ms;
  const outside = () => ({ servers: [{ id: 'plc', up: true }] });
  const live = await startLiveLine({ line, tape, records, now, speed: 1, outside, told: () => {} });
  const folder = join(data, 'exports');
  mkdirSync(folder);
  writeFileSync(join(folder, 'left.zip'), 'of an earlier run');
  const stored = () => new StoredTape(join(data, 'tape.sqlite'));
  const exports = new ExportJobs({ folder, tape: stored, records, now, bounds });
  const server = createServer(
    createApi({
      lines: new Map([[line.id, live]]),
      tape,
      past: { records, status: () => ({ kind: 'whole' }), cancel: () => {} },
      now,
      exports,
      signals: () => [],
      servers: () => [],
      known: knownHost([]),
      dashboard: data,
      log: { error: () => {} },
    }),
  );
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/api/lines/${line.id}/exports`;
  onTestFinished(async () => {
    server.closeAllConnections();
    server.close();
    await exports.stop();
    await live.stop();
    records.close();
    await tape.close();
    expect(existsSync(folder)).toBe(false);
  });
  const send = (path: string, body?: object) =>
    fetch(`${address}${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body ?? {}),
    });
  const row = async (id: string) => (await (await fetch(`${address}/${id}`)).json()) as ExportRow;
  return {
    clock,
    folder,
    live,
    send,
    row,
    get: (path: string) => fetch(`${address}${path}`),
    start: async (body: object) => (await (await send('', body)).json()) as ExportRow,
    over: (id: string) =>
      poll(async () => {
        const found = await row(id);
        return found.state !== 'running' && found;
      }),
  };
}

describe('exports that a screen asks for', () => {
  it('[OI4] go on beside the line, tell how far they are, and are fetched as one file with their definitions', async () => {
    const { start, over, get, row } = await site();
    const begun = await start({ ...whole, tables: EXPORT_TABLES });
    expect(begun).toMatchObject({ state: 'running', share: 0, rows: 0, trouble: null });
    expect((await get(`/${begun.id}/file`)).status).toBe(409);
    const shares: number[] = [];
    await poll(async () => {
      const { share, state } = await row(begun.id);
      shares.push(share);
      return state !== 'running';
    });
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares.some((share) => share > 0 && share < 1)).toBe(true);
    const done = await over(begun.id);
    expect(done).toMatchObject({ state: 'done', share: 1 });
    const response = await get(`/${begun.id}/file`);
    expect(response.headers.get('content-disposition')).toBe(
      'attachment; filename=line-3_2026-03-16T0600_2026-03-16T0900.zip',
    );
    const files = unzipped(Buffer.from(await response.arrayBuffer()));
    expect(files.size).toBe(EXPORT_TABLES.length + 1);
    const definitions = JSON.parse(String(files.get('definitions.json')));
    const rows = EXPORT_TABLES.map((table) => {
      const { file, rows: count } = definitions.tables[table];
      expect(csvRows(String(files.get(file))), table).toHaveLength(count);
      return count as number;
    });
    expect(rows.reduce((a, b) => a + b)).toBe(done.rows);
    expect(((await (await get('')).json()) as ExportRow[]).map(({ id }) => id)).toEqual([begun.id]);
  });

  it('[OI4] leave nothing where somebody ends one, or drops it', async () => {
    const { start, send, over, folder, row, get } = await site();
    const { id } = await start(whole);
    await poll(async () => (await row(id)).rows > 0);
    expect(await (await send(`/${id}/cancel`)).json()).toEqual({ ok: true });
    expect(await row(id)).toMatchObject({ state: 'cancelled', bytes: 0 });
    expect(readdirSync(folder)).toEqual([]);
    const other = await start({ ...whole, tables: ['stops'], format: 'parquet' });
    await over(other.id);
    expect(readdirSync(folder)).toEqual([`${other.id}.zip`]);
    await send(`/${other.id}/cancel`);
    expect(readdirSync(folder)).toEqual([]);
    expect((await get(`/${other.id}`)).status).toBe(404);
  });

  it('[OI4] are few at once, few and small that are kept, and gone after a day', async () => {
    const { start, send, over, folder, clock, get } = await site({ running: 1, kept: 2 });
    const { id } = await start(whole);
    const refused = await send('', whole);
    expect([refused.status, ((await refused.json()) as { trouble: string }).trouble]).toEqual([
      429,
      'Too many exports at once.',
    ]);
    await over(id);
    const small = { ...whole, tables: ['runs'] };
    const later = [await start(small)];
    await over(later[0]!.id);
    later.push(await start(small));
    await over(later[1]!.id);
    expect(readdirSync(folder).toSorted()).toEqual(later.map((one) => `${one.id}.zip`).toSorted());
    clock.ms += 24 * 3_600_000 + 1;
    expect(await (await get('')).json()).toEqual([]);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('[OI4] end with words where they would be too large, and the line goes on', async () => {
    const { start, over, folder, live } = await site({ bytes: 100_000 });
    const { id } = await start(whole);
    expect(await over(id)).toMatchObject({
      state: 'failed',
      trouble: { what: 'The files would be too large for one export from a screen.' },
    });
    expect(readdirSync(folder)).toEqual([]);
    expect(live.unrecorded()).toBeUndefined();
  });

  it('[OI4] are refused with words where they are not understood', async () => {
    const { send } = await site();
    for (const [body, why] of [
      [{ ...whole, to: whole.from }, /end has to lie after the beginning/],
      [{ ...whole, tables: [] }, /tables/],
      [{ ...whole, tables: ['stops', 'stops'] }, /twice/],
      [{ ...whole, format: 'xlsx' }, /format/],
      [{ ...whole, names: true }, /names/],
    ] as const) {
      const response = await send('', body);
      expect(response.status).toBe(400);
      expect(((await response.json()) as { why: string }).why).toMatch(why);
    }
    expect((await send('/none/cancel')).status).toBe(404);
  });
});
