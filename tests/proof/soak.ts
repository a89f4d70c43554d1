import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { demoLineFile } from '../../gateway/commands/demo.ts';
import { after, instantFromMs, SECOND, type Span } from '../../model/units/units.ts';
import { type Cable, lay } from '../gateway/intake/proxy.ts';
import { freePort, type Program, poll, startProgram } from '../integration/process.ts';
import { READ_EVERY_MS, type SoakReading } from './soakReading.ts';
import { type Outage, outagesOf, suffer } from './soakOutages.ts';
import { type SoakProcess, startGateway } from './soakProcess.ts';
import { followLine, type SoakScreen } from './soakScreen.ts';
import { grew, median, slope } from './soakTrend.ts';
import { type Truth, truthOf } from './soakTruth.ts';

/**
 * Hours of real time over a link that breaks every minute: a row each ten minutes, with the middle one of its readings, and a
 * last row with the trends and the truth. Its moments are real ones, so that no row comes out a second time to the digit.
 */
export type SoakRow = TenMinutes | Verdict;

interface TenMinutes {
  readonly proof: 'soak';
  readonly kind: 'tenMinutes';
  readonly minute: number;
  readonly heapKB: number;
  readonly rssKB: number;
  readonly handles: number;
  /** What they are, at the last reading. */
  readonly kinds: SoakReading['handles'];
  readonly descriptors: number | undefined;
  readonly tapeKB: number;
  readonly changes: number;
  readonly lateMs: number;
  /** Every reading that was due came. */
  readonly equal: boolean;
}

/** What rises is told per hour, from where memories have filled; undefined where the run was too short to tell. */
interface Verdict extends Truth {
  readonly proof: 'soak';
  readonly kind: 'verdict';
  readonly seed: number;
  readonly minutes: number;
  readonly outages: number;
  readonly outageSeconds: number;
  readonly heapKBPerHour: number | undefined;
  readonly handlesPerHour: number | undefined;
  readonly descriptorsPerHour: number | undefined;
  readonly tapeBytesPerHour: number | undefined;
  readonly tapeBytesPerChange: number | undefined;
  /** Parts that the screen was told, and how often it saw a hole in their numbers. */
  readonly parts: number;
  readonly holes: number;
  readonly equal: boolean;
}

interface Soaked {
  readonly folder: string;
  readonly cable: Cable;
  readonly simulator: Program;
  readonly gateway: SoakProcess;
  readonly screen: SoakScreen;
}

const SEED = 5;
const MINUTES = Number(process.env.SCORELINE_SOAK_MINUTES ?? 120);
/** Minutes of one row; a short run has one row. */
const BLOCK = Math.min(10, MINUTES);
/** Until memories have filled, what rises says nothing of a leak. Minutes. */
const WARM = Math.min(20, MINUTES / 3);
/** After the last outage, until what it did is over. Milliseconds. */
const QUIET_MS = 45_000;
/** What is told of the last seconds may still be under way when all is stopped. */
const UNDER_WAY = (10 * SECOND) as Span;

export async function* soak(): AsyncGenerator<SoakRow> {
  const soaked = await begin();
  const { folder, cable, simulator, gateway, screen } = soaked;
  let equal = false;
  try {
    await poll(() => screen.live());
    const start = instantFromMs(Date.now());
    const suffered = suffer(cable, outagesOf(SEED, MINUTES), start);
    for (let minute = BLOCK; minute <= MINUTES; minute += BLOCK) {
      await setTimeout(BLOCK * 60_000);
      yield tenMinutes(gateway.readings, minute);
    }
    const outages = await suffered;
    await setTimeout(QUIET_MS);
    await poll(() => screen.live());
    await setTimeout(QUIET_MS);
    const ends = after(instantFromMs(Date.now()), -UNDER_WAY as Span);
    screen.close();
    await gateway.stop();
    await simulator.end();
    const verdict = verdictOf(soaked, outages, await truthOf(folder, outages, { start, ends }));
    equal = verdict.equal;
    yield verdict;
  } finally {
    gateway.kill();
    simulator.child.kill('SIGKILL');
    await cable.close();
    if (equal) rmSync(folder, { recursive: true });
    else process.stderr.write(`What was recorded is in ${folder}\n`);
  }
}

/** A machine, its PLC, a cable, a gateway and a screen, each of them real. */
async function begin(): Promise<Soaked> {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-soak-'));
  const port = await freePort();
  const cable = await lay(port);
  const demo = readFileSync(demoLineFile, 'utf8').replace(/endpoint: \S+/, `endpoint: ${cable.endpoint}`);
  writeFileSync(join(folder, 'line.yaml'), demo);
  writeFileSync(join(folder, 'orders.csv'), readFileSync(join(demoLineFile, '../orders.csv')));
  const simulator = startProgram('simulator/main.ts', [
    ...['--seed', `${SEED}`, '--lively', '4', '--port', `${port}`],
    ...['--ledger', join(folder, 'ledger'), '--certificates', join(folder, 'plc')],
  ]);
  await simulator.until(/"ready"/);
  const gateway = await startGateway(folder);
  const screen = followLine(gateway.address, 'line-3');
  return { folder, cable, simulator, gateway, screen };
}

function tenMinutes(all: readonly SoakReading[], minute: number): TenMinutes {
  const due = Math.floor((BLOCK * 60_000) / READ_EVERY_MS);
  const readings = all.slice(-due);
  const middle = (of: (reading: SoakReading) => number) => median(readings.map(of)) ?? Number.NaN;
  const descriptors = readings.flatMap((reading) => reading.descriptors ?? []);
  return {
    proof: 'soak',
    kind: 'tenMinutes',
    minute,
    heapKB: Math.round(middle(({ heapBytes }) => heapBytes) / 1000),
    rssKB: Math.round(middle(({ rssBytes }) => rssBytes) / 1000),
    handles: middle(handlesOf),
    kinds: readings.at(-1)?.handles ?? {},
    descriptors: median(descriptors),
    tapeKB: Math.round(middle(({ tapeBytes }) => tapeBytes) / 1000),
    changes: readings.at(-1)?.changes ?? 0,
    lateMs: rounded(middle(({ lateMs }) => lateMs))!,
    // the first is due half a minute after the gateway opened
    equal: all.length >= Math.floor((minute * 60_000) / READ_EVERY_MS) - 1,
  };
}

function verdictOf({ gateway, screen }: Soaked, outages: readonly Outage[], truth: Truth): Verdict {
  const all = gateway.readings;
  const first = all[0]?.at ?? 0;
  const readings = all.filter(({ at }) => at - first >= WARM * 60_000);
  const rise = (of: (reading: SoakReading) => number | undefined) =>
    slope(
      readings.flatMap((reading) => {
        const value = of(reading);
        return value === undefined ? [] : [{ hour: (reading.at - first) / 3_600_000, value }];
      }),
    );
  const bytes = rise(({ tapeBytes }) => tapeBytes);
  const changes = rise((reading) => reading.changes);
  const descriptors = readings.flatMap((reading) => reading.descriptors ?? []);
  const grown = grew(readings.map(handlesOf)) || (descriptors.length > 0 && grew(descriptors));
  return {
    proof: 'soak',
    kind: 'verdict',
    seed: SEED,
    minutes: MINUTES,
    outages: outages.length,
    outageSeconds: Math.round(outages.reduce((sum, { lasts }) => sum + lasts, 0) / SECOND),
    heapKBPerHour: rounded(rise(({ heapBytes }) => heapBytes / 1000)),
    handlesPerHour: rounded(rise(handlesOf)),
    descriptorsPerHour: rounded(rise((reading) => reading.descriptors)),
    tapeBytesPerHour: rounded(bytes),
    tapeBytesPerChange: rounded(bytes !== undefined && changes ? bytes / changes : undefined),
    parts: screen.parts,
    holes: screen.holes,
    ...truth,
    equal: truth.wrong.length === 0 && !grown,
  };
}

function handlesOf({ handles }: SoakReading): number {
  return Object.values(handles).reduce((sum, count) => sum + count, 0);
}

function rounded(value: number | undefined): number | undefined {
  return value === undefined ? undefined : Math.round(value * 100) / 100;
}
