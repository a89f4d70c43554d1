import { setLine } from '../../model/setpoints/setLine.ts';
import { once } from 'node:events';
import { createServer, type IncomingMessage, request } from 'node:http';
import { text as textOf } from 'node:stream/consumers';
import { onTestFinished } from 'vitest';
import type { AddressInfo } from 'node:net';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createApi } from '../../../gateway/api/api.ts';
import type { ServerRow, SignalRow } from '../../../gateway/api/schemas.ts';
import type { WaysOut } from '../../../gateway/notices/notices.ts';
import { knownHost } from '../../../gateway/api/hostNames.ts';
import { openPeople, type People } from '../../../gateway/people/people.ts';
import { Pages } from '../../../gateway/notices/pages.ts';
import { ExportJobs } from '../../../gateway/export/jobs.ts';
import { openRecords, type Records } from '../../../gateway/records/records.ts';
import { openSqliteTape } from '../../../gateway/tape/sqliteTape.ts';
import { StoredTape } from '../../../gateway/tape/storedTape.ts';
import { startSockets } from '../../../gateway/live/sockets.ts';
import { type Entrance, plainEntrance } from '../../../gateway/tls/entrance.ts';
import { changes, goods, running, smallLine } from '../../model/smallLine.ts';
import { msAt, type Stand, stand, type Wish } from '../live/shell.ts';

/** With one adjustment, which no sensor reads. */
export const line = smallLine({ adjustments: setLine.adjustments.filter(({ number }) => number === '2.2') });

/** The web side of a small line on loopback, with 20 good cartons on its tape. */
export interface Site extends Stand {
  readonly address: string;
  readonly logged: unknown[];
  readonly dashboard: string;
  readonly people: People;
  /** Pages that sound for notices. */
  readonly pages: Pages;
  get(path: string, headers?: Record<string, string>): Promise<Response>;
  enter(body: unknown, headers?: Record<string, string>): Promise<Response>;
  close(): Promise<void>;
}

export const row: SignalRow = {
  id: 'good',
  role: 'goodCount',
  of: null,
  server: 'plc',
  tag: 'Good',
  value: 20,
  quality: 'good',
  ageMs: 1000,
  samplingMs: 0,
  queue: 100,
  twin: null,
  missable: null,
  trouble: null,
};

const plc: ServerRow = {
  id: 'plc',
  endpoint: 'opc.tcp://127.0.0.1:4840',
  security: 'signAndEncrypt',
  up: false,
  since: msAt(0),
  lastDataAt: null,
  clockOffsetMs: -12.5,
  clockSetMs: 0,
  fingerprint: '01:AB',
  trouble: { what: 'Not trusted.', why: 'Unknown.', mend: 'Compare, then trust.' },
};

interface SiteWish extends Wish {
  readonly signals?: () => SignalRow[];
  /** The dashboard stands in a folder of this name. */
  readonly folder?: string;
  /** The dashboard as it is built, in place of an empty page. */
  readonly built?: string;
  /** Where its people are kept, so that they are there again when it opens again. */
  readonly data?: string;
  readonly notices?: WaysOut['notices'];
  /** How requests are to come in; from this machine in clear text unless said. */
  readonly entrance?: Entrance;
  /** Files can be exported, of what is derived; its tape in memory is none that can be read from a disk. */
  readonly exports?: boolean;
  /** Nothing was ever heard of the line. */
  readonly unheard?: boolean;
}

/** Too cheap for anything but a test. */
export const CHEAP = { cost: 16, block: 1, parallel: 1 };

export async function openSite(wish: SiteWish = {}): Promise<Site> {
  const past = mkdtempSync(join(tmpdir(), 'scoreline-past-'));
  const records = openRecords(past);
  const stood = await stand(line, { second: 21, records, ...wish });
  const { live, tape, clock } = stood;
  if (tape.end(line.id) === 0 && !wish.unheard)
    await live.offer(changes(line, [...running(), ...goods(1, 20, 1)]));
  const parent = mkdtempSync(join(tmpdir(), 'scoreline-site-'));
  const empty = join(parent, wish.folder ?? '', 'dist');
  mkdirSync(empty, { recursive: true });
  writeFileSync(join(empty, 'index.html'), '<!doctype html><title>Scoreline</title>');
  const dashboard = wish.built ?? empty;
  const lines = new Map([[line.id, live]]);
  const logged: unknown[] = [];
  const now = () => msAt(clock.second);
  const signals = wish.signals ?? (() => [row]);
  const log = { error: (...what: unknown[]) => void logged.push(what) };
  const known = knownHost(['scoreline.plant.example']);
  const { entrance = plainEntrance } = wish;
  const people = openPeople(wish.data ?? past, { now, cost: CHEAP, durable: false });
  const pages = new Pages();
  const exports = wish.exports ? await exportsIn(past, records, now) : undefined;
  const server = createServer(
    createApi({
      lines,
      tape,
      past: { records, status: () => ({ kind: 'whole' }), cancel: () => {} },
      now,
      signals,
      servers: () => [plc],
      known,
      entrance,
      people,
      ...(wish.notices === undefined ? {} : { notices: wish.notices }),
      ...(exports ? { exports } : {}),
      pages,
      dashboard,
      log,
    }),
  );
  const sockets = startSockets(server, lines, now, { known, people, entrance, pages });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    ...stood,
    address,
    logged,
    dashboard,
    people,
    pages,
    get: (path, headers = {}) => fetch(`${address}${path}`, { headers }),
    enter: (body, headers = {}) =>
      fetch(`${address}/api/lines/${line.id}/entries`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', ...headers },
        body: typeof body === 'string' ? body : JSON.stringify(body),
      }),
    close: async () => {
      await sockets.stop();
      await exports?.stop();
      records.close();
      people.close();
      rmSync(past, { recursive: true });
      rmSync(parent, { recursive: true });
    },
  };
}

/** Exports that find an empty tape on the disk. */
async function exportsIn(folder: string, records: Records, now: () => number): Promise<ExportJobs> {
  await (await openSqliteTape(folder, new Map([[line.id, line.signals]]))).close();
  const tape = () => new StoredTape(join(folder, 'tape.sqlite'));
  return new ExportJobs({ folder: join(folder, 'exports'), tape, records, now });
}

/** A site that is closed when its test is over. */
export async function siteForTest(wish?: SiteWish): Promise<Site> {
  const site = await openSite(wish);
  onTestFinished(() => site.close());
  return site;
}

/** As it is written: `fetch` would put an address right before it sends it. */
export async function sent(address: string, method: string, path: string, body?: string) {
  const { hostname, port } = new URL(address);
  const headers = { 'content-type': 'application/json' };
  const asked = request({ hostname, port, method, path, headers });
  asked.end(body);
  const [answer] = (await once(asked, 'response')) as [IncomingMessage];
  return { status: answer.statusCode, headers: answer.headers, text: await textOf(answer) };
}

/** Sentences of libraries, by the words they have and the catalogue does not. */
export const foreign =
  /invalid|expected|received|must|request entity|unexpected|json at|decode param|position \d/i;
