import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { buildDashboard, dashboardFolder, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { createEntrance } from '../../gateway/tls/entrance.ts';
import { type PeopleSite, peopleSite } from '../gateway/people/peopleSite.ts';
import { encryptedSite } from '../gateway/tls/encryptedSite.ts';
import { faultsIn } from './axeFaults.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';

const output = join(import.meta.dirname, 'output');
const MARK = 'Not encrypted: others on this network can read and change what is shown and entered here.';
let browser: Browser;

beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
  // a name of the plant that leads to loopback
  const names = '--host-resolver-rules=MAP scoreline.plant.example 127.0.0.1';
  browser = await chromium.launch({ executablePath: chromiumPath(), args: [...chromiumFlags, names] });
});
afterAll(() => browser?.close());

async function page(width: number, height: number): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height }, ignoreHTTPSErrors: true });
  onTestFinished(() => context.close());
  return context.newPage();
}

function clearSite(): Promise<PeopleSite> {
  return peopleSite({ built: dashboardFolder, entrance: createEntrance({ kind: 'clearText' }, undefined) });
}

async function keep(on: Page, name: string): Promise<void> {
  mkdirSync(output, { recursive: true });
  writeFileSync(join(output, `clear-${name}.png`), await on.screenshot());
}

const SCREENS = [
  ['wall', '/wall', 1920, 1080],
  ['desk', '/', 1440, 900],
  ['panel', '/panel/front', 1280, 800],
  ['phone', '/', 390, 844],
  ['stops', '/stops', 1440, 900],
  ['people', '/people', 390, 844],
] as const;

describe('a screen in clear text beyond the gateway’s machine', () => {
  it.each(SCREENS)('says so at its foot, where it covers nothing: %s', async (name, path, width, height) => {
    const { address } = await clearSite();
    const on = await page(width, height);
    await on.goto(`${address}${path}`);
    const mark = on.locator('.cleartext');
    await mark.waitFor();
    await on.waitForFunction(() => document.documentElement.dataset.head !== undefined);
    expect(await mark.textContent()).toBe(MARK);
    const box = (await mark.boundingBox())!;
    expect([box.x, box.width, Math.round(box.y + box.height)]).toEqual([0, width, height]);
    expect(await mark.evaluate((one) => one.scrollWidth <= one.clientWidth)).toBe(true);
    const screen = on.locator('.wall, .panel').first();
    if ((await screen.count()) > 0) {
      const whole = (await screen.boundingBox())!;
      expect(whole.y + whole.height).toBeLessThanOrEqual(box.y + 0.5);
      expect(whole.height).toBeGreaterThan(0.96 * height);
    } else {
      // scrolled to its end, the last of it stands over the mark
      await on.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
      const low = await on.evaluate(() => document.getElementById('root')!.getBoundingClientRect().bottom);
      expect(low).toBeLessThanOrEqual(box.y + 0.5);
    }
    expect(await faultsIn(on)).toEqual([]);
    await keep(on, name);
  });

  it('has nothing that closes the mark, and it stays', async () => {
    const { address } = await clearSite();
    const on = await page(1440, 900);
    await on.goto(address);
    const mark = on.locator('.cleartext');
    await mark.waitFor();
    expect(await mark.locator('button, a, input, [tabindex]').count()).toBe(0);
    await on.keyboard.press('Escape');
    await mark.click();
    await on.getByRole('link', { name: 'Stops' }).first().click();
    await mark.waitFor();
    expect(await mark.textContent()).toBe(MARK);
  });

  it('says so too where only the way that the page itself came is clear', async () => {
    const { address } = await peopleSite({ built: dashboardFolder });
    const on = await page(1440, 900);
    await on.goto(address.replace('127.0.0.1', 'scoreline.plant.example'));
    await on.locator('.cleartext').waitFor();
  });
});

describe('a screen that is encrypted, or on the gateway’s own machine', () => {
  it('bears no mark, and follows the line', async () => {
    const { web } = await encryptedSite({ kind: 'own', proxies: [] }, dashboardFolder);
    const local = await peopleSite({ built: dashboardFolder });
    for (const address of [web.address, local.address]) {
      const on = await page(1440, 900);
      const told = on.waitForResponse('**/api/encryption');
      await on.goto(address);
      expect(await (await told).json()).toMatchObject({ clearText: false });
      await on.waitForFunction(() => document.documentElement.dataset.head !== undefined);
      expect(await on.locator('.cleartext').count()).toBe(0);
    }
  });
});
