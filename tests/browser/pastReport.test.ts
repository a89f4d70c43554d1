import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FigureId } from '../../model/figures/figures.ts';
import type { Report, ReportAnswer } from '../../model/report/report.ts';
import { wordsIn } from '../../model/words/words.ts';
import { openSimulatedSite, type SimulatedSite } from '../gateway/api/simulatedSite.ts';
import { faultsIn } from './axeFaults.ts';
import { openStage, type Stage } from './stage.ts';

const SIZES = { desk: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } } as const;
const { report: said, figures } = wordsIn('en').screen.past;

let site: SimulatedSite;
let stage: Stage;
beforeAll(async () => {
  site = await openSimulatedSite(34, { seed: 11, lively: 3 });
  const prefix = `/api/lines/${site.live.line.id}/`;
  stage = await openStage(site.live.view(), async (path, asked, sent) => {
    const { url } = await site.get('past');
    const address = `${url.replace(/past$/, '')}${path.slice(prefix.length)}?${asked}`;
    const response = await fetch(
      address,
      sent === undefined
        ? {}
        : { method: 'POST', headers: { 'content-type': 'application/json' }, body: sent },
    );
    return response.ok ? response.json() : undefined;
  });
});
afterAll(async () => {
  await stage?.end();
  await site?.close();
});

async function open(size: keyof typeof SIZES, path: string): Promise<Page> {
  const page = await stage.page(SIZES[size].width, SIZES[size].height);
  await page.emulateMedia({ media: 'screen', reducedMotion: 'reduce' });
  await page.goto(`${stage.address}${path}`);
  return page;
}

async function openReport(size: keyof typeof SIZES, search = ''): Promise<Page> {
  const page = await open(size, `/report${search}`);
  await page.waitForSelector('.paper');
  return page;
}

/** The report that the screen asks for by itself: the shift that ended last. */
async function lastShift(): Promise<ReportAnswer> {
  const overview = (await (await site.get('past')).json()) as { shifts: { from: number }[] };
  const from = overview.shifts.at(-2)!.from;
  return (await (await site.get(`past/report?kind=shift&at=${from}`)).json()) as ReportAnswer;
}

const told = (report: Report, id: FigureId) =>
  figures.screen.told(report.figures.find((one) => one.id === id));

/** How far a page is wider than its window. */
const tooWide = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

describe('the report on the screen', () => {
  it('is of the shift that ended last, and says what the gateway says', async () => {
    const { now } = await lastShift();
    const page = await openReport('desk');
    const paper = page.locator('.paper');
    expect(await paper.getAttribute('aria-label')).toBe(said.title(now));
    const text = ((await paper.textContent()) ?? '').replace(/\s+/g, ' ');
    expect(text).toContain(`${told(now, 'good')[0]} good`);
    expect(text).toContain(`OEE index${told(now, 'oee')[0]}`);
    for (const { cause, cartons } of now.lost!.causes)
      if (cartons > 0)
        expect(text).toContain(`${said.causes[cause]} ${wordsIn('en').screen.past.count(cartons)}`);
    expect(await paper.locator('tbody tr').count()).toBe(
      now.stops.list.length + (now.stops.more.stops > 0 ? 1 : 0),
    );
  });

  it('changes with what is chosen, and the address says what that is', async () => {
    const page = await openReport('desk');
    for (const kind of ['week', 'month', 'order', 'size'] as const) {
      await page.getByRole('button', { name: said.kinds[kind], exact: true }).click();
      await page.waitForFunction(
        (start) => document.querySelector('.paper')?.ariaLabel?.startsWith(start),
        {
          week: 'Week report',
          month: 'Month report',
          order: 'Order report',
          size: 'Size report',
        }[kind],
      );
      expect(page.url()).toContain(`kind=${kind}`);
    }
  });

  it.each(['desk', 'phone'] as const)('is whole and can be used by everybody: %s', async (size) => {
    for (const path of ['/report', '/report?kind=week', '/figures?period=day']) {
      const page = await open(size, path);
      await page.waitForSelector('.paper, .figuretable');
      expect(await tooWide(page), path).toBe(0);
      expect(await faultsIn(page), path).toEqual([]);
    }
  });
});

describe('the report on paper', () => {
  it('is one page, whatever it is of, and drawn in lines', async () => {
    for (const search of ['', '?kind=week', '?kind=month', '?kind=order', '?kind=size']) {
      const page = await openReport('desk', search);
      await page.emulateMedia({ media: null });
      const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
      const text = pdf.toString('latin1');
      expect(text.match(/\/Type \/Page\b/g), search).toHaveLength(1);
      // 595 by 842 points are A4
      expect(text, search).toMatch(/\/MediaBox \[0 0 59[45](\.\d+)? 84[12](\.\d+)?\]/);
      // a pattern would be a picture of the page each
      expect(pdf.length, search).toBeLessThan(400_000);
    }
  });
});

describe('signing on the screen', () => {
  it('[RE4] keeps the page, with who signed it; what is known now stands beside', async () => {
    const page = await openReport('desk');
    await page.getByLabel(said.signed.person, { exact: false }).fill('no number');
    await page.getByRole('button', { name: said.signed.send, exact: true }).click();
    expect((await lastShift()).signed).toBeUndefined();
    await page.getByLabel(said.signed.person, { exact: false }).fill('4711');
    await page.getByLabel(said.signed.words).fill('look at 9 first');
    await page.getByRole('button', { name: said.signed.send, exact: true }).click();
    await page.getByText('Signed: this page stays as it was', { exact: false }).waitFor();
    const { signed } = await lastShift();
    expect(signed?.signatures).toMatchObject([{ person: '4711', as: 'handsOver', words: 'look at 9 first' }]);
    const paper = page.locator('.paper');
    expect(await paper.textContent()).toContain('4711 hands over');
    expect(await paper.textContent()).toContain('look at 9 first');
    await page.getByText(said.signed.same).waitFor();
    await page.getByRole('button', { name: said.signed.showNow }).click();
    await page.waitForFunction(
      () => !document.querySelector('.paper')?.textContent?.includes('this page stays'),
    );
    expect(page.url()).toContain('known=now');
  });

  it('[RE4] is not offered while the shift goes on', async () => {
    const overview = (await (await site.get('past')).json()) as { shifts: { from: number }[] };
    const page = await openReport('desk', `?kind=shift&at=${overview.shifts.at(-1)!.from}`);
    await page.getByText(said.signed.running).waitFor();
    expect(await page.getByRole('button', { name: said.signed.send, exact: true }).count()).toBe(0);
  });
});

describe('figures of a period on the screen', () => {
  it('[KP5] each say how they are made, with what they are made of, one tap deeper each', async () => {
    const page = await open('desk', '/figures?period=last');
    await page.locator('.figuretable [data-figure="oee"]').click();
    const dialog = page.getByRole('dialog');
    expect(await dialog.getByRole('heading').textContent()).toBe(figures.of.oee.name);
    const { now } = await lastShift();
    await dialog.getByText(told(now, 'oee')[0]).first().waitFor();
    const part = dialog.getByRole('button', { name: figures.of.availability.name });
    expect(await part.textContent()).toContain(told(now, 'availability')[0]);
    await part.click();
    expect(await dialog.getByRole('heading').textContent()).toBe(figures.of.availability.name);
    await dialog.getByRole('button', { name: figures.back }).click();
    expect(await dialog.getByRole('heading').textContent()).toBe(figures.of.oee.name);
    await page.keyboard.press('Escape');
    expect(await page.getByRole('dialog').count()).toBe(0);
  });
});
