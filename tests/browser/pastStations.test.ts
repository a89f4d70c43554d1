import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { views } from '../dashboard/views/views.ts';
import { faultsIn } from './axeFaults.ts';
import { openStage, type Stage } from './stage.ts';
import { stationAnswers } from './stationAnswers.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(views.stopped, stationAnswers);
});
afterAll(async () => stage.end());

async function open(path: string, width: number): Promise<Page> {
  const page = await stage.page(width, 900);
  await page.goto(`${stage.address}${path}`);
  await page.waitForSelector('.stationtable, .stationnow');
  return page;
}

const overhang = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

describe('Stations in a browser', () => {
  it('goes from all of them to one, and shows by keyboard alone what the PLC said around a stop', async () => {
    const page = await open('/stations?period=shift', 1440);
    await page.getByText('1,540 lost').waitFor();
    await page.getByRole('row').getByRole('link', { name: '5 bottom major flap' }).press('Enter');
    await page.getByRole('heading', { name: '5 Bottom major flap' }).waitFor();
    // to the second, as its stops below
    await page.getByText('1 stop here took 2 min 40 s.').waitFor();
    expect(new URL(page.url()).searchParams.get('period')).toBe('shift');
    const look = page.getByRole('button', { name: /10 s around the stop/ });
    await look.focus();
    await page.keyboard.press('Enter');
    const around = page.getByRole('region', { name: /What the PLC said around 06:01:40/ });
    await around.getByText('producing, 0 s held').waitFor();
    expect(await around.getByText('outside its normal range before the stop').count()).toBe(1);
    expect(new URL(page.url()).searchParams.get('stop')).toBe('one');
    await page.keyboard.press('Enter');
    await around.waitFor({ state: 'detached' });
  });

  it('says in words what the trend draws, has its table, and stands behind a caution', async () => {
    const page = await open('/stations/bottom-major', 1440);
    await page.getByText('The last two batches, with 9, 10, lie above it.').waitFor();
    await page.waitForSelector('.trendchart .above1');
    expect(await page.locator('.trendchart .above1').count()).toBe(2);
    // a batch is drawn, not judged: what is outside is said by the sheet of its own normal alone
    expect(await page.locator('.trend').getByText('outside').allTextContents()).toEqual([
      expect.stringContaining('Whether the station is outside its own normal is said above'),
    ]);
    await page.getByText('These batches as a table').click();
    expect(await page.locator('.trend tbody tr').count()).toBe(40);
    expect(await page.getByText('The line stands here now').count()).toBe(1);
    const order = await page.evaluate(() => {
      const top = (name: string) => document.querySelector(name)!.getBoundingClientRect().top;
      return top('.caution') < Math.min(top('.adjustments'), top('.stationstops'));
    });
    expect(order).toBe(true);
  });

  it('[NW1] [NW4] holds it against its own normal, a row a rule, and yellow is only what is outside', async () => {
    const page = await open('/stations/bottom-major', 1440);
    const sheet = page.locator('.ownnormal');
    await sheet.getByText('Outside its own normal:').waitFor();
    expect(await sheet.locator('tbody th').allTextContents()).toEqual([
      'Rejects since the changeover',
      'Rejects rising in the course of the run',
      'Stops since the changeover',
    ]);
    expect(await sheet.locator('.abnormal').allTextContents()).toEqual(['outside']);
    expect(await sheet.getByText('46, from 21 to 82').count()).toBe(1);
    expect(await sheet.getByText('too few to say').count()).toBe(1);
    // comfort is told with how much it would take
    expect(await sheet.getByText('it would be outside from 3.4 times the usual on').count()).toBe(1);
    expect(await sheet.getByText('simulated shifts in which nothing was wrong').count()).toBe(1);
    const all = await open('/stations', 1440);
    expect(await all.locator('.stationtable .abnormal').allTextContents()).toEqual([
      'outside its own normal',
    ]);
  });

  it.each([
    { path: '/stations/bottom-major?stop=one', width: 1440, theme: 'dark' },
    { path: '/stations/bottom-major?stop=one', width: 390, theme: 'light' },
    { path: '/stations', width: 320, theme: 'dark' },
  ])(
    'axe finds nothing on $path at $width px in $theme, and nothing sticks out',
    async ({ path, width, theme }) => {
      const page = await open(`${path}${path.includes('?') ? '&' : '?'}theme=${theme}`, width);
      if (path.includes('stop')) await page.waitForSelector('.aroundlanes');
      expect(await overhang(page)).toBeLessThanOrEqual(0);
      expect(await faultsIn(page)).toEqual([]);
    },
  );

  it('has nothing to press under 44 px on a phone, and nothing under 24 px on a desk, and nothing sticks out', async () => {
    for (const [width, least] of [
      [320, 44],
      [1440, 24],
    ] as const) {
      const page = await open('/stations/bottom-major?stop=one', width);
      await page.waitForSelector('.aroundlanes');
      expect(await overhang(page)).toBeLessThanOrEqual(0);
      const small = await page
        .locator('main a, main button, main select, main summary')
        .evaluateAll(
          (pressed, px) =>
            pressed
              .map((one) => ({ said: one.textContent, height: one.getBoundingClientRect().height }))
              .filter(({ height }) => height > 0 && height < px - 0.5),
          least,
        );
      expect(small).toEqual([]);
    }
  });

  it.each([320, 390, 600, 1100])(
    'lays nothing that is pressed over the name of the line at %i px, however long who is logged in',
    async (width) => {
      const page = await open('/stations', width);
      // whoever is logged in has a key too, which this stage has not
      await page.locator('.switches').evaluate((all) => {
        const person = document.createElement('button');
        person.className = 'theme noprint person';
        person.append('Number 123456, lead');
        all.append(person);
      });
      expect(await page.locator('.switches button').count()).toBe(3);
      const over = await page.evaluate(() => {
        const line = document.createRange();
        line.selectNodeContents(document.querySelector('.ofline')!);
        const words = [...line.getClientRects()];
        return [...document.querySelectorAll('.switches button')]
          .filter((one) => {
            const { left, right, top, bottom } = one.getBoundingClientRect();
            return words.some(
              (word) => word.left < right && word.right > left && word.top < bottom && word.bottom > top,
            );
          })
          .map(({ textContent }) => textContent);
      });
      expect(over).toEqual([]);
    },
  );
});
