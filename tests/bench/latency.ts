import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { type Browser, chromium, type Page } from 'playwright-core';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { demoLineFile } from '../../gateway/commands/demo.ts';
import { run } from '../../gateway/commands/run.ts';
import { instantFromMs } from '../../model/units/units.ts';
import { tagsOf } from '../../simulator/lines/tags.ts';
import { devicesOf, standard } from '../../simulator/lines/variant.ts';
import { presentFacts, startMachine } from '../../simulator/machine/machine.ts';
import { type PlcServer, startPlcServer } from '../../simulator/server/plcServer.ts';
import { chromiumFlags, chromiumPath } from '../browser/chromium.ts';
import type { Figure } from './run.ts';

const CHANGES = 120;
const PUBLISHING_MS = 250;
const EXECUTE = 6;
const HELD = 11;

/**
 * From a state change in the PLC, by its source time, until Chromium has painted the sentence that says so. The state
 * changes at random moments, so that each place within the publishing interval is met. The reference is the
 * publishing interval: what OPC UA alone may take.
 */
export async function measure(): Promise<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-latency-'));
  const server = await startPlcServer({
    port: 0,
    certificates: join(folder, 'server'),
    tags: tagsOf(standard),
    devices: devicesOf(standard),
  });
  const machine = startMachine({ seed: 1, start: instantFromMs(Date.now()) });
  await server.tell(presentFacts(machine));
  if (dashboardIsOld()) await buildDashboard();
  const lineFile = lineFileFor(server.endpoint, folder);
  const gateway = await run(
    {
      line: lineFile,
      port: 0,
      host: '127.0.0.1',
      names: [],
      data: join(folder, 'data'),
      fresh: false,
      speed: 1,
      seed: undefined,
      from: undefined,
      help: false,
    },
    { log: pino({ level: 'silent' }), say: () => {} },
  );
  const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
  try {
    const delays = await delaysOf(browser, gateway.address, server);
    delays.sort((a, b) => a - b);
    const at = (share: number) =>
      Math.round(delays[Math.min(delays.length - 1, Math.floor(delays.length * share))]!);
    return {
      value: at(0.99),
      unit: 'ms, p99',
      reference: PUBLISHING_MS,
      ratio: Math.round((at(0.99) / PUBLISHING_MS) * 100) / 100,
      p50: at(0.5),
      p90: at(0.9),
      most: Math.round(delays.at(-1)!),
      changes: delays.length,
    };
  } finally {
    await browser.close();
    await gateway.stop();
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function delaysOf(browser: Browser, address: string, server: PlcServer): Promise<number[]> {
  const page = await browser.newPage({ viewport: { width: 1920, height: 1080 } });
  await page.goto(`${address}wall`);
  await shows(page, 'running');
  const delays: number[] = [];
  for (let n = 0; n < CHANGES; n += 1) {
    const value = n % 2 === 0 ? HELD : EXECUTE;
    await new Promise((resolve) => setTimeout(resolve, 500 + Math.random() * 500));
    const seen = shows(page, value === HELD ? 'stopped' : 'running');
    const changed = performance.timeOrigin + performance.now();
    await server.tell([
      { at: instantFromMs(changed), tag: 'Cartoner.State', value },
      { at: instantFromMs(changed), tag: 'Cartoner.FirstOut', value: value === HELD ? 51 : 0 },
    ]);
    delays.push((await seen) - changed);
  }
  return delays;
}

/**
 * Wall-clock time of the first frame in which the page says so; page and gateway share one clock here. Given as text,
 * because what runs in the page must not be touched by this side's compiler.
 */
function shows(page: Page, kind: string): Promise<number> {
  return page.evaluate(`new Promise((resolve) => {
    const look = () => {
      if (document.documentElement.dataset.head === ${JSON.stringify(kind)}) resolve(performance.timeOrigin + performance.now());
      else requestAnimationFrame(look);
    };
    look();
  })`);
}

function lineFileFor(endpoint: string, folder: string): string {
  const text = readFileSync(demoLineFile, 'utf8');
  const file = join(folder, 'line.yaml');
  writeFileSync(file, text.replace(/endpoint: \S+/, `endpoint: ${endpoint}`).replace(/^orders:\n.*\n/m, ''));
  return file;
}
