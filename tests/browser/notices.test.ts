import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { faultsIn } from './axeFaults.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';
import { type NoticedSite, openNoticedSite } from './noticedSite.ts';

const output = join(import.meta.dirname, 'output');
let browser: Browser;

beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
  browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
});
afterAll(() => browser?.close());

async function opened(width: number, height: number): Promise<{ site: NoticedSite; page: Page }> {
  const site = await openNoticedSite();
  const errors: string[] = [];
  const context = await browser.newContext({ viewport: { width, height } });
  onTestFinished(async () => {
    await context.close();
    await site.end();
    expect(errors).toEqual([]);
  });
  const page = await context.newPage();
  page.on('pageerror', (error) => errors.push(String(error)));
  return { site, page };
}

/** The bottom major flap has stopped as always in the last runs, and now it stops again and again. */
async function trouble(site: NoticedSite): Promise<void> {
  for (let jam = 0; jam < 6; jam += 1) site.line.jam().run(60);
  await site.told();
}

async function looksRight(page: Page, name: string): Promise<void> {
  expect(await faultsIn(page)).toEqual([]);
  const width = page.viewportSize()!.width;
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
  mkdirSync(output, { recursive: true });
  writeFileSync(join(output, `notices-${name}.png`), await page.screenshot({ fullPage: true }));
}

/** What became of the newest notice, as the tape has it. */
const newest = ({ live }: NoticedSite) => live.fold().state.notices.at(-1);

describe('a notice, from the first stop that is too many to whether what was done held', {
  timeout: 300_000,
}, () => {
  it('at a phone: it comes, somebody goes, finds the station, reads why, closes it, and the station shows whether that held', async () => {
    const { site, page } = await opened(390, 844);
    site.line.runs(12).run(500);
    await site.told();
    await page.goto(`${site.address}/notices`);
    await page.getByText('Nothing is open.').first().waitFor();
    await looksRight(page, 'phone-none');

    // it comes by itself, to the page that is open
    await trouble(site);
    const notice = page.getByRole('article', { name: 'Bottom major flap stops far above its own normal' });
    await notice.waitFor();
    await notice.getByText(/one in [\d,]+ cartons is usual with Sachet 20/).waitFor();
    expect(await notice.getByText(/A false notice as strong as this comes about every/).count()).toBe(1);
    await looksRight(page, 'phone-raised');

    // somebody goes
    await notice.getByRole('button', { name: 'I’m going' }).click();
    await notice.getByText(/^Somebody at a phone has it since/).waitFor();
    expect(newest(site)).toMatchObject({ taken: { by: { kind: 'screen', screen: 'phone' } } });

    // finds the station, and reads why: what stopped it, what to look at first, after the caution
    const look = notice.getByRole('heading', { name: 'Look first' });
    const caution = notice.getByRole('complementary');
    expect((await caution.boundingBox())!.y).toBeLessThan((await look.boundingBox())!.y);
    await notice.getByText(/Tuck jam was the first fault of/).waitFor();
    await notice
      .getByText(/5\.\d.*the book says/)
      .first()
      .waitFor();
    await notice.getByRole('link', { name: 'The station' }).click();
    await page.getByRole('heading', { level: 1, name: /bottom major flap/i }).waitFor();
    await page.goBack();

    // closes it with what was found and done
    await notice.waitFor();
    await notice.getByRole('button', { name: 'an adjustment had moved' }).click();
    await notice.getByRole('button', { name: 'set back to the book' }).click();
    await notice.getByRole('textbox').first().fill('guide 5.2 had crept');
    await notice.getByRole('button', { name: 'Close it' }).click();
    await page.getByText('Nothing is open.').first().waitFor();
    expect(newest(site)!.ended).toMatchObject({
      how: 'closed',
      said: { found: 'adjustment', done: 'toBook', words: 'guide 5.2 had crept' },
    });

    // the same stops are not held against it again
    await site.told();
    expect(site.live.view().notices.open).toEqual([]);

    // and later the station shows what was done, and whether that held
    site.line.runs(3, false);
    await site.told();
    await page.goto(`${site.address}/stations/bottom-major`);
    await page.getByText('No notice about it has come since.').waitFor();
    await page.getByText(/^Cannot tell: chance alone brings such a difference/).waitFor();
    site.line.runs(9, false);
    await site.told();
    await page.goto(`${site.address}/stations/bottom-major`);
    const done = page.getByRole('listitem').filter({ hasText: 'guide 5.2 had crept' });
    await done.waitFor();
    expect(await done.textContent()).toMatch(/per thousand in \d+ runs of \d+ lots before, 0\.0 in \d+ runs/);
    await done.getByText('Fewer: it held, beyond chance.').waitFor();
    await looksRight(page, 'phone-station');
  });

  it('at the line-side panel: it asks by itself, the position goes, reads why, says what was found and done, and the station shows whether that held', async () => {
    const { site, page } = await opened(1280, 800);
    site.line.runs(12).run(500);
    await site.told();
    await page.goto(`${site.address}/panel/front`);
    await page.getByRole('heading', { level: 1 }).first().waitFor();

    await trouble(site);
    await page.getByText('Bottom major flap stops far above its own normal').first().waitFor();
    await page.getByText(/one in [\d,]+ cartons is usual with Sachet 20/).waitFor();
    await page.getByText(/5\.\d.*the book says/).waitFor();
    await pressable(page);
    await looksRight(page, 'panel-raised');
    await page.getByRole('button', { name: /not now/ }).click();
    // what was done is said first, and the line’s own figures are a key away
    await page.getByText('It is put aside at this panel, and stays open.').waitFor();
    await pressable(page);
    await page.getByRole('button', { name: /to the line/ }).click();
    await page.getByRole('button', { name: /^Notices.*1 open, 1 not taken/ }).click();
    await page.getByRole('button', { name: /Bottom major flap.*since/ }).click();
    await page.getByRole('button', { name: /I’m going/ }).click();
    await page.getByText('You said that you are going.').waitFor();
    await page.getByText('No other is open.').waitFor();
    await pressable(page);
    await looksRight(page, 'panel-going');
    // taken, it can be read again as it was, with its caution
    await page.getByRole('button', { name: /read it again/ }).click();
    await page.getByText(/one in [\d,]+ cartons is usual with Sachet 20/).waitFor();
    await page.getByRole('complementary').waitFor();
    await pressable(page);
    await page.getByRole('button', { name: /say what was found/ }).click();
    await page.getByText('What was found?').waitFor();
    expect(newest(site)).toMatchObject({ taken: { by: { kind: 'position', position: 'front' } } });
    await pressable(page);
    await looksRight(page, 'panel-found');
    await page.getByRole('button', { name: 'a part was worn or broken' }).click();
    await page.getByText('And what was done?').waitFor();
    await pressable(page);
    await page.getByRole('button', { name: 'part changed' }).click();
    await page.getByRole('textbox').fill('cam follower');
    await pressable(page);
    await page.getByRole('button', { name: 'close it' }).click();
    await expect
      .poll(() => newest(site)!.ended, { timeout: 60_000 })
      .toMatchObject({
        how: 'closed',
        by: { kind: 'position', position: 'front' },
        said: { found: 'part', done: 'partChanged', words: 'cam follower' },
      });
    await page.getByText('You said what was found and done.').waitFor();
    await pressable(page);
    await page.getByRole('button', { name: /to the line/ }).click();
    await page.getByRole('button', { name: /Leave a note/ }).waitFor();
    expect(await page.getByRole('button', { name: /^Notices/ }).count()).toBe(0);

    site.line.runs(12, false);
    await site.told();
    await page.goto(`${site.address}/stations/bottom-major`);
    const done = page
      .getByRole('listitem')
      .filter({ hasText: 'found a part was worn or broken, done part changed' });
    await done.getByText('Fewer: it held, beyond chance.').waitFor();
  });
});

/** What is there to press is at least 130 px at the panel’s own size, and lies within it. */
async function pressable(page: Page): Promise<void> {
  await expect.poll(() => page.locator('button[aria-disabled]').count(), { timeout: 60_000 }).toBe(0);
  for (const key of await page.locator('button.key').all()) {
    const box = await key.boundingBox();
    if (!box) continue;
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(130);
    expect(box.y + box.height).toBeLessThanOrEqual(800);
  }
}
