import { mkdtempSync, rmSync, statSync } from 'node:fs';
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
type Times = Record<(typeof screens)[number], number>;

/**
 * How long it takes to answer what Stops, Stations, Safety stops and Changeovers ask of the same eight hours, with a
 * day, a month and a year stored: `value` with a year, `reference` with a day, both the sum of the four. Of each also what
 * the first answer costs, when these records have just taken the place of others and nothing of them is remembered. The
 * days before are a simulated week again and again. Says also what it costs to make the records of a stored year anew.
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
  const site = await serve(live, tape, records);
  try {
    const times: Record<string, number> = {};
    const measured = async (days: number, name = `${days}Days`) => {
      fill(records, live, days, own);
      const { first, usual } = await site.answers();
      Object.assign(times, { [`ms${name}`]: sum(usual), [`msFirst${name}`]: sum(first) });
      for (const screen of screens) {
        times[`${screen}${name}`] = usual[screen];
        times[`${screen}First${name}`] = first[screen];
      }
    };
    // what is compiled on its way is no cost of the records
    fill(records, live, DAY, own);
    await site.answers();
    for (const days of [DAY, MONTH, YEAR]) await measured(days);
    const bytes = statSync(join(folder, 'records.sqlite')).size;
    // the same once more, as a making that has just taken the place of another
    await measured(YEAR, 'Rebuilt');
    const rebuilt = await rebuild(live, tape, records);
    const day = times[`ms${DAY}Days`]!;
    const year = times[`ms${YEAR}Days`]!;
    const firstOf = (name: string) => times[`msFirst${name}`]!;
    return {
      value: year,
      unit: 'ms for four answers, a year stored',
      reference: day,
      ratio: round(year / day),
      yearToDay: round(year / day),
      yearToDayRebuilt: round(times.msRebuilt! / day),
      yearToDayFirst: round(firstOf(`${YEAR}Days`) / firstOf(`${DAY}Days`)),
      ...times,
      bytesPerYear: bytes,
      rebuildMinutesPerYear: round(rebuilt),
    };
  } finally {
    await site.close();
    await live.stop();
    records.close();
    await tape.close();
    rmSync(folder, { recursive: true, force: true });
  }
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
    /** Of each question the first time, and the middle time of many. */
    answers: async (): Promise<{ first: Times; usual: Times }> => {
      const [first, usual] = [{}, {}] as [Times, Times];
      for (const name of screens) {
        const times: number[] = [];
        for (let n = 0; n < ASKED; n += 1) times.push(await once(`past/${name}?${span}`));
        first[name] = round(times[0]!);
        usual[name] = round(times.toSorted((a, b) => a - b)[Math.floor(ASKED / 2)]!);
      }
      return { first, usual };
    },
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

function sum(times: Times): number {
  return round(Object.values(times).reduce((total, ms) => total + ms, 0));
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
