import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createApi } from '../../gateway/api/api.ts';
import { knownHost } from '../../gateway/api/hostNames.ts';
import { serverRows, signalRows } from '../../gateway/api/signalRows.ts';
import type { Bound } from '../../gateway/binding/binding.ts';
import { dashboardFolder } from '../../gateway/commands/dashboard.ts';
import { ExportJobs } from '../../gateway/export/jobs.ts';
import type { Intake } from '../../gateway/intake/intake.ts';
import { type LiveLine, startLiveLine } from '../../gateway/live/liveLine.ts';
import { startSockets } from '../../gateway/live/sockets.ts';
import type { Pages } from '../../gateway/notices/pages.ts';
import { openPeople, type People } from '../../gateway/people/people.ts';
import { openRecords, type Records } from '../../gateway/records/records.ts';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import { StoredTape } from '../../gateway/tape/storedTape.ts';
import type { Tape } from '../../gateway/tape/tape.ts';
import type { EpochMs } from '../../model/units/units.ts';

/** What a screen of a test sees of a gateway. */
export interface Site {
  readonly address: string;
  readonly live: LiveLine;
  /** Ends all of it; throws where something failed meanwhile that nobody was told. */
  readonly end: () => Promise<void>;
}

/** The web side of a gateway on loopback, with a tape, records and people of its own and no PLC: its line is told by a test. */
export interface GatewaySite extends Site {
  readonly folder: string;
  readonly tape: Tape;
  readonly records: Records;
  readonly people: People;
  /** Gives somebody a number with roles and a code of six digits. */
  readonly person: (number: string, roles: readonly string[], code: string) => Promise<void>;
  /** What shall not happen, and would be told nobody. */
  readonly failed: (what: unknown) => void;
  /** It falls silent: nobody is answered, and who was connected is not any more. */
  readonly silence: () => Promise<void>;
  /** It answers again, under the same address. */
  readonly speak: () => Promise<void>;
}

export interface GatewaySiteWish {
  readonly bound: Bound;
  readonly now: () => EpochMs;
  readonly intakes?: readonly Intake[];
  readonly pages?: Pages;
}

/** What comes in beside the tape: the PLC of these tests is always there. */
export const outside = () => ({ servers: [{ id: 'plc', up: true }] });

export async function openGatewaySite(wish: GatewaySiteWish): Promise<GatewaySite> {
  const { bound, now } = wish;
  const { line } = bound;
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-site-'));
  const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
  const records = openRecords(folder);
  const live = await startLiveLine({ line, tape, records, now, speed: 1, outside, told: () => {} });
  const people = openPeople(folder, { now });
  const stored = () => new StoredTape(join(folder, 'tape.sqlite'));
  const exports = new ExportJobs({ folder: join(folder, 'exports'), tape: stored, records, now });
  const failures: unknown[] = [];
  const failed = (what: unknown) => void failures.push(what);
  const serve = (port: number) => serveOn(port, wish, { live, tape, records, people, exports, failed });
  let web: Web | undefined = await serve(0);
  const { port } = web;
  const address = `http://127.0.0.1:${port}`;
  const silence = async () => {
    await web?.stop();
    web = undefined;
  };
  return {
    ...{ address, live, folder, tape, records, people, failed, silence },
    person: givesNumbers(address, people),
    speak: async () => {
      web ??= await serve(port);
    },
    end: async () => {
      await silence();
      await exports.stop();
      await live.stop();
      people.close();
      records.close();
      await tape.close();
      rmSync(folder, { recursive: true, force: true });
      if (failures.length > 0) throw new Error(`the gateway failed: ${JSON.stringify(failures)}`);
    },
  };
}

interface Web {
  readonly port: number;
  readonly stop: () => Promise<void>;
}

async function serveOn(
  port: number,
  { bound, now, intakes = [], pages }: GatewaySiteWish,
  {
    live,
    tape,
    records,
    people,
    exports,
    failed,
  }: Pick<GatewaySite, 'live' | 'tape' | 'records' | 'people' | 'failed'> & { readonly exports: ExportJobs },
): Promise<Web> {
  const lines = new Map([[bound.line.id, live]]);
  const known = knownHost([]);
  const server = createServer(
    createApi({
      ...{ lines, tape, people, exports, now, known, dashboard: dashboardFolder },
      past: { records, status: () => ({ kind: 'whole' }), cancel: () => {} },
      signals: () => signalRows(bound, live, intakes),
      servers: () => serverRows(bound, intakes),
      log: { error: failed },
    }),
  );
  const sockets = startSockets(server, lines, now, { known, people, ...(pages ? { pages } : {}) });
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));
  return {
    port: (server.address() as AddressInfo).port,
    stop: async () => {
      await sockets.stop();
      server.closeAllConnections();
      await new Promise<void>((resolve) => void server.close(() => resolve()));
    },
  };
}

/** By the first admin, whose code is printed once; nobody is one before somebody is given a number. */
function givesNumbers(address: string, people: People): GatewaySite['person'] {
  const ask = async (method: string, path: string, body: object, cookie = '') => {
    const response = await fetch(`${address}/api${path}`, {
      method,
      headers: { 'content-type': 'application/json', cookie },
      body: JSON.stringify(body),
    });
    if (!response.ok) throw new Error(`${path}: ${await response.text()}`);
    return {
      body: (await response.json()) as { readonly code?: string },
      cookie: response.headers.get('set-cookie')?.split(';')[0] ?? '',
    };
  };
  const admit = () => {
    const code = people.firstCode ?? people.newAdminCode();
    return ask('POST', '/session/admin', { code, number: '1', secret: 'correct horse 9' });
  };
  let admin: ReturnType<typeof admit> | undefined;
  return async (number, roles, secret) => {
    admin ??= admit();
    const { cookie } = await admin;
    const { body } = await ask('POST', '/people', { number, roles }, cookie);
    const own = await ask('POST', '/session', { number, secret: body.code });
    await ask('PUT', '/session/secret', { secret: body.code, next: secret }, own.cookie);
  };
}
