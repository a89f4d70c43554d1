import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { PastRun } from '../../model/past/runsPast.ts';
import { epochMs, HOUR, type Instant, MINUTE, type Span } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { boundLine, monday } from '../simulator/simulatedLine.ts';
import { faultsIn } from './axeFaults.ts';
import { moment, ready, withReplaySite } from './replaySite.ts';

const { compared: said } = wordsIn('en').screen.past.replay;
/** The early shift and half of the late one. */
const site = withReplaySite({ hours: 12, every: (10 * MINUTE) as Span, lively: 6 });
const { faults } = site;
const early = epochMs(monday);
const late = epochMs((monday + 8 * HOUR) as Instant);
const { id } = boundLine().line;

const open = async (search: string, width = 1440, dark = false) =>
  ready(
    await site.page(`/replay?line=${id}${search}`, {
      viewport: { width, height: 1000 },
      colorScheme: dark ? 'dark' : 'light',
    }),
  );

const heads = (page: Page) => page.locator('.comparedsheet thead th').allTextContents();
const flags = (page: Page) => page.locator('.coursestrip .flagtext').allTextContents();

describe('another shift under a shift', () => {
  it('[RP10] is chosen, stands in the address, and opens again from it', async () => {
    const page = await open(`&at=${moment(200)}`);
    expect(await page.locator('.comparedsheet').count()).toBe(0);
    await page.getByLabel(said.which).selectOption({ label: 'late shift, Mon 16 Mar' });
    await page.locator('.comparedsheet tbody tr').first().waitFor();
    expect(new URL(page.url()).searchParams.get('other')).toBe(String(late));
    const again = await open(new URL(page.url()).search.replace('?', '&'));
    await again.locator('.comparedsheet tbody tr').first().waitFor();
    expect(await heads(again)).toEqual(await heads(page));
    // 06:00 and 200 minutes; 14:00 and 200 minutes
    expect(await flags(again)).toEqual(['09:20:00', '17:20:00']);
    await again.getByLabel(said.which).selectOption({ label: said.nothing });
    await again.locator('.comparedsheet').waitFor({ state: 'detached' });
    expect(faults).toEqual([]);
  });

  it('[RP10] [RP11] the moment of both moves at once, and the table follows to the whole minute', async () => {
    const page = await open(`&at=${moment(200)}&other=${late}`);
    await page.getByRole('columnheader', { name: 'up to 09:20' }).waitFor();
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => flags(page)).toEqual(['09:21:01', '17:21:01']);
    await page.getByRole('columnheader', { name: 'up to 09:21' }).waitFor();
    // half of the late shift has passed
    await page.keyboard.press('End');
    await page.getByText('Compared up to').waitFor();
    await expect.poll(async () => (await flags(page)).length).toBe(1);
    expect(faults).toEqual([]);
  });

  it('[RP10] is laid over it by cartons, on an axis of its own; by a changeover only where both have one', async () => {
    const page = await open(`&at=${moment(300)}&other=${late}`);
    await page.getByRole('button', { name: said.align.cartons }).click();
    await expect.poll(() => page.locator('.coursestrip > svg').textContent()).toContain('1,000');
    expect(new URL(page.url()).searchParams.get('align')).toBe('cartons');
    await page.getByRole('button', { name: said.align.changeover }).click();
    await page.getByText('had no good carton after a changeover: by the clock instead.').waitFor();
    expect(new URL(page.url()).searchParams.get('align')).toBe('changeover');
    expect(faults).toEqual([]);
  });
});

describe('a run of a size', () => {
  it('[RP10] is looked at in place of a shift, and another hangs under it', async () => {
    const asked = await fetch(`${site.gateway().address}/api/lines/${id}/past/runs`);
    const [first, second] = (await asked.json()) as readonly PastRun[];
    const page = await open('');
    await page.getByLabel('Which shift').selectOption({ value: `run-${first!.from}` });
    await page.getByRole('heading', { level: 1, name: first!.size.name }).waitFor();
    await page.getByLabel(said.which).selectOption({ value: `run-${second!.from}` });
    await page.locator('.comparedsheet h2', { hasText: second!.size.name }).waitFor();
    await expect.poll(() => page.url()).toContain(`run=${first!.from}`);
    await page.reload();
    await page.locator('.comparedsheet h2', { hasText: second!.size.name }).waitFor();
    // it is looked at from its beginning on
    await page.getByText(said.table.nothing).waitFor();
    for (let n = 0; n < 3; n += 1) await page.keyboard.press('Shift+ArrowRight');
    await page.getByRole('columnheader', { name: said.these.run }).waitFor();
    // back to the shift
    await page.getByLabel('Which shift').selectOption({ value: String(early) });
    await page.getByRole('heading', { level: 1, name: /^Early shift/ }).waitFor();
    expect(page.url()).not.toContain('run=');
    expect(faults).toEqual([]);
  });

  it('[RP10] that cannot be chosen any more is said to be so', async () => {
    const page = await open(`&at=${moment(100)}&run=123&other=run-456`);
    await page.getByText(said.noRun).waitFor();
    await page.getByText(said.noOther).waitFor();
  });
});

describe('on any screen', () => {
  it.each([
    [1920, false],
    [1440, true],
    [390, false],
    [320, true],
  ] as const)('[RP10] of %i px, dark %s, it is clean and nothing runs out of it', async (width, dark) => {
    const page = await open(`&at=${moment(300)}&other=${late}&align=cartons`, width, dark);
    await page.locator('.comparedsheet tbody tr').first().waitFor();
    expect(await faultsIn(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    expect(faults).toEqual([]);
  });
});
