import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FIGURE_IDS, type FigureId } from '../../model/figures/figures.ts';
import type { PastOverview } from '../../model/past/overview.ts';
import type { LineView } from '../../model/view/view.ts';
import { wordsIn } from '../../model/words/words.ts';
import { type ViewName, views } from '../dashboard/views/views.ts';
import { faultsIn } from './axeFaults.ts';
import { bareNumbers } from './bareNumbers.ts';
import { changeoverAnswers } from './changeoverAnswers.ts';
import { figureAnswers } from './figureAnswers.ts';
import { safetyAnswers } from './safetyAnswers.ts';
import { openStage, type Stage } from './stage.ts';
import { stationAnswers } from './stationAnswers.ts';
import { type StopAnswers, stopAnswers } from './stopAnswers.ts';

const { figures: words } = wordsIn('en').screen.past;
const name = (id: FigureId) => words.of[id].name;

const SIZES = { wall: [1920, 1080], desk: [1440, 900], phone: [390, 844], panel: [1280, 800] } as const;
type Size = keyof typeof SIZES;
const LINE = { wall: '/wall', desk: '/', phone: '/', panel: '/panel/front' } as const;
const VIEWS = Object.keys(views) as ViewName[];

const shift = views.stopped.plan.shift!;
const overview: PastOverview = {
  past: { kind: 'whole' },
  begun: shift.from,
  now: views.stopped.at,
  zone: views.stopped.line.zone,
  shifts: [{ rule: 'early', name: shift.name, from: shift.from, to: shift.to }],
  sizes: [],
  stations: [],
  orders: [],
};
const lineAnswers = (path: string) => (path.endsWith('/past') ? overview : undefined);

type Answer = (path: string, asked: URLSearchParams) => unknown;
const ANSWERS: Readonly<Record<string, Answer>> = {
  figures: lineAnswers,
  'safety-stops': safetyAnswers,
  changeovers: changeoverAnswers,
  signals: changeoverAnswers,
  stations: stationAnswers,
};
let stops: StopAnswers;
let stage: Stage;
let answer: Answer = lineAnswers;
/** What was asked of the gateway about figures. */
let asked: URLSearchParams[] = [];
beforeAll(async () => {
  stops = await stopAnswers();
  stage = await openStage(views.quiet, (path, query) => {
    const figures = figureAnswers(path, query);
    if (figures) asked.push(query);
    return figures ?? answer(path, query);
  });
});
afterAll(async () => stage?.end());

interface Opens {
  readonly path: string;
  readonly size: Size;
  readonly view?: LineView;
  readonly answers?: Answer;
  readonly taps?: readonly string[];
}

async function open({ path, size, view = views.stopped, answers = lineAnswers, taps = [] }: Opens) {
  stage.show(view);
  answer = answers;
  asked = [];
  const [width, height] = SIZES[size];
  const page = await stage.page(width, height);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.goto(`${stage.address}${path}`);
  await page.waitForSelector('main:not(.waiting)');
  if (!(Object.values(LINE) as string[]).includes(path)) await page.waitForSelector('main section.sheet');
  for (const tap of taps) await page.locator(tap).first().click();
  return page;
}

const figure = (page: Page, id: FigureId) => page.locator(`main [data-figure="${id}"]`).first();
const dialog = (page: Page) => page.locator('dialog.howmade[open]');
const title = (page: Page) => dialog(page).locator('h2').textContent();

/** What the dialog says, of a view that has just come. */
async function fresh(page: Page, which: string): Promise<string | null> {
  stage.tell(views.stopped);
  await page.evaluate(() => new Promise(requestAnimationFrame));
  return dialog(page).locator(which).first().textContent();
}

describe('[KP5] every number that a reader sees can be asked how it is made', () => {
  it.each(
    VIEWS.flatMap((view) => (['wall', 'desk', 'phone', 'panel'] as const).map((size) => ({ view, size }))),
  )('on the Line screen of $view, as $size', async ({ view, size }) => {
    const page = await open({ path: LINE[size], size, view: views[view] });
    expect(await bareNumbers(page)).toEqual([]);
    const ids = await page
      .locator('main [data-figure]')
      .evaluateAll((all) => [...new Set(all.map((one) => one.getAttribute('data-figure')!))]);
    expect(ids.length).toBeGreaterThan(0);
    expect(ids.filter((id) => !(FIGURE_IDS as readonly string[]).includes(id))).toEqual([]);
  });

  it.each([
    ['the orders', ['.key.order']],
    ['the crew', ['.key.order', '.key.row']],
    ['a number', ['.key.order', '.key.another', '.key.digit']],
    ['what was handed over', ['.key.order', '.key.handed', '.key.digit']],
    ['a count that is doubted', ['.key.order', '.key.handed', '.key.digit', '.key.take']],
  ] as const)('on a panel’s page of %s', async (_page, taps) => {
    const page = await open({ path: '/panel/front', size: 'panel', view: views.quiet, taps });
    expect(await bareNumbers(page)).toEqual([]);
  });

  it.each(
    (['desk', 'phone'] as const).flatMap((size) => [
      { path: '/stops?period=week', size },
      { path: '/stops?period=last&station=bottom-major', size },
      { path: '/safety-stops', size },
      { path: '/changeovers', size },
      { path: '/signals', size },
      { path: '/figures', size },
      { path: '/stations', size },
      { path: '/stations/bottom-major?stop=one', size },
    ]),
  )('on $path, as $size', async ({ path, size }) => {
    const past = path.startsWith('/stops');
    const answers = past ? stops.answer : ANSWERS[path.split('/')[1]!]!;
    const page = await open({ path, size, answers, ...(past ? { view: stops.view } : {}) });
    await page.waitForSelector('main .foot');
    if (path.includes('stop=')) await page.waitForSelector('.aroundlanes');
    expect(await bareNumbers(page)).toEqual([]);
  });
});

describe('what a figure is', () => {
  it.each(['desk', 'phone'] as const)('is told at one tap, and with Enter and space, as %s', async (size) => {
    const page = await open({ path: '/', size });
    for (const way of ['tap', 'Enter', ' ']) {
      if (way === 'tap') await figure(page, 'behindPlan').click();
      else {
        await figure(page, 'behindPlan').focus();
        await page.keyboard.press(way);
      }
      await dialog(page).waitFor();
      expect(await title(page)).toBe(name('behindPlan'));
      // as long as the view is fresh: what nobody vouches for is not told
      await expect.poll(() => fresh(page, '.value')).toMatch(/^1,333.*Tue 17 Mar 06:00/);
      expect(await faultsIn(page)).toEqual([]);
      await page.keyboard.press('Escape');
      await dialog(page).waitFor({ state: 'detached' });
      // who asked stands where they were
      expect(await page.evaluate(() => document.activeElement?.getAttribute('data-figure'))).toBe(
        'behindPlan',
      );
    }
  });

  it('leads to what it is made of, with the numbers that stand on the screen, and back', async () => {
    const page = await open({ path: '/', size: 'desk' });
    await figure(page, 'behindPlan').focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => fresh(page, '.parts ul')).toBe(`${name('planned')}10,218${name('good')}8,885`);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect.poll(() => title(page)).toBe(name('planned'));
    await page.getByRole('button', { name: words.back, exact: true }).click();
    await expect.poll(() => title(page)).toBe(name('behindPlan'));
    expect(await page.getByRole('button', { name: words.back, exact: true }).count()).toBe(0);
    await page.getByRole('button', { name: words.close, exact: true }).click();
    await dialog(page).waitFor({ state: 'detached' });
  });

  it('goes away with a press beside it', async () => {
    const page = await open({ path: '/', size: 'desk' });
    await figure(page, 'good').click();
    await dialog(page).waitFor();
    await page.mouse.click(8, 890);
    await dialog(page).waitFor({ state: 'detached' });
  });

  it('is of the time that the screen looks at, and of what was chosen of it', async () => {
    const night = stops.overview.shifts.at(-2)!;
    const page = await open({
      path: '/stops?period=last&size=sachet-20',
      size: 'desk',
      view: stops.view,
      answers: stops.answer,
    });
    await page.locator('.lead [data-figure="stood"]').first().click();
    await dialog(page).locator('.value small').nth(1).waitFor();
    expect(Object.fromEntries(asked.at(-1)!)).toEqual({
      from: String(night.from),
      to: String(night.to),
      size: 'sachet-20',
    });
    expect(await dialog(page).locator('.value').nth(1).textContent()).toMatch(
      /Mon 16 Mar 22:00 to Tue 17 Mar 06:00$/,
    );
  });

  it.each(['desk', 'phone'] as const)(
    'is told of a cell by the heading of its column, as %s; a key in it keeps its own doing',
    async (size) => {
      const page = await open({
        path: '/stops?period=last&station=bottom-major',
        size,
        view: stops.view,
        answers: stops.answer,
      });
      const row = page.locator('.stoplist tbody tr').first();
      const lost = row.locator('td[data-label]');
      const said = (await lost.textContent())!;
      await lost.click();
      await dialog(page).waitFor();
      expect(await title(page)).toBe(name('lostToStop'));
      expect(await dialog(page).locator('.value b').first().textContent()).toBe(said);
      await page.keyboard.press('Escape');
      await row.getByRole('button').last().click();
      await page.locator('.around').waitFor();
      expect(await dialog(page).count()).toBe(0);
    },
  );

  it('gives way to a stop device that is latched in', async () => {
    const page = await open({ path: '/', size: 'desk', view: views.quiet });
    await figure(page, 'good').click();
    await dialog(page).waitFor();
    stage.tell(views.pressed);
    await page.locator('.before').waitFor();
    await dialog(page).waitFor({ state: 'detached' });
  });
});

describe('a wall', () => {
  it.each(['/wall', '/'])('answers a tap at %s, and offers nothing to press', async (path) => {
    const page = await open({ path, size: 'wall' });
    expect(await page.locator('.wall [role="button"], .wall [tabindex], .wall button').count()).toBe(0);
    await figure(page, 'good').click({ force: true });
    await dialog(page).waitFor();
    expect(await title(page)).toBe(name('good'));
    expect(await dialog(page).locator('a').count()).toBe(0);
    // its head stays in sight
    const [head, sheet] = await Promise.all(
      ['.wallhead', 'dialog.howmade'].map((which) =>
        page.locator(which).evaluate((one) => one.getBoundingClientRect()),
      ),
    );
    expect(sheet!.top).toBeGreaterThanOrEqual(head!.bottom - 12);
  });
});

describe('a panel', () => {
  it('answers a glove that comes near a number, with keys for gloves and type for two metres', async () => {
    const page = await open({ path: '/panel/front', size: 'panel', view: views.quiet });
    const box = (await figure(page, 'target').boundingBox())!;
    await page.mouse.click(box.x + box.width / 2, box.y + box.height + 14);
    await dialog(page).waitFor();
    expect(await title(page)).toBe(name('target'));
    await page.keyboard.press('Escape');
    await figure(page, 'rate').click();
    const small = await dialog(page)
      .locator('button')
      .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 75).length);
    expect(small).toBe(0);
    const least = await dialog(page)
      .locator('p, dt, dd, button, small')
      .evaluateAll((all) => Math.min(...all.map((one) => Number.parseFloat(getComputedStyle(one).fontSize))));
    expect(least).toBeGreaterThanOrEqual(26);
    expect(await faultsIn(page)).toEqual([]);
  });

  it('keeps its keys: one beside a number does what it says', async () => {
    const page = await open({ path: '/panel/front', size: 'panel', view: views.quiet });
    await page.locator('.key.order').click({ position: { x: 20, y: 4 } });
    await page.locator('.key.row').first().waitFor();
    expect(await dialog(page).count()).toBe(0);
  });
});
