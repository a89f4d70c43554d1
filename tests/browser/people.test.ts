import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { buildDashboard, dashboardFolder, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import type { Entry } from '../../model/entries/entries.ts';
import { line } from '../gateway/api/web.ts';
import { PASSWORD, type PeopleSite, peopleSite } from '../gateway/people/peopleSite.ts';
import { faultsIn } from './axeFaults.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';

const output = join(import.meta.dirname, 'output');
let browser: Browser;

beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
  browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
});
afterAll(() => browser?.close());

/** A gateway with people on loopback, and a browser of its own that has no cookie yet. */
async function opened(
  width = 1440,
  height = 900,
): Promise<{ site: PeopleSite; context: BrowserContext; page: Page }> {
  const site = await peopleSite({ built: dashboardFolder });
  const context = await browser.newContext({ viewport: { width, height } });
  onTestFinished(() => context.close());
  return { site, context, page: await context.newPage() };
}

async function keep(page: Page, name: string): Promise<void> {
  mkdirSync(output, { recursive: true });
  writeFileSync(join(output, `people-${name}.png`), await page.screenshot());
}

/** The newest entry on the tape, once there is another than before. */
async function newest({ tape }: PeopleSite, before: number): Promise<Entry> {
  const ceiling = Date.now() + 60_000;
  while (tape.end(line.id) === before && Date.now() < ceiling)
    await new Promise((resolve) => setTimeout(resolve, 20));
  const end = tape.end(line.id);
  let found: unknown;
  for await (const changes of tape.read(line.id, end - 1, end))
    for (const { value } of changes) found = value;
  return JSON.parse(String(found)) as Entry;
}

describe('logging in on a screen', () => {
  it('at a desk, the first admin by the printed code, who then gives numbers and erases a name', async () => {
    const { site, page } = await opened();
    await page.goto(site.address);
    await page.getByRole('button', { name: 'Log in' }).click();
    expect(await faultsIn(page)).toEqual([]);
    await keep(page, 'login');
    await page.getByRole('button', { name: 'First admin' }).click();
    const first = page.locator('.first');
    await first.getByLabel('one-time code').fill(site.people.firstCode!);
    await first.getByLabel('your number').fill('1');
    await first.getByLabel('new password').fill('short');
    await first.getByRole('button').click();
    await first.getByText('That is too short.').waitFor();
    await first.getByLabel('new password').fill(PASSWORD);
    await first.getByRole('button').click();
    await page.getByRole('button', { name: 'Number 1', exact: true }).click();
    await keep(page, 'person');
    await page.getByRole('link', { name: 'People' }).click();
    const add = page.locator('section', { hasText: 'Another number' });
    await add.getByLabel('the number, with a digit in it').fill('17');
    await add.getByLabel('name, if it is needed').fill('A. Example');
    await add.getByRole('button', { name: 'Give a number' }).click();
    await page.getByText(/^Code for number 17: \d{8}$/).waitFor();
    const row = page.locator('tr[data-number="17"]');
    expect(await row.textContent()).toContain('A. Example');
    await row.getByRole('button', { name: 'Change' }).click();
    expect(await faultsIn(page)).toEqual([]);
    await keep(page, 'list');
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(1440);
    await page.getByRole('button', { name: 'Erase the name' }).click();
    await page.getByRole('button', { name: 'Erase the name. Sure?' }).click();
    await page.getByText('The name is erased.').waitFor();
    expect(await row.textContent()).toContain('no name');
    expect(site.people.administration.name('17')).toBeUndefined();
  });

  it('at a desk, what is entered bears the number until somebody logs out', async () => {
    const { site, page } = await opened();
    await site.person('17', ['operator', 'safety']);
    await page.goto(`${site.address}/safety-stops`);
    const form = page.locator('.recordtest');
    await form.waitFor();
    await form.getByText('To record a test, log in.').waitFor();
    await page.getByRole('button', { name: 'Log in' }).click();
    await page.getByLabel('your number').fill('17');
    await page.getByLabel('code or password').fill('480000');
    await page.getByRole('dialog').getByRole('button', { name: 'Log in' }).click();
    await page.getByText('Number and code do not belong together.').waitFor();
    await page.getByLabel('code or password').fill('480216');
    await page.getByRole('dialog').getByRole('button', { name: 'Log in' }).click();
    await page.getByRole('button', { name: 'Number 17' }).waitFor();
    expect(await form.locator('.needslogin').count()).toBe(0);
    const before = site.tape.end(line.id);
    await form.locator('select').selectOption('panel');
    await form.getByLabel('how').fill('pressed at standstill');
    expect(await form.locator('input[readonly]').inputValue()).toBe('17');
    await form.getByRole('button').click();
    expect(await newest(site, before)).toMatchObject({
      kind: 'tested',
      person: '17',
      author: { kind: 'person', number: '17' },
    });
    await page.getByRole('button', { name: 'Number 17' }).click();
    await page.getByRole('button', { name: 'Log out' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
    await page.getByRole('button', { name: 'Log in' }).waitFor();
  });

  it('on a phone has room, and so has the list of people', async () => {
    const { site, context, page } = await opened(390, 844);
    const [name = '', value = ''] = (await site.admin()).split('=');
    await site.person('17', ['operator']);
    await page.goto(site.address);
    await page.getByRole('button', { name: 'Log in' }).click();
    expect(await faultsIn(page)).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
    await context.addCookies([{ name, value, url: site.address }]);
    await page.goto(`${site.address}/people`);
    await page.locator('tr[data-number="17"]').waitFor();
    await page.locator('tr[data-number="17"]').getByRole('button').click();
    expect(await faultsIn(page)).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
    await keep(page, 'list-phone');
  });

  it('is no part of the wall, nor of a panel where nobody has a number', async () => {
    const { site, page } = await opened(1280, 800);
    for (const path of ['/wall', '/panel/front']) {
      await page.goto(`${site.address}${path}`);
      await page
        .locator(path === '/wall' ? '.wallframe svg' : '.key.note')
        .first()
        .waitFor();
      await page.waitForLoadState('networkidle');
      expect(await page.getByText('Log in').count(), path).toBe(0);
      expect(await page.locator('.key.person').count(), path).toBe(0);
    }
  });

  it('at a panel is by keys alone: number, code, a code of one’s own, then the test', async () => {
    const { site, page } = await opened(1280, 800);
    const cookie = await site.admin();
    const given = await site.ask('POST', '/api/people', { number: '17', roles: ['operator'] }, { cookie });
    await page.goto(`${site.address}/panel/front`);
    const type = async (digits: string) => {
      for (const digit of digits)
        await page.locator('.key.digit', { hasText: new RegExp(`^${digit}$`) }).click();
    };
    const take = () => page.locator('.key.take').click();
    await page.locator('.key.person').waitFor();
    await keep(page, 'panel-home');
    await page.locator('.key.person').click();
    await type('17');
    await keep(page, 'panel-number');
    await take();
    await type('480000');
    await take();
    await page.getByText('Number and code do not belong together.').waitFor();
    await keep(page, 'panel-wrong');
    await type(String(given.body.code));
    await take();
    await page.getByText('Choose a code of your own').first().waitFor();
    await type('480216');
    await take();
    await type('480217');
    await take();
    await page.getByText('The two are not the same.').waitFor();
    await type('480216');
    await keep(page, 'panel-own');
    await take();
    await page.locator('.key.device').first().waitFor();
    expect(await faultsIn(page)).toEqual([]);
    await keep(page, 'panel-devices');
    const before = site.tape.end(line.id);
    await page.locator('.key.device', { hasText: 'main panel' }).click();
    await page.locator('.key.way', { hasText: 'pressed at standstill' }).click();
    expect(await newest(site, before)).toMatchObject({
      kind: 'tested',
      device: 'panel',
      person: '17',
      author: { kind: 'person', number: '17' },
    });
    await page.getByText('main panel: on its way.').waitFor();
    const small = await page
      .locator('.key')
      .evaluateAll((keys) => keys.filter((key) => key.getBoundingClientRect().height < 130).length);
    expect(small).toBe(0);
    await page.locator('.key.logout').click();
    await page.locator('.key.person', { hasText: 'Test' }).waitFor();
  });
});
