import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import type { SetPointOpened, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { bookWith, crowdedBook, now, openedWith, zone } from '../dashboard/setpoints/answers.ts';
import { views } from '../dashboard/views/views.ts';
import { faultsIn } from './axeFaults.ts';
import { bareNumbers } from './bareNumbers.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';
import { logIn } from './logIn.ts';
import { openSetPointSite } from './setPointSite.ts';
import { openStage, type Stage } from './stage.ts';

const output = join(import.meta.dirname, 'output');
const overview: PastOverview = {
  ...{ past: { kind: 'whole' }, begun: now, now, zone },
  ...{ shifts: [], sizes: [], stations: [], orders: [] },
};

let stage: Stage;
let book: SetPointsPast = bookWith();
beforeAll(async () => {
  stage = await openStage({ ...views.stopped, at: now }, (path) => {
    if (path.endsWith('/past')) return overview;
    if (path.endsWith('/setpoints')) return book;
    const number = /\/setpoints\/(.+)$/.exec(path)?.[1];
    return number && openedWith(decodeURIComponent(number));
  });
});
afterAll(() => stage?.end());

async function open(path: string, width = 1440, shown = bookWith()): Promise<Page> {
  book = shown;
  const page = await stage.page(width, 900);
  await page.goto(`${stage.address}${path}`);
  await page.waitForSelector('.book tbody, .facts1, .setpaper');
  return page;
}

const overhang = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

const PATHS = ['/setpoints/sachet-48', '/setpoints/sachet-48/5.2', '/setpoints/sachet-48/paper'] as const;

describe('set points in a browser', () => {
  it('open by keyboard alone, go back to the row they came from, and open the same from a link', async () => {
    const page = await open('/setpoints/sachet-48');
    await page.getByRole('link', { name: '5.2 bottom closing guide' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: '5.2 bottom closing guide, Sachet 48' }).waitFor();
    expect(new URL(page.url()).pathname).toBe('/setpoints/sachet-48/5.2');
    const answer = await page.locator('.lead').textContent();
    expect(answer).toContain('Recommended 34.0 mm for Sachet 48. The book says 31.5 mm.');
    await page.goBack();
    await page.getByRole('heading', { name: 'Set points, Sachet 48' }).waitFor();
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('row-5.2');
    const linked = await open('/setpoints/sachet-48/5.2');
    expect(await linked.locator('.lead').textContent()).toBe(answer);
    await linked.getByRole('link', { name: 'After it 6.1' }).click();
    await linked.getByRole('heading', { name: '6.1 top flap guide, Sachet 48' }).waitFor();
  });

  it('show only what differs where that is wanted, also from the address', async () => {
    const page = await open('/setpoints/sachet-48');
    expect(await page.locator('.openset').count()).toBe(12);
    await page.getByRole('button', { name: 'Only what differs' }).click();
    expect(await page.locator('.openset b').allTextContents()).toEqual(['4.2', '5.2', '9.1']);
    await page.reload();
    await page.waitForSelector('.book tbody');
    expect(await page.locator('.openset').count()).toBe(3);
  });

  it('draw each number as it is known, dashed where it is the last known, and only what is off in yellow', async () => {
    const page = await open('/setpoints/sachet-48');
    const marks = (known: string) => page.locator(`.book tbody .reads1[data-known="${known}"]`).count();
    expect([
      await marks('sensor'),
      await marks('typed'),
      await marks('readBack'),
      await marks('silent'),
    ]).toEqual([3, 1, 1, 1]);
    expect(await page.locator('.book tbody .confirmed1').count()).toBe(5);
    expect(await page.locator('.book tbody .collar1').count()).toBe(1);
    expect(await page.locator('.reads1.outside').count()).toBe(1);
    expect(await page.locator('.offtab.abnormal').allTextContents()).toEqual(['+5.0']);
  });

  it('say what another number costs in a sentence and a table, and put the caution before what to try', async () => {
    const page = await open('/setpoints/sachet-48/5.2');
    await page
      .getByRole('figure', { name: /At 32.0, 144 cartons more lost in a usual run; at 36.0, 144/ })
      .waitFor();
    await page.getByText('As a table').click();
    expect(await page.locator('.cost1 tbody tr').count()).toBe(9);
    const order = await page.evaluate(() => {
      const top = (name: string) => document.querySelector(name)!.getBoundingClientRect().top;
      return top('.caution') < Math.min(top('.teaches1'), top('.approve1'), top('.readnow1'));
    });
    expect(order).toBe(true);
  });

  it('[SH7] ask about a number that is unlikely before it is sent, and send it as it was said', async () => {
    const page = await open('/setpoints/sachet-48/5.2');
    const form = page.locator('.readnow1');
    const sent = () => stage.entries.at(-1);
    await form.getByLabel('Number read').fill('13,5');
    await form.getByRole('button', { name: 'Enter it' }).click();
    await form.getByText('13.5 is far from the book, and looks like a slip.').waitFor();
    await form.getByRole('button', { name: '31.5 was meant' }).click();
    await expect.poll(sent).toMatchObject({ kind: 'reading', adjustment: '5.2', value: 31.5, how: 'typed' });
    await form.getByLabel('Number read').fill('12.0');
    await form.getByRole('button', { name: 'Enter it' }).click();
    await form.getByRole('button', { name: '12.0 it is' }).click();
    // and whether it was left there: it is not the book's number [SP10]
    await form.getByText('The book says 31.5 mm. Does it stay at 12.0, or was it moved?').waitFor();
    await form.getByRole('button', { name: 'It stays at 12.0' }).click();
    await expect.poll(sent).toMatchObject({ kind: 'reading', found: 12, value: 12, station: 'bottom-major' });
    await form.getByLabel('Number read').fill('315');
    await form.getByRole('button', { name: 'Enter it' }).click();
    await form.getByText('315.0 is not on its scale, which goes from 0.0 to 90.0.').waitFor();
    expect(await form.getByRole('button', { name: '315.0 it is' }).count()).toBe(0);
  });

  it('[SP3] begin a new datum, and take the offset of one', async () => {
    const page = await open('/setpoints/sachet-48/5.2');
    await page.getByText('A new datum begins').click();
    await page.getByLabel('What was done').selectOption('replaced');
    await page.getByRole('button', { name: 'Begin a new datum' }).click();
    await expect
      .poll(() => stage.entries.at(-1))
      .toMatchObject({ kind: 'datum', adjustment: '5.2', station: 'bottom-major', why: 'replaced' });
    await page.getByText('Offset of datum 2').click();
    await page.getByLabel('Offset', { exact: true }).fill('−0.5');
    await page.getByLabel('How it was measured').fill('with a gauge');
    await page.getByRole('button', { name: 'Enter the offset' }).click();
    await expect
      .poll(() => stage.entries.at(-1))
      .toMatchObject({ kind: 'datumOffset', datum: 2, offset: -0.5, why: 'with a gauge' });
  });

  it.each(
    PATHS.flatMap((path) => [
      { path, width: 1440, theme: 'light' },
      { path, width: 1440, theme: 'dark' },
      { path, width: 390, theme: 'light' },
      { path, width: 320, theme: 'dark' },
    ]),
  )(
    'axe finds nothing on $path at $width px in $theme, and nothing sticks out',
    async ({ path, width, theme }) => {
      const page = await open(`${path}?theme=${theme}`, width);
      expect(await overhang(page)).toBeLessThanOrEqual(0);
      expect(await faultsIn(page)).toEqual([]);
    },
  );

  it('have nothing to press under 44 px on a phone, and nothing under 24 px on a desk', async () => {
    for (const path of PATHS)
      for (const [width, least] of [
        [390, 44],
        [1440, 24],
      ] as const) {
        const page = await open(path, width);
        const small = await page
          .locator('main a, main button, main select, main summary, main input')
          .evaluateAll(
            (pressed, px) =>
              pressed
                .map((one) => ({ said: one.textContent, height: one.getBoundingClientRect().height }))
                .filter(({ height }) => height > 0 && height < px - 0.5),
            least,
          );
        expect([path, small]).toEqual([path, []]);
      }
  });

  it.each(PATHS)('[KP5] every number of %s can be asked how it is made', async (path) => {
    for (const width of [1440, 390]) expect(await bareNumbers(await open(path, width))).toEqual([]);
  });
});

describe('the page of set points', () => {
  it.each([12, 25, 40])('is one page of A4 for %i adjustments, with no type under 11.5 px', async (count) => {
    const shown = count === 12 ? bookWith() : crowdedBook(count);
    for (const width of [1440, 390]) {
      const page = await open('/setpoints/sachet-48/paper', width, shown);
      const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
      expect([width, pdf.toString('latin1').match(/\/Type \/Page\b/g)?.length]).toEqual([width, 1]);
    }
    const page = await open('/setpoints/sachet-48/paper', 1440, shown);
    expect(await page.locator('.paper').evaluate((one) => one.style.getPropertyValue('--zoom'))).toBe('1');
    const sizes = await page
      .locator('.paper :is(td, th, p, span, small, h2)')
      .evaluateAll((all) => all.map((one) => Number.parseFloat(getComputedStyle(one).fontSize)));
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(11.5);
    expect(await page.locator('.setpaper tbody tr').count()).toBe(count);
  });
});

describe('which number should 5.2 have for Sachet 48, and how do you know?', () => {
  let browser: Browser;
  beforeAll(async () => {
    if (dashboardIsOld()) await buildDashboard();
    browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
  });
  afterAll(() => browser?.close());

  it('[BK1] an engineer answers it from the screens alone, approves the number, and the line goes by it', async () => {
    const site = await openSetPointSite();
    onTestFinished(() => site.end());
    await site.person('17', ['engineer'], '480216');
    await site.person('18', ['operator'], '480217');
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    onTestFinished(() => context.close());
    const page = await context.newPage();
    await page.goto(`${site.address}/setpoints`);
    // the size that runs
    await page.getByRole('heading', { name: 'Set points, Sachet 48' }).waitFor();
    await page.getByRole('link', { name: '5.2 bottom closing guide' }).click();
    const { row } = (await (
      await fetch(`${site.address}/api/lines/line-3/past/setpoints/5.2?size=sachet-48`)
    ).json()) as SetPointOpened;
    const { recommended, likely, runs, settings } = row.learned!;
    expect(Math.abs(recommended! - 33)).toBeLessThanOrEqual(0.5);
    const number = recommended!.toFixed(1);
    await page.locator('.lead', { hasText: 'Recommended' }).waitFor();
    const lead = await page.locator('.lead').textContent();
    expect(lead).toContain(`Recommended ${number} mm for Sachet 48. The book says 31.5 mm.`);
    expect(lead).toContain(`${runs} runs, ${settings} settings`);
    expect(lead).toContain(
      `between ${likely!.from.toFixed(1)} and ${likely!.to.toFixed(1)} in nine of ten cases.`,
    );
    await page.locator('.runbyrun tbody tr').nth(11).waitFor();
    await page.locator('.costchart svg').first().waitFor();
    const form = page.locator('.approve1');
    await form.getByText('To approve a number of the book, log in.').waitFor();

    await logIn(page, '18', '480217');
    await form.getByText('Your number may not approve a number of the book.').waitFor();
    await page.getByRole('button', { name: 'Number 18', exact: true }).click();
    await page.getByRole('button', { name: 'Log out' }).click();
    await page.getByLabel('your number').waitFor();
    await logIn(page, '17', '480216');
    await expect.poll(() => form.locator('.needslogin').count()).toBe(0);
    expect(await form.getByLabel('Number for the book').inputValue()).toBe(number);
    await form.getByLabel('Why').fill('sixteen runs, tried on both sides');
    await form.getByRole('button', { name: `Approve ${number} for the book` }).click();
    await form.getByText(`The book has ${number} mm for Sachet 48.`).waitFor();
    const approvals = page.locator('.approvals1');
    await approvals.getByText(/by 17: sixteen runs, tried on both sides/).waitFor();
    await approvals.getByText(/Seen then: Recommended .* in nine of ten cases\./).waitFor();
    mkdirSync(output, { recursive: true });
    writeFileSync(join(output, 'setpoint-opened.png'), await page.screenshot({ fullPage: true }));

    await page.goto(`${site.address}/stations/bottom-major`);
    await page
      .locator('.adjustments tr', { hasText: '5.2' })
      .locator('td', { hasText: number })
      .first()
      .waitFor();
    await page.goto(`${site.address}/setpoints/sachet-48`);
    await page.waitForSelector('.book tbody');
    expect(
      await page
        .locator('tr', { has: page.locator('[id="row-5.2"]') })
        .locator('.bookno b')
        .textContent(),
    ).toBe(number);
    writeFileSync(join(output, 'setpoints.png'), await page.screenshot({ fullPage: true }));

    // taken back, the number of the line's file holds again
    await page.getByRole('link', { name: '5.2 bottom closing guide' }).click();
    await form.getByText('Take back what was approved').first().click();
    const back = form.locator('details');
    await back.getByLabel('Why').fill('the guide was bent');
    await back.getByRole('button', { name: 'Take back what was approved' }).click();
    await form.getByText('The book has 31.5 mm for Sachet 48.').waitFor();
    await approvals.getByText(/taken back, by 17: the guide was bent/).waitFor();
  });
});
