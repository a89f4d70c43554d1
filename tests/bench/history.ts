import { mkdirSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createApi } from '../../gateway/api/api.ts';
import { knownHost } from '../../gateway/api/hostNames.ts';
import { type LiveLine, startLiveLine } from '../../gateway/live/liveLine.ts';
import { Making } from '../../gateway/records/making.ts';
import { openRecords, type Records } from '../../gateway/records/records.ts';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import type { Tape } from '../../gateway/tape/tape.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { type RecordStep, recordSteps } from '../../model/records/records.ts';
import type { Change } from '../../model/signals/signals.ts';
import { epochMs, HOUR, type Instant } from '../../model/units/units.ts';
import { boundLine, changesOf, monday, runFor } from '../simulator/simulatedLine.ts';
import { daysOfRecords } from './pastRecords.ts';
import type { Figure } from './run.ts';

const HOURS = 8;
const ASKED = 60;
const DAY = 1;
const MONTH = 30;
const YEAR = 365;
const end = (monday + HOURS * HOUR) as Instant;
const span = `from=${epochMs(monday)}&to=${epochMs(end)}`;
const screens = ['stops', 'stations', 'safety', 'changeovers'] as const;

/** What is stored of days before the eight hours; the last has just taken the place of another making of itself. */
const stores = { '1Days': DAY, '30Days': MONTH, '365Days': YEAR, Rebuilt: YEAR } as const;
type Store = keyof typeof stores;
const names = Object.keys(stores) as Store[];
type Times = Record<Store, number>;

/**
 * How long it takes to answer what Stops, Stations, Safety stops and Changeovers ask of the same eight hours, with a
 * day, a month and a year stored: `value` with a year, `reference` with a day, both the sum of the four. Of each also what
 * the first answer costs, when nothing of these records is remembered. All are asked in turn, so that what else the
 * machine does slows them alike. The days before are a simulated week again and again. Says also what it costs to make
 * the records of a stored year anew.
 */
export async function measure(): Promise<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-history-'));
  const { line } = boundLine();
  const tape = await openSqliteTape(folder, new Map([[line.id, line.signals]]));
  const records = openRecords(folder);
  const live = await startLiveLine({
    line,
    tape,
    records,
    now: () => epochMs(end),
    speed: 1,
    outside: () => ({ servers: [] }),
    told: () => {},
  });
  const shift = changesOf(boundLine(), runFor(HOURS, { seed: 4 }).told);
  for (let from = 0; from < shift.length; from += 20_000) await live.offer(shift.slice(from, from + 20_000));
  const own = stepsOf(shift);
  const sites: Site[] = [];
  const open = async (name: string, days: number) => {
    const site = await openSite(join(folder, name), days, { live, tape, own });
    sites.push(site);
    return site;
  };
  try {
    // what is compiled on its way is no cost of the records
    const warm = await open('warm', DAY);
    for (const screen of screens) await asked([warm], screen);
    for (const name of names) await open(name, stores[name]);
    await sites.at(-1)!.takePlace();
    const { first, usual, by } = await timesOf(sites.slice(1));
    return {
      value: round(usual['365Days']),
      unit: 'ms for four answers, a year stored',
      reference: round(usual['1Days']),
      ratio: round(usual['365Days'] / usual['1Days']),
      yearToDay: round(usual['365Days'] / usual['1Days']),
      yearToDayRebuilt: round(usual.Rebuilt / usual['1Days']),
      ...Object.fromEntries(Object.entries(usual).map(([name, ms]) => [`ms${name}`, round(ms)])),
      ...Object.fromEntries(Object.entries(first).map(([name, ms]) => [`msFirst${name}`, round(ms)])),
      ...by,
      bytesPerYear: statSync(join(folder, '365Days', 'records.sqlite')).size,
      rebuildMinutesPerYear: round(await rebuild(live, tape, records)),
    };
  } finally {
    for (const site of sites) await site.close();
    await live.stop();
    records.close();
    await tape.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Of each store the sums over the four screens, and each screen by itself. */
async function timesOf(sites: readonly Site[]) {
  const times: Record<string, number> = {};
  const [first, usual] = [noTimes(), noTimes()];
  for (const screen of screens) {
    const told = await asked(sites, screen);
    for (const [place, name] of names.entries()) {
      times[`${screen}${name}`] = round(told[place]!.usual);
      times[`${screen}First${name}`] = round(told[place]!.first);
      usual[name] += told[place]!.usual;
      first[name] += told[place]!.first;
    }
  }
  return { first, usual, by: times };
}

interface Site {
  readonly once: (path: string) => Promise<number>;
  /** The same records are made anew, after they were asked. */
  readonly takePlace: () => Promise<void>;
  readonly close: () => Promise<void>;
}

interface SiteParts {
  readonly live: LiveLine;
  readonly tape: Tape;
  readonly own: readonly RecordStep[];
}

/** The web side of the line, with so many days stored before its eight hours. */
async function openSite(folder: string, days: number, { live, tape, own }: SiteParts): Promise<Site> {
  mkdirSync(folder);
  const records = openRecords(folder);
  fill(records, live, days, own);
  const { once, close } = await serve(live, tape, records);
  return {
    once,
    takePlace: async () => {
      for (const screen of screens) await once(pathOf(screen));
      fill(records, live, days, own);
    },
    close: async () => {
      await close();
      records.close();
    },
  };
}

/** Of each site how long the first answer took, and the middle time of many that were asked in turn. */
async function asked(sites: readonly Site[], screen: (typeof screens)[number]) {
  const times: number[][] = sites.map(() => []);
  for (let n = 0; n < ASKED; n += 1)
    for (const [place, { once }] of sites.entries()) times[place]!.push(await once(pathOf(screen)));
  return times.map((all) => ({
    first: all[0]!,
    usual: all.toSorted((a, b) => a - b)[Math.floor(ASKED / 2)]!,
  }));
}

function pathOf(screen: (typeof screens)[number]): string {
  return `past/${screen}?${span}`;
}

function noTimes(): Times {
  return { '1Days': 0, '30Days': 0, '365Days': 0, Rebuilt: 0 };
}

/** A new making with so many days before the eight hours, and these. */
function fill(records: Records, live: LiveLine, days: number, own: readonly RecordStep[]): void {
  const { id } = live.line;
  const edition = records.begin(id, live.version);
  for (const steps of daysOfRecords(days, monday)) records.write(edition, steps, 0);
  records.write(edition, own, live.position());
  records.serve(id, edition);
}

function stepsOf(shift: readonly Change[]): readonly RecordStep[] {
  const fold = new LineFold(boundLine().line);
  return structuredClone(recordSteps(fold.take(shift), fold.state));
}

async function serve(live: LiveLine, tape: Tape, records: Records) {
  const api = createApi({
    lines: new Map([[live.line.id, live]]),
    tape,
    past: { records, status: () => ({ kind: 'whole' }), cancel: () => {} },
    now: () => epochMs(end),
    signals: () => [],
    servers: () => [],
    known: knownHost([]),
    dashboard: tmpdir(),
    log: { error: (what: unknown) => process.stderr.write(`${String(what)}\n`) },
  });
  const server = createServer(api);
  // filling in a year takes longer than a connection is usually kept
  server.keepAliveTimeout = 3_600_000;
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/api/lines/${live.line.id}/`;
  const once = async (path: string) => {
    const began = performance.now();
    const response = await fetch(`${address}${path}`);
    const text = await response.text();
    if (!response.ok) throw new Error(`${path}: ${text}`);
    return performance.now() - began;
  };
  return {
    once,
    close: () => new Promise<void>((resolve) => void server.close(() => resolve())),
  };
}

/** Minutes that a stored year would take, from the eight hours on the tape. */
async function rebuild(live: LiveLine, tape: Tape, records: Records): Promise<number> {
  const { line, version } = live;
  const making = new Making({ tape, records, line, version, stopping: new AbortController().signal });
  const began = performance.now();
  await making.goOn(tape.end(line.id));
  const took = performance.now() - began;
  return ((took / HOURS) * 24 * YEAR) / 60_000;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
