import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoLineFile } from '../../gateway/commands/demo.ts';
import type { LineView } from '../../model/view/view.ts';
import { freePort, type Program, poll, startProgram } from '../integration/process.ts';
import { eventful } from '../simulator/eventful.ts';
import { faultsIn } from './axeFaults.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';

const folder = mkdtempSync(join(tmpdir(), 'scoreline-whole-'));
/** Machine time runs this much faster than the clock, so that the story of five minutes takes one and a half. */
const SPEED = 4;

let gateway: Program;
let simulator: Program | undefined;
let browser: Browser;
let address = '';
let simulatorPort = 0;

beforeAll(async () => {
  simulatorPort = await freePort();
  const line = join(folder, 'line.yaml');
  const text = readFileSync(demoLineFile, 'utf8').replace(
    /endpoint: \S+/,
    `endpoint: opc.tcp://127.0.0.1:${simulatorPort}`,
  );
  writeFileSync(line, text);
  writeFileSync(join(folder, 'orders.csv'), readFileSync(join(demoLineFile, '../orders.csv')));
  gateway = startProgram('gateway/commands/start.ts', [
    '--line',
    line,
    '--port',
    '0',
    '--data',
    join(folder, 'data'),
  ]);
  address = (await gateway.until(/Scoreline is at (\S+)/))[1] ?? '';
  browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
});

afterAll(async () => {
  await browser?.close();
  await gateway?.end();
  await simulator?.end();
  rmSync(folder, { recursive: true, force: true });
});

async function view(): Promise<LineView> {
  const response = await fetch(`${address}api/lines/line-3/view`);
  return (await response.json()) as LineView;
}

async function open(path: string, width: number, height: number): Promise<Page> {
  const page = await browser.newPage({ viewport: { width, height }, bypassCSP: false });
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.goto(`${address}${path}`);
  await page.waitForSelector('main:not(.waiting)');
  return page;
}

/** The text of a page, with its white space folded. */
async function textOf(page: Page): Promise<string> {
  return ((await page.locator('body').textContent()) ?? '').replaceAll(/\s+/g, ' ');
}

async function says(page: Page, wanted: RegExp): Promise<void> {
  await poll(async () => wanted.test(await textOf(page)));
}

/** What the page says to somebody who hears it: names of drawings as well as text. */
async function spoken(page: Page): Promise<string> {
  const labels = await page
    .locator('[aria-label]')
    .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));
  return `${labels.join(' ')} ${await textOf(page)}`.replaceAll(/\s+/g, ' ');
}

describe('a line from its PLC to the screens', () => {
  it('is told from the first carton to a stop that a person explains', async () => {
    const wall = await open('wall', 1920, 1080);
    const panel = await open('panel/front', 1280, 800);
    const phone = await open('', 390, 844);

    // nothing was heard yet, and the screen says so instead of a zero
    expect((await view()).sight.kind).toBe('never');
    expect((await view()).rate.perMinute).toBeUndefined();
    await says(wall, /not seen|nothing (was )?read/i);

    const from = '2026-03-16T05:00:00Z';
    const { seed, lively } = eventful;
    const args = [
      '--seed',
      `${seed}`,
      '--lively',
      `${lively}`,
      '--speed',
      `${SPEED}`,
      '--start',
      from,
      '--port',
      `${simulatorPort}`,
    ];
    simulator = startProgram('simulator/main.ts', args);

    // good cartons grow, on the wall as in the API
    await poll(async () => (await view()).head.kind === 'running');
    const first = (await view()).plan.good;
    await poll(async () => (await view()).plan.good > first + 5);
    await says(wall, /Running/);

    // a stop device is pressed while it runs: every screen says so, and it stands on the rail afterwards
    const pressed = await poll(async () => {
      const { head } = await view();
      return head.kind === 'pressed' && head.press;
    });
    expect(pressed.role).toBe('caused');
    await says(wall, /latched in/i);
    await says(panel, /latched in/i);
    await says(phone, /latched in/i);
    await poll(async () => (await view()).head.kind !== 'pressed');
    await poll(async () => (await spoken(wall)).toLowerCase().includes(pressed.name.toLowerCase()));

    // a stop that the PLC cannot explain: the panel asks, one tap answers, and it is on the tape
    const question = await poll(async () => (await view()).question ?? undefined);
    await says(panel, /Why did it stop/i);
    const [answer] = question.answers;
    await panel
      .getByRole('button', { name: new RegExp(answer!.name, 'i') })
      .first()
      .click();
    await poll(async () => (await view()).question?.stop !== question.stop);
    const { changes } = (await (
      await fetch(`${address}api/lines/line-3/changes?from=0&to=10000`)
    ).json()) as {
      changes: { signal: string; value: unknown }[];
    };
    const entries = changes
      .filter(({ signal }) => signal === 'entry')
      .map(({ value }) => JSON.parse(String(value)));
    expect(entries).toContainEqual(
      expect.objectContaining({
        kind: 'reason',
        stop: question.stop,
        reason: answer!.id,
        author: { kind: 'position', position: 'front' },
      }),
    );

    // a jam begins and ends with its sentence, and its station stands out while it lasts
    const jam = await poll(async () => {
      const { head } = await view();
      return head.kind === 'stopped' && head.reason?.stopKind === 'machine' && head;
    });
    await says(wall, new RegExp(`Stopped.*${jam.reason!.name}`, 'i'));
    expect((await view()).path.stations.find((station) => station.id === jam.reason!.station)?.mark).toBe(
      'firstFault',
    );
    await poll(async () => (await view()).head.kind === 'running');
    await says(wall, /Running/);

    // what was possible, less what is good, is what was lost, as shown
    const { path } = await view();
    const sum = path.stations.reduce((total, station) => total + station.lost, 0) + path.none.lost;
    expect([sum, path.total]).toEqual([path.possible - path.good, path.possible - path.good]);
  }, 600_000);

  it('says in words that the PLC is lost, and on what the gateway is lost', async () => {
    const wall = await open('wall', 1920, 1080);
    await simulator!.end();
    await poll(async () => (await view()).head.kind === 'unknown');
    await says(wall, /not seen/i);
    const desk = await open('', 1440, 900);
    expect(await faultsIn(desk)).toEqual([]);
    expect(await gateway.end()).toBe(0);
    await says(wall, /gateway/i);
  });
});
