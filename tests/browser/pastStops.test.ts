import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readCsv } from '../../gateway/binding/csv.ts';
import { faultsIn } from './axeFaults.ts';
import { openStage, type Stage } from './stage.ts';
import { type StopAnswers, stopAnswers } from './stopAnswers.ts';

const STATION = '5 bottom major flap';
const NIGHT = 'night shift, Mon 16 Mar';
const SIZES = { desk: [1440, 900], phone: [390, 844], small: [320, 640] } as const;

let answers: StopAnswers;
let stage: Stage;
/** What is answered in place of what was simulated; undefined is a refusal. */
let instead: { readonly path: string; readonly answer: unknown } | undefined;
beforeAll(async () => {
  answers = await stopAnswers();
  stage = await openStage(answers.view, (path, asked) =>
    instead && path.endsWith(instead.path) ? instead.answer : answers.answer(path, asked),
  );
});
afterAll(async () => stage?.end());

async function open(size: keyof typeof SIZES, search = ''): Promise<Page> {
  const [width, height] = SIZES[size];
  const page = await stage.page(width, height);
  await page.emulateMedia({ reducedMotion: 'no-preference', media: 'screen' });
  await page.goto(`${stage.address}/stops${search}`);
  await page.waitForSelector('section.sheet');
  return page;
}

/** Stops of last night at the bottom major flap, the oldest first, as the model counts them. */
function lastNight() {
  const night = answers.overview.shifts.at(-2)!;
  expect(night.rule).toBe('night');
  const { list } = answers.stops(
    new URLSearchParams({ from: String(night.from), to: String(night.to), station: 'bottom-major' }),
  );
  expect(list.length).toBeGreaterThanOrEqual(3);
  return list.toReversed();
}

function clockOf(at: number): string {
  return new Date(at).toLocaleTimeString('en-GB', { timeZone: answers.overview.zone });
}

/** The row of a stop by its number, as somebody who looks for the third one finds it. */
const rowOf = (page: Page, nth: number) =>
  page
    .locator('.stoplist tbody tr')
    .filter({ has: page.locator('.nth', { hasText: new RegExp(`^${nth}\\b`) }) });

/** What the PLC said around the third stop of last night, read from the screen. */
async function readAround(page: Page): Promise<void> {
  const third = lastNight()[2]!;
  const around = page.getByRole('region', { name: `What the PLC said around ${clockOf(third.at)}` });
  await around.getByText('From 10 s before the stop began to 10 s after it').waitFor();
  const said = async (lane: string) =>
    around.locator('li').filter({ hasText: lane }).first().locator('.aroundsaid').textContent();
  expect(await said('machine state')).toMatch(/^producing, 0 s holding, \+0\.\d s held$/);
  expect(await said('first fault, as the PLC gives it')).toBe('none, 0 s tuck jam, bottom major flap');
  expect(await said('machine cycles')).toMatch(/^moved \d+ times before, 0 after$/);
  // and before it: the vacuum was there, within its range
  expect(await said('pick vacuum')).toMatch(/^−\d\d\.\d to −\d\d\.\d kPa$/);
}

const overhang = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Tab until what is focused has this name; nothing else is pressed on the way. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let n = 0; n < 80; n += 1) {
    await page.keyboard.press('Tab');
    const focused = await page.evaluate(() => {
      const one = document.activeElement;
      const label = one instanceof HTMLSelectElement ? one.labels[0]?.textContent : undefined;
      return one?.getAttribute('aria-label') ?? label ?? one?.textContent ?? '';
    });
    if (name.test(focused)) return;
  }
  throw new Error(`Nothing named ${name} is reached by Tab`);
}

describe('who looks for the third stop at the bottom major flap last night', () => {
  it('finds it at a desk, and reads what came before it', async () => {
    const page = await open('desk');
    await page.getByLabel('Which time').selectOption({ label: NIGHT });
    await page.getByRole('button', { name: STATION }).click();
    await page.getByRole('heading', { level: 1, name: `Stops at ${STATION}, Mon 16 Mar 22:00` }).waitFor();
    const row = rowOf(page, 3);
    expect(await row.locator('.began b').textContent()).toBe(clockOf(lastNight()[2]!.at));
    await row.getByRole('button', { name: /^10 s around it/ }).click();
    await readAround(page);
    const asked = new URL(page.url()).searchParams;
    expect(Object.fromEntries(asked)).toEqual({
      period: String(answers.overview.shifts.at(-2)!.from),
      station: 'bottom-major',
      stop: lastNight()[2]!.id,
    });
    // whoever gets the address sees the same
    await page.reload();
    await readAround(page);
  });

  it('finds it on a phone, where stations have names', async () => {
    const page = await open('phone');
    await page.getByLabel('Which time').selectOption({ label: NIGHT });
    await page.getByRole('combobox', { name: 'station' }).selectOption({ label: STATION });
    await page.getByRole('heading', { level: 1, name: `Stops at ${STATION}` }).waitFor();
    const row = rowOf(page, 3);
    expect(await row.locator('.nth').textContent()).toBe(`3 of ${lastNight().length}`);
    await row.getByRole('button', { name: /^10 s around it/ }).click();
    await readAround(page);
    expect(await overhang(page)).toBeLessThanOrEqual(0);
  });

  it.each(['desk', 'phone'] as const)('finds it by keyboard alone, on a %s', async (size) => {
    const page = await open(size);
    await tabTo(page, /^Which time/);
    await page.keyboard.type('night');
    await page.getByRole('heading', { level: 1, name: /^Stops, Mon 16 Mar 22:00/ }).waitFor();
    await tabTo(page, size === 'desk' ? new RegExp(`^${STATION}$`) : /^station/);
    await (size === 'desk' ? page.keyboard.press('Enter') : page.keyboard.type('5'));
    await page.getByRole('heading', { level: 1, name: `Stops at ${STATION}` }).waitFor();
    await tabTo(page, new RegExp(`^10 s around it, the stop of ${clockOf(lastNight()[2]!.at)}$`));
    await page.keyboard.press('Enter');
    await readAround(page);
    // it is closed where it was opened
    await page.keyboard.press('Enter');
    await page.locator('.around').waitFor({ state: 'detached' });
    expect(new URL(page.url()).searchParams.has('stop')).toBe(false);
  });

  it('has another list with another choice, in which nothing is open; and goes back as in any page', async () => {
    const third = lastNight()[2]!;
    const page = await open('desk', `?period=last&station=bottom-major&stop=${third.id}`);
    await readAround(page);
    await page.getByRole('button', { name: 'all stations' }).click();
    await page.getByRole('heading', { level: 1, name: /^Stops, Mon/ }).waitFor();
    expect(await page.locator('.around').count()).toBe(0);
    await page.goBack();
    await readAround(page);
    const link = rowOf(page, 3).getByRole('link', { name: STATION });
    expect(await link.getAttribute('href')).toBe('/stations/bottom-major?period=last');
  });
});

describe('stops as a file', () => {
  it('are exported as they are chosen, and only those', async () => {
    const page = await open('desk', '?period=last&station=bottom-major');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'Export these stops' }).click(),
    ]);
    const rows = readCsv(readFileSync((await download.path())!, 'utf8')).rows.map((row) =>
      row.map(({ text }) => text),
    );
    const column = (title: string) => rows.slice(1).map((row) => row[rows[0]!.indexOf(title)]);
    expect(column('began').map((began) => Date.parse(began!))).toEqual(lastNight().map(({ at }) => at));
    expect(new Set(column('station id'))).toEqual(new Set(['bottom-major']));
    expect(new Set(column('shift'))).toEqual(new Set(['night shift']));
  });

  it('are exported by keyboard as well', async () => {
    const page = await open('desk', '?period=last');
    await tabTo(page, /^Export these stops$/);
    const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
    const text = readFileSync((await download.path())!, 'utf8');
    expect(text.split('\r\n').filter((line) => line.startsWith('stop,'))).toHaveLength(
      Number((await page.locator('.lead b').textContent())!.split(' ')[0]),
    );
  });
});

const states = [
  { name: 'all of a week', search: '?period=week' },
  { name: 'one opened', search: '?period=last&station=bottom-major&stop=third' },
  { name: 'none', search: '?period=last&station=discharge&size=sampler-12' },
] as const;

describe('in every state the Stops screen', () => {
  for (const { name, search } of states)
    it.each([
      ['desk', 'light'],
      ['phone', 'dark'],
      ['small', 'light'],
    ] as const)(`is whole: ${name}, %s, %s`, async (size, theme) => {
      const page = await open(size, `${search.replace('third', lastNight()[2]!.id)}&theme=${theme}`);
      if (search.includes('stop=')) await page.waitForSelector('.aroundlanes');
      expect(await overhang(page)).toBeLessThanOrEqual(0);
      expect(await faultsIn(page)).toEqual([]);
      const least = size === 'desk' ? 24 : 44;
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
    });

  it.each([
    { what: 'does not answer', answer: 'no JSON', said: /^The gateway does not answer/ },
    { what: 'refuses', answer: undefined, said: /^The gateway could not answer/ },
  ])('says so where the gateway $what, and no longer once it does', async ({ answer, said }) => {
    const page = await open('desk');
    instead = { path: '/past/stops', answer };
    await page.getByRole('button', { name: 'Sachet 48' }).click();
    await page.locator('.saying').waitFor();
    expect(await page.locator('.saying').textContent()).toMatch(said);
    expect(await page.locator('.stoplist').count()).toBe(0);
    expect(await faultsIn(page)).toEqual([]);
    instead = undefined;
    await page.getByRole('button', { name: 'all sizes' }).click();
    await page.locator('.saying').waitFor({ state: 'detached' });
  });

  it('asks about three stops at first, and about all of them in one tap', async () => {
    const page = await open('desk', '?period=week');
    const wanted = page.locator('.wanted > ul > li');
    expect(await wanted.count()).toBe(3);
    await page.getByRole('button', { name: /^The other / }).click();
    const said = (await page.locator('.wanted h2').first().textContent())!.trim();
    expect(said).toBe(`${await wanted.count()} stops want one tap`);
    expect(await faultsIn(page)).toEqual([]);
  });

  it('moves nothing for who wants no motion', async () => {
    const page = await open('desk', '?period=last&station=bottom-major');
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await rowOf(page, 3).getByRole('button').click();
    await readAround(page);
    expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
    const moving = await page.locator('main *').evaluateAll(
      (all) =>
        all.filter((one) => {
          const { transitionDuration, animationDuration } = getComputedStyle(one);
          return [transitionDuration, animationDuration].some((long) => Number.parseFloat(long) > 0.001);
        }).length,
    );
    expect(moving).toBe(0);
  });

  it('on paper names what is chosen, and has nothing to press', async () => {
    const page = await open('desk', '?period=last&station=bottom-major&shift=night&size=sachet-20');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('h1').textContent()).toMatch(
      /^Stops at 5 bottom major flap, Sachet 20, night shift, Mon 16 Mar 22:00 to Tue 17 Mar 06:00$/,
    );
    expect(await page.locator('button:visible, select:visible, .btn:visible').count()).toBe(0);
    expect(await page.getByRole('columnheader', { name: 'what the PLC said' }).count()).toBe(0);
  });
});
