import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PastOverview } from '../../model/past/overview.ts';
import type { Report, ReportAnswer, Signature } from '../../model/report/report.ts';
import type { EpochMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { views } from '../dashboard/views/views.ts';
import { crowdedReport, inventedReport, inventedSignatures, wordy } from '../model/report/inventedReport.ts';
import { openStage, type Stage } from './stage.ts';

const SIZES = { desk: [1440, 900], phone: [390, 844] } as const;
const OVERVIEW: PastOverview = {
  past: { kind: 'whole' },
  begun: inventedReport().from,
  now: (inventedReport().to + 60_000) as EpochMs,
  zone: 'Europe/Berlin',
  shifts: [{ rule: 'early', name: 'early shift', from: inventedReport().from, to: inventedReport().to }],
  sizes: [{ id: 'sachet-20', name: 'Sachet 20' }],
  stations: [],
  orders: [],
};

let stage: Stage;
let answer: ReportAnswer;
let overview = OVERVIEW;
/** The moment that the report was asked for. */
let askedAt: string | null;
const { report: said } = wordsIn('en').screen.past;
const { broken } = wordsIn('en').screen.page;
beforeAll(async () => {
  stage = await openStage(views.quiet, (path, search, sent) => {
    if (sent !== undefined) answer = answerWith(answer.now, inventedSignatures(6, wordy(500)));
    if (path.endsWith('/past')) return overview;
    if (!path.endsWith('/past/report')) return undefined;
    askedAt = search.get('at');
    return answer;
  });
});
afterAll(() => stage?.end());

function answerWith(report: Report, signatures: readonly Signature[] = []): ReportAnswer {
  return {
    now: report,
    mark: 'mark',
    signed: signatures.length > 0 ? { report, page: undefined, mark: 'mark', signatures } : undefined,
    since: { figures: [], parts: [], why: undefined },
  };
}

async function open(size: keyof typeof SIZES, shown: ReportAnswer, search = ''): Promise<Page> {
  answer = shown;
  const page = await stage.page(SIZES[size][0], SIZES[size][1]);
  await page.goto(`${stage.address}/report${search}`);
  await page.waitForSelector('.paper');
  return page;
}

/** Pages of paper, and the zoom that they are printed with. */
async function printed(page: Page): Promise<{ readonly pages: number; readonly zoom: number }> {
  await page.evaluate(() =>
    addEventListener('beforeprint', () =>
      // after the page's own, which came first
      document.body.setAttribute(
        'data-zoom',
        document.querySelector<HTMLElement>('.paper')?.style.getPropertyValue('--zoom') ?? '',
      ),
    ),
  );
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  const zoom = Number(await page.evaluate(() => document.body.dataset.zoom));
  return { pages: pdf.toString('latin1').match(/\/Type \/Page\b/g)?.length ?? 0, zoom };
}

const long = (signs: number) => ({
  notes: crowdedReport().notes.map((note) => ({ ...note, words: wordy(signs) })),
});
const WISHES: readonly (readonly [string, ReportAnswer])[] = [
  ['nothing', answerWith(inventedReport())],
  ['three notes of 500 signs', answerWith(inventedReport(long(500)))],
  ['six signatures with words', answerWith(crowdedReport(), inventedSignatures(6, wordy(500)))],
  [
    'twenty signatures, and all that a page can bear',
    answerWith(crowdedReport(), inventedSignatures(20, wordy(500))),
  ],
  ['a month of it', answerWith(crowdedReport({ kind: 'month' }), inventedSignatures(4))],
  [
    'twenty stations, all of them further from their past than their runs differ by',
    answerWith(
      crowdedReport({
        stations: Array.from({ length: 20 }, (_, n) => ({
          ...inventedReport().stations[0]!,
          id: `s${n}`,
          station: { id: `s${n}`, number: n + 1, name: wordy(40), drawing: 'discharge' },
          usual: 12.3,
          more: true,
          laid: 2,
          lost: 3,
        })),
      }),
      inventedSignatures(20, wordy(500)),
    ),
  ],
  [
    'words without a space in them',
    answerWith(
      crowdedReport({
        order: 'x'.repeat(100),
        notes: crowdedReport().notes.map((note) => ({ ...note, words: 'y'.repeat(500) })),
        handedOver: [{ order: 'z'.repeat(100), counted: undefined, handedOver: 4 }],
      }),
      inventedSignatures(20, 'w'.repeat(500)),
    ),
  ],
];

describe('a report that is printed', () => {
  it.each(WISHES)('[RE3] is one page that can be read, whatever stands in it: %s', async (_, shown) => {
    for (const size of ['desk', 'phone'] as const) {
      const { pages, zoom } = await printed(await open(size, shown));
      expect([size, pages]).toEqual([size, 1]);
      expect(zoom, size).toBeGreaterThanOrEqual(0.8);
    }
  });

  it('[RE3] says how much of a text and of a list it left out', async () => {
    const page = await open('desk', answerWith(crowdedReport(), inventedSignatures(20, wordy(500))));
    const text = (await page.locator('.paper').textContent()) ?? '';
    expect(text).toMatch(/… and \d+ more words/);
    expect(text).toMatch(/And \d+ more signatures\./);
    expect(text).toMatch(/And \d+ more orders handed over\./);
    const rows = await page.locator('.paper tbody tr').count();
    // ten stops and the sixteen that found no room before: whatever is listed, the rest is told
    expect(text).toContain(`and ${26 - (rows - 1)} stops more`);
  });

  it('is the whole of it on a phone, and that again after it was printed', async () => {
    const page = await open(
      'phone',
      answerWith(inventedReport(long(500)), inventedSignatures(3, wordy(500))),
    );
    const text = () => page.locator('.paper').textContent();
    const before = await text();
    expect(before).not.toContain('…');
    await printed(page);
    expect(await text()).toBe(before);
  });

  it('is measured anew when signatures arrive on an open page', async () => {
    const report = crowdedReport({ handedOver: [] });
    const page = await open('desk', answerWith(report));
    await page.getByLabel(said.signed.person, { exact: false }).fill('4711');
    await page.getByRole('button', { name: said.signed.send, exact: true }).click();
    await page.getByRole('status').getByText(said.signed.done).waitFor();
    await page.locator('.seenby').getByText('4716').waitFor();
    const height = await page.evaluate(
      () => document.querySelector('.paper')!.getBoundingClientRect().height,
    );
    expect(height).toBeLessThanOrEqual(1124);
  });
});

describe('the paper', () => {
  it('names each station by its number and name', async () => {
    const page = await open('desk', answerWith(inventedReport()));
    expect(await page.locator('.paperpath .name').allTextContents()).toEqual(['1 pick', '2 fold', '3 close']);
  });

  it('says by the clock when something was, where it is of less than two days', async () => {
    const hours = (n: number) => (inventedReport().from + n * 3_600_000) as EpochMs;
    const order = (to: EpochMs) => answerWith(inventedReport({ kind: 'order', order: '7001', to }));
    const ticks = async (to: EpochMs) =>
      (await open('desk', order(to))).locator('.paperstrip text:not(g text)').allTextContents();
    expect((await ticks(hours(6))).slice(2)).toEqual([
      '06:00',
      '07:00',
      '08:00',
      '09:00',
      '10:00',
      '11:00',
      '12:00',
    ]);
    expect((await ticks(hours(72)))[2]).toBe('Fri 27 Nov');
  });
});

describe('which report is shown', () => {
  const hour = (n: number) => (OVERVIEW.shifts[0]!.from + n * 3_600_000) as EpochMs;
  const shift = (name: string, from: number) => ({ rule: name, name, from: hour(from), to: hour(from + 8) });
  const asked = async (now: number, search = '') => {
    overview = { ...OVERVIEW, now: hour(now), shifts: [shift('early', 0), shift('late', 8)] };
    const page = await open('desk', answerWith(inventedReport()), search);
    const chosen = page.locator('select').first();
    return [askedAt, await chosen.evaluate((one: HTMLSelectElement) => one.selectedOptions[0]?.textContent)];
  };

  it('is the newest shift that has ended, between shifts and in one', async () => {
    expect((await asked(10))[0]).toBe(String(hour(0)));
    expect((await asked(17))[0]).toBe(String(hour(8)));
  });

  it('is in the choice what a link names, by whatever moment of it', async () => {
    expect(await asked(17, `?at=${hour(1)}`)).toEqual([String(hour(1)), 'early, Fri 27 Nov']);
    const old = hour(-999);
    expect(await asked(17, `?at=${old}`)).toEqual([String(old), 'shift of Fri 16 Oct 16:00']);
    expect(await asked(17, '?at=soon')).toEqual(['soon', 'soon']);
    expect((await asked(17, `?kind=week&at=${hour(1)}`))[1]).toBe('this week');
    expect((await asked(17, `?kind=week&at=${hour(-999)}`))[1]).toBe('week of Fri 16 Oct');
  });
});

describe('a screen that fails', () => {
  it('says so and what to do, and is no empty page', async () => {
    const page = await stage.page(1440, 900);
    answer = answerWith({ ...inventedReport(), stations: undefined } as unknown as Report);
    overview = OVERVIEW;
    await page.goto(`${stage.address}/report`);
    const alert = page.getByRole('alert');
    await alert.getByRole('heading', { name: broken.what }).waitFor();
    expect(await alert.textContent()).toContain('The line goes on being recorded.');
    answer = answerWith(inventedReport());
    await alert.getByRole('button', { name: broken.reload }).click();
    await page.waitForSelector('.paper');
  });
});
