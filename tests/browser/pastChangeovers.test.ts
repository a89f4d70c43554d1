import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { epochMs } from '../../model/units/units.ts';
import { views } from '../dashboard/views/views.ts';
import { faultsIn } from './axeFaults.ts';
import { changeoverAnswers, earlier, past } from './changeoverAnswers.ts';
import { openStage, type Stage } from './stage.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(views.quiet, changeoverAnswers);
});
afterAll(async () => stage.end());

async function open(path: string, width: number, theme = 'light'): Promise<Page> {
  const page = await stage.page(width, 900);
  await page.goto(`${stage.address}${path}?theme=${theme}`);
  await page.waitForSelector('.changeoverlist table, .signalsheets table');
  return page;
}

const looked = [
  { path: '/changeovers', width: 1440, theme: 'light' },
  { path: '/changeovers', width: 320, theme: 'dark' },
  { path: '/signals', width: 1440, theme: 'dark' },
  { path: '/signals', width: 320, theme: 'light' },
] as const;

describe('the Changeovers and Signals screens in a browser', () => {
  it.each(looked)(
    'axe finds nothing on $path at $width px in $theme, nothing sticks out or is green, and every target is large enough',
    async ({ path, width, theme }) => {
      const page = await open(path, width, theme);
      const least = width < 1200 ? 44 : 24;
      const seen = await page.evaluate((least) => {
        const probe = document.createElement('i');
        probe.style.color = 'var(--normal)';
        document.body.append(probe);
        const green = getComputedStyle(probe).color;
        probe.remove();
        const all = [...document.querySelectorAll('main, main *')];
        const targets = [...document.querySelectorAll('main button, main select, main a, main summary')];
        return {
          over: document.documentElement.scrollWidth - innerWidth,
          green: all.filter((one) => {
            const { fill, stroke, backgroundColor, color } = getComputedStyle(one);
            return [fill, stroke, backgroundColor, color].includes(green);
          }).length,
          low: targets
            .filter((one) => one.getBoundingClientRect().height < least)
            .map((one) => one.outerHTML),
        };
      }, least);
      expect(seen).toEqual({ over: Math.min(0, seen.over), green: 0, low: [] });
      expect(await faultsIn(page)).toEqual([]);
    },
  );

  it('an earlier changeover is opened from the list by keyboard, and stands in the address', async () => {
    const page = await open('/changeovers', 1440);
    await page.getByText('The last one was over').waitFor();
    const asked: string[] = [];
    await page.route('**/past/changeovers?*', async (route) => {
      const id = new URL(route.request().url()).searchParams.get('at') ?? undefined;
      if (id !== undefined) asked.push(id);
      await route.fulfill({ json: past(id) });
    });
    const wanted = String(epochMs(earlier[1]!.begin));
    await page.locator('.openrow').nth(2).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: /03:46/ }).waitFor();
    expect(asked[0]).toBe(wanted);
    expect(new URL(page.url()).searchParams.get('at')).toBe(wanted);
    // who opened it stands before it
    await expect.poll(() => page.evaluate(() => document.activeElement?.className)).toBe('openedchangeover');
    expect(await page.locator('.openrow[aria-current="true"]').count()).toBe(1);
    await page.unroute('**/past/changeovers?*');
  });

  it('what is to be mended is found in one tap, with how; a stop device without a twin stands in the lead', async () => {
    const page = await open('/signals', 390);
    await page.getByText('stop device has no counted twin').waitFor();
    await page.getByRole('button', { name: 'to mend, 2' }).click();
    const rows = page.locator('.signalsheets tbody tr');
    await expect.poll(() => rows.count()).toBe(2);
    expect(await rows.nth(1).textContent()).toContain('Mend: Bind a counted signal of it');
    expect(await rows.nth(1).textContent()).toContain('on change → 50 ms, 100');
    expect(await page.locator('.fingerprint').textContent()).toContain('E8310C5D');
    await page.getByText('2.40 s ahead of here, beyond the scale').waitFor();
    expect(await page.locator('.signalsheets .caution').count()).toBe(1);
  });
});
