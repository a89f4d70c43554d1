import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createApi } from '../../gateway/api/api.ts';
import { knownHost } from '../../gateway/api/hostNames.ts';
import { serverRows, signalRows } from '../../gateway/api/signalRows.ts';
import { dashboardFolder } from '../../gateway/commands/dashboard.ts';
import { type LiveLine, startLiveLine } from '../../gateway/live/liveLine.ts';
import { startSockets } from '../../gateway/live/sockets.ts';
import { openPeople } from '../../gateway/people/people.ts';
import { openRecords } from '../../gateway/records/records.ts';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import { epochMs, type Instant, seconds } from '../../model/units/units.ts';
import { presentFacts, startMachine } from '../../simulator/machine/machine.ts';
import type { PlcFact } from '../../simulator/machine/plc.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';

/** Where the bottom closing guide stood in each run of Sachet 48: the book says 31.5, and 33.0 is best. */
const STOOD = [31.5, 33, 32, 34, 33.5, 31.5, 33, 34.5, 32.5, 33, 35, 34, 32, 33.5, 33, 32.5] as const;
const BEST = 33;
const GUIDE = 'BottomMajor.ClosingGuide';
const CODES = { sachet20: 20, sachet48: 48 } as const;

/** The web side of a gateway whose line ran Sachet 48 in sixteen runs and runs it now, led by hand. */
export interface SetPointSite {
  readonly address: string;
  readonly live: LiveLine;
  /** Gives somebody a number with roles and a code of six digits. */
  readonly person: (number: string, roles: readonly string[], code: string) => Promise<void>;
  readonly end: () => Promise<void>;
}

/** What the PLC told of them: rejects rise with the square of how far the guide stands from its best. */
function told(): { readonly facts: readonly PlcFact[]; readonly second: number } {
  const facts: PlcFact[] = [...presentFacts(startMachine({ seed: 1, start: monday }))];
  const counted = new Map<string, number>();
  for (const fact of facts)
    if ('tag' in fact && typeof fact.value === 'number') counted.set(fact.tag, fact.value);
  let second = 0;
  const tell = (tag: string, value: number | string) => facts.push({ at: at(second), tag, value });
  const count = (tag: string, more: number) => {
    if (more === 0) return;
    counted.set(tag, (counted.get(tag) ?? 0) + more);
    tell(tag, counted.get(tag)!);
  };
  const pass = (spent: number) => {
    for (let left = spent; left > 0; left -= 4) {
      second += Math.min(4, left);
      count('Cartoner.Heartbeat', 1);
    }
  };
  /** Spread evenly, so that each minute has its part. */
  const run = (cartons: number, rejects: number) => {
    for (let made = 0; made < cartons; made += 20) {
      pass(24);
      const due = (to: number) => Math.floor((rejects * to) / cartons);
      for (const tag of ['Cartoner.Cycles', 'Pick.Blanks', 'Discharge.Count', 'BottomMajor.Count'])
        count(tag, 20);
      const bad = due(made + 20) - due(made);
      count('Discharge.RejectBottomOpen', bad);
      count('Discharge.Good', 20 - bad);
    }
  };
  facts.push({ at: monday, link: true });
  tell('Cartoner.Size', CODES.sachet20);
  tell('Cartoner.State', 6);
  tell('Cartoner.Mode', 1);
  for (const [place, guide] of STOOD.entries()) {
    tell(GUIDE, 26);
    run(60, 0);
    tell(GUIDE, guide);
    pass(30);
    tell('Cartoner.Size', CODES.sachet48);
    tell('Magazine.BoardLot', `B-${place >> 2}`);
    run(2400, 5 + Math.round(14 * (guide - BEST) ** 2) + (place % 3));
    tell('Cartoner.Size', CODES.sachet20);
  }
  tell(GUIDE, 31.5);
  pass(30);
  tell('Cartoner.Size', CODES.sachet48);
  run(400, 6);
  return { facts, second };
}

function at(second: number): Instant {
  return (monday + seconds(second)) as Instant;
}

export async function openSetPointSite(): Promise<SetPointSite> {
  const bound = boundLine();
  const { line } = bound;
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-test-setpoints-'));
  const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
  const records = openRecords(folder);
  const { facts, second } = told();
  const opened = performance.now();
  // time goes on, as what is asked of the past ends before now
  const now = () => epochMs(at(second + (performance.now() - opened) / 1000));
  const outside = () => ({ servers: [{ id: 'plc', up: true }] });
  const live = await startLiveLine({ line, tape, records, now, speed: 1, outside, told: () => {} });
  await live.offer(changesOf(bound, facts));
  const lines = new Map([[line.id, live]]);
  const known = knownHost([]);
  const people = openPeople(folder, { now });
  const failed: unknown[] = [];
  const server = createServer(
    createApi({
      ...{ lines, tape, people, now, known, dashboard: dashboardFolder },
      past: { records, status: () => ({ kind: 'whole' }), cancel: () => {} },
      signals: () => signalRows(bound, live, []),
      servers: () => serverRows(bound, []),
      log: { error: (what: unknown) => void failed.push(what) },
    }),
  );
  const sockets = startSockets(server, lines, now, { known, people });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    address,
    live,
    person: givesNumbers(address, people.firstCode ?? people.newAdminCode()),
    end: async () => {
      await sockets.stop();
      server.closeAllConnections();
      await new Promise<void>((resolve) => void server.close(() => resolve()));
      await live.stop();
      people.close();
      records.close();
      await tape.close();
      rmSync(folder, { recursive: true, force: true });
      if (failed.length > 0) throw new Error(`the gateway failed: ${JSON.stringify(failed)}`);
    },
  };
}

/** By the first admin, whose code is printed once. */
export function givesNumbers(address: string, code: string): SetPointSite['person'] {
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
  const admin = ask('POST', '/session/admin', { code, number: '1', secret: 'correct horse 9' });
  return async (number, roles, secret) => {
    const { cookie } = await admin;
    const { body } = await ask('POST', '/people', { number, roles }, cookie);
    const own = await ask('POST', '/session', { number, secret: body.code });
    await ask('PUT', '/session/secret', { secret: body.code, next: secret }, own.cookie);
  };
}
