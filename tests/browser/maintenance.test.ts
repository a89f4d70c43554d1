import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDashboard, dashboardFolder, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { at, changes, goods, type Rows } from '../model/smallLine.ts';
import { line, openSite, type Site } from '../gateway/api/web.ts';
import { faultsIn } from './axeFaults.ts';
import { bareNumbers } from './bareNumbers.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';

const output = join(import.meta.dirname, 'output');
const SIZES = { desk: [1440, 900], phone: [390, 844] } as const;

/** Two tuck jams and a wait, in the first half hour of the early shift. */
const rows: Rows = [
  [30, 'state', 11],
  [30, 'reason', 51],
  [90, 'state', 6],
  [90, 'reason', 0],
  ...goods(91, 600, 21),
  [601, 'state', 11],
  [601, 'reason', 51],
  [900, 'state', 6],
  [900, 'reason', 0],
  ...goods(901, 1200, 531),
  [1201, 'state', 11],
  [1201, 'reason', 11],
  [1260, 'state', 6],
  [1260, 'reason', 0],
  ...goods(1261, 1500, 831),
];

let site: Site;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
  site = await openSite({ second: 1800, built: dashboardFolder });
  await site.live.offer(changes(line, rows));
  browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
  page = await browser.newPage();
});
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

async function open(path: string, size: keyof typeof SIZES): Promise<void> {
  const [width, height] = SIZES[size];
  await page.setViewportSize({ width, height });
  await page.goto(`${site.address}${path}`);
  await page.waitForSelector('main section.sheet');
}

/** The gateway's clock stands, so that what was entered lies before now only when it is moved on. */
async function later(): Promise<void> {
  site.clock.second += 5;
  await page.reload();
  await page.waitForSelector('main section.sheet');
}

const saidSoon = () => site.live.fold().state.said.length;

describe('what was done at the line', () => {
  it('[EN3] a change is entered at a desk, and stands with whether it held', async () => {
    await open('/maintenance', 'desk');
    const form = page.locator('.enterchange');
    await form.getByLabel('Station').selectOption({ label: '2 fold' });
    await form.getByLabel('What was changed').selectOption('part');
    await form.getByLabel('Which part').fill('tucker');
    await form.getByLabel('In a few words').fill('worn, changed');
    await form.getByRole('button', { name: 'Enter the change' }).click();
    await expect.poll(saidSoon).toBe(1);
    await later();
    const done = page.locator('.donelist li');
    expect(await done.textContent()).toContain('Part: tucker: worn, changed');
    expect(await done.textContent()).toContain('fewer stops expected');
    expect(await done.textContent()).toContain(
      'Cannot tell: too little of the same size and crew ran before',
    );
  });

  it('[EN1] it is corrected in the list of entries, and both stay to be seen', async () => {
    await open('/stops', 'desk');
    const row = page.locator('.saidlist li').first();
    expect(await row.textContent()).toContain('2 fold, part: tucker: worn, changed');
    await row.getByRole('button', { name: 'Correct' }).click();
    await row.getByLabel('What it should say').fill('tucker finger');
    expect(await row.getByRole('button', { name: 'Enter the correction' }).isDisabled()).toBe(true);
    await row.getByLabel('Why it is corrected').fill('named wrong');
    await row.getByRole('button', { name: 'Enter the correction' }).click();
    await expect.poll(() => site.live.fold().state.said[0]!.corrections.length).toBe(1);
    await later();
    const said = (await page.locator('.saidlist li').first().textContent())!;
    expect(said).toContain('first said 2 fold, part: tucker: worn, changed');
    expect(said).toContain('now said 2 fold, part: tucker finger: worn, changed');
    expect(said).toContain('because: named wrong');
    await open('/stations/fold', 'desk');
    await page.waitForSelector('.donelist li');
    expect(await page.locator('.donelist li').textContent()).toContain(
      'Part: tucker finger: worn, changed (entered otherwise at first)',
    );
  });

  it('[EN1] corrected at two desks at once, the second is told what the first said, and what it typed stays', async () => {
    await open('/stops', 'desk');
    const row = page.locator('.saidlist li').first();
    await row.getByRole('button', { name: 'Correct' }).click();
    await row.getByLabel('What it should say').fill('tucker spring');
    await row.getByLabel('Why it is corrected').fill('looked again');
    // the list is not asked for anew before the entry is sent
    await page.route('**/past/entries?*', (route) => route.abort());
    const { first, corrections } = site.live.fold().state.said[0]!;
    const [before] = corrections;
    await site.enter({
      ...{ id: 'other', author: { kind: 'screen', screen: 'phone' }, kind: 'correction', was: 'changed' },
      ...{ of: before!.id, why: 'looked too', body: { ...before!.body, words: 'worn out, changed' } },
    });
    await row.getByRole('button', { name: 'Enter the correction' }).click();
    await page.getByText('This was corrected before you, at a phone').waitFor();
    expect(await row.getByLabel('What it should say').inputValue()).toBe('tucker spring');
    await page.unroute('**/past/entries?*');
    await row.getByText('worn out, changed').waitFor();
    await row.getByRole('button', { name: 'Enter the correction' }).click();
    await row.getByLabel('What it should say').waitFor({ state: 'detached' });
    expect(site.live.fold().state.said[0]).toMatchObject({
      first: { id: first.id },
      corrections: [
        {},
        { id: 'other' },
        { body: { changed: { name: 'tucker spring' }, words: 'worn out, changed' } },
      ],
    });
  });

  it('[EN2] a stop’s cause is said, in two parts, and stands beside what the PLC said', async () => {
    await open(`/stops?stop=${at(601).toString(36)}`, 'phone');
    await page.getByText('Say what the cause was').click();
    const form = page.locator('.causeform');
    await form.getByLabel('In a few words').fill('jam, then no board');
    await form.getByRole('button', { name: 'From some moment on' }).click();
    await form.getByLabel('After so many seconds').fill('100');
    await form.getByLabel('Where').nth(1).selectOption({ label: '1 pick' });
    await form.getByLabel('What it was').nth(1).selectOption('starved');
    await form.getByRole('button', { name: 'Enter the cause' }).click();
    await expect.poll(saidSoon).toBe(2);
    await later();
    const stop = page.locator(`#stop-${at(601).toString(36)}`);
    expect(await stop.textContent()).toContain('tuck jam');
    expect(await stop.textContent()).toContain('jam, then no board: stopped by 2 fold, from +1 min');
    expect(await page.locator('.stoprows').first().textContent()).toContain('fold');
  });

  it('[EN4] a target is entered for a size and a crew', async () => {
    await open('/stops', 'desk');
    await page.getByText('Target from now on').click();
    await page.getByLabel('Cartons a minute').fill('52.5');
    await page.getByRole('button', { name: 'Enter the target' }).click();
    await expect.poll(() => site.live.fold().state.targets[0]?.tenths).toBe(525);
  });

  it('[BA4] [EN1] a corrected count that looks like a slip is asked about, as where it is first entered', async () => {
    const author = { kind: 'position', position: 'front' };
    await site.enter({ id: 'taken', author, kind: 'takenOut', cartons: 6, why: 'sample' });
    site.clock.second += 5;
    await open('/stops', 'desk');
    const row = page.locator('.saidlist li', { hasText: '6 cartons as samples' });
    await row.getByRole('button', { name: 'Correct' }).click();
    await row.getByLabel('What it should say').fill('90');
    await row.getByLabel('Why it is corrected').fill('a whole case');
    await row.getByRole('button', { name: 'Enter the correction' }).click();
    await row.getByText('Is 90 right?').waitFor();
    expect(site.live.fold().state.said.at(-1)!.corrections).toEqual([]);
    await row.getByRole('button', { name: 'It is right as typed' }).click();
    await expect
      .poll(() => site.live.fold().state.said.at(-1)!.corrections)
      .toMatchObject([{ body: { cartons: 90 }, why: 'a whole case' }]);
  });

  it.each(['desk', 'phone'] as const)(
    '[HE2] Maintenance shows stations, days and what was done, as %s, with nothing that nobody can ask about',
    async (size) => {
      await open('/maintenance', size);
      await page.waitForSelector('.daymarks rect');
      expect(await page.locator('.maintained li').count()).toBe(3);
      expect(await page.locator('.maintained li').first().getAttribute('aria-label')).toBe(
        '1 pick: 1 stop on 1 day, 4 min',
      );
      // the caution stands before what may make somebody do something
      const order = await page
        .locator('main > .maintained, main > .caution, main > .donelist')
        .evaluateAll((all) => all.map((one) => one.className.split(' ').at(-1)));
      expect(order).toEqual(['maintained', 'caution', 'donelist']);
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
      expect(await bareNumbers(page)).toEqual([]);
      expect(await faultsIn(page)).toEqual([]);
      await page.screenshot({ path: join(output, `maintenance-${size}.png`), fullPage: true });
    },
  );

  it.each(['desk', 'phone'] as const)('the list of entries reads well, as %s', async (size) => {
    await open('/stops', size);
    await page.waitForSelector('.saidlist li');
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    expect(await faultsIn(page)).toEqual([]);
    await page.screenshot({ path: join(output, `entries-${size}.png`), fullPage: true });
  });
});
