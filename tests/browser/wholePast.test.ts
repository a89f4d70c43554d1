import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readLineFile } from '../../gateway/binding/binding.ts';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { demoLineFile } from '../../gateway/commands/demo.ts';
import type { Intake } from '../../gateway/intake/intake.ts';
import { epochMs, HOUR, type Instant } from '../../model/units/units.ts';
import { runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { changesOf, monday } from '../simulator/simulatedLine.ts';
import { faultsIn } from './axeFaults.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';
import { openGatewaySite, type Site } from './gatewaySite.ts';

/** SCORELINE_PICTURES=1 renews the README's pictures, of a whole week. */
const pictures = process.env.SCORELINE_PICTURES === '1';
const HOURS = pictures ? 7 * 24 - 3 : 14;
const output = join(import.meta.dirname, 'output');
/** Where the README’s pictures stand. */
const kept = join(import.meta.dirname, 'pictures');

const screens = [
  { path: '/stops', has: 'section.sheet' },
  { path: '/stations', has: 'section.sheet table' },
  { path: '/stations/bottom-major', has: 'section.sheet svg' },
  { path: '/maintenance', has: '.maintained svg' },
  { path: '/safety-stops', has: 'section.sheet table' },
  { path: '/changeovers', has: 'section.sheet svg' },
  { path: '/setpoints', has: '.book table' },
  { path: '/setpoints/sachet-48/5.2', has: '.facts1 svg' },
  { path: '/figures?period=day', has: '.balance svg' },
  { path: '/report', has: '.paper table' },
  { path: '/signals', has: '.signalsheets table' },
] as const;
const sizes = [
  { name: 'desk', width: 1440, height: 900 },
  { name: 'phone', width: 390, height: 844 },
] as const;

let site: Site;
let browser: Browser;

beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
  [site, browser] = await Promise.all([
    openSite(),
    chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags }),
  ]);
});

afterAll(async () => {
  await browser?.close();
  await site?.end();
});

/** The gateway's web side with the demo line as it was simulated, and no PLC. */
async function openSite(): Promise<Site> {
  const bound = await readLineFile(demoLineFile);
  const end = (monday + HOURS * HOUR) as Instant;
  const now = () => epochMs(end);
  const opened = await openGatewaySite({ bound, now, intakes: [heardIntake(now())] });
  const machine = startMachine({ seed: 3, start: monday });
  for (let at = monday; at < end; at = (at + HOUR) as Instant)
    await opened.live.offer(changesOf(bound, runUntil(machine, (at + HOUR) as Instant)));
  return opened;
}

function heardIntake(now: number): Intake {
  return {
    status: () => ({
      up: true,
      since: now - 3_600_000,
      clockOffsetMs: 40,
      clockSetMs: 0,
      endpoint: 'opc.tcp://127.0.0.1:4840',
      security: 'signAndEncrypt',
      revised: new Map(),
      items: new Map(),
      lastDataAt: now - 400,
      fingerprint: undefined,
      trouble: undefined,
    }),
    stop: async () => {},
  };
}

describe('the screens that look back, with what a gateway answers', () => {
  for (const { path, has } of screens) {
    for (const { name, width, height } of sizes) {
      it(`${path} on a ${name} answers, has room, and has nothing that a reader of screens cannot tell`, async () => {
        const page = await browser.newPage({ viewport: { width, height } });
        const errors: string[] = [];
        page.on('pageerror', (error) => errors.push(String(error)));
        page.on('console', (said) => void (said.type() === 'error' && errors.push(said.text())));
        await page.goto(`${site.address}${path}`);
        await page.waitForSelector(has);
        await page.waitForFunction('document.fonts.status === "loaded"');
        expect(await faultsIn(page)).toEqual([]);
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
        expect(await page.locator('.saying').count()).toBe(0);
        expect(errors).toEqual([]);
        keep(`past${path.replace(/\?.*/, '').replaceAll('/', '-')}-${name}.png`, await page.screenshot());
        await page.close();
      });
    }
  }
});

describe('on paper', () => {
  // a report is a page of its own (pastReport.test.ts)
  it.each(screens.filter(({ path }) => path !== '/report'))(
    '$path is light and has room, whatever the colours of the screen, and says when it was printed',
    async ({ path, has }) => {
      // A4 across, less its margins
      const page = await browser.newPage({ viewport: { width: 1032, height: 703 } });
      await page.goto(`${site.address}${path}${path.includes('?') ? '&' : '?'}theme=dark`);
      await page.waitForSelector(has);
      const colours = () =>
        page.evaluate(() => {
          const light = (colour: string) =>
            (colour.match(/\d+/g) ?? []).slice(0, 3).reduce((sum, one) => sum + Number(one), 0);
          const { color } = getComputedStyle(document.querySelector('h1')!);
          const { backgroundColor } = getComputedStyle(document.querySelector('section.sheet')!);
          return [light(color) > 384, light(backgroundColor) > 384];
        });
      expect(await colours()).toEqual([true, false]);
      await page.emulateMedia({ media: 'print' });
      expect(await colours()).toEqual([false, true]);
      // a chart takes its new width a moment after its column has it
      await expect.poll(() => page.evaluate('document.documentElement.scrollWidth')).toBe(1032);
      expect(await page.locator('.onpaper').textContent()).toMatch(/^Printed Mon (16|23) Mar 2026, /);
      expect(await page.locator('button:not(.openrow):visible, select:visible, input:visible').count()).toBe(
        0,
      );
      await page.close();
    },
  );
});

function keep(name: string, picture: Buffer): void {
  expect(picture.length).toBeGreaterThan(15_000);
  mkdirSync(output, { recursive: true });
  writeFileSync(join(output, name), picture);
  if (pictures && name.endsWith('desk.png')) {
    mkdirSync(kept, { recursive: true });
    writeFileSync(join(kept, name), picture);
  }
}
