import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ViewName, views } from '../dashboard/views/views.ts';
import { faultsIn } from './axeFaults.ts';
import { openStage, type Stage } from './stage.ts';

const screens = {
  wall: { path: '/wall', size: { width: 1920, height: 1080 } },
  desk: { path: '/', size: { width: 1440, height: 900 } },
  phone: { path: '/', size: { width: 390, height: 844 } },
  panel: { path: '/panel/front', size: { width: 1280, height: 800 } },
};

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(views.quiet);
});
afterAll(async () => stage.end());

/** A screen with a view, after somebody has tapped what `taps` select. */
async function open(view: ViewName, screen: keyof typeof screens, search = '', taps: readonly string[] = []) {
  stage.show(views[view]);
  const page = await stage.page(screens[screen].size.width, screens[screen].size.height);
  await page.goto(`${stage.address}${screens[screen].path}${search}`);
  await page.waitForSelector('main:not(.waiting)');
  for (const tap of taps) await page.locator(tap).first().click();
  return page;
}

const ORDERS = ['.key.order'];
const CREW = [...ORDERS, '.key.row'];
const NUMBER = [...ORDERS, '.key.another', '.key.digit'];
const HANDED = [...ORDERS, '.key.handed', '.key.digit'];
const TAKEN = ['.key.taken', '.key.sample', '.key.digit', '.key.digit'];
const DOUBTED = [...HANDED, '.key.take'];

interface Looked {
  readonly screen: keyof typeof screens;
  readonly view: ViewName;
  readonly theme: 'light' | 'dark';
  readonly taps?: readonly string[];
}

/** Every screen, every state that changes what is drawn, both looks; not each with each, which takes minutes. */
const looked: readonly Looked[] = [
  { screen: 'wall', view: 'stopped', theme: 'light' },
  { screen: 'wall', view: 'pressed', theme: 'dark' },
  { screen: 'desk', view: 'stopped', theme: 'dark' },
  { screen: 'desk', view: 'lost', theme: 'light' },
  { screen: 'phone', view: 'pressed', theme: 'light' },
  { screen: 'phone', view: 'changeover', theme: 'dark' },
  { screen: 'panel', view: 'quiet', theme: 'light' },
  { screen: 'panel', view: 'question', theme: 'dark' },
  { screen: 'panel', view: 'pressed', theme: 'light' },
  { screen: 'panel', view: 'quiet', theme: 'dark', taps: ORDERS },
  { screen: 'panel', view: 'quiet', theme: 'light', taps: HANDED },
  { screen: 'panel', view: 'quiet', theme: 'dark', taps: ['.key.taken'] },
];

/** Pages of a panel that have keys, and how many each. */
const keyed = [
  { page: 'question', view: 'question', taps: [], keys: 6 },
  { page: 'list of orders', view: 'quiet', taps: ORDERS, keys: 7 },
  { page: 'crews of an order', view: 'quiet', taps: CREW, keys: 4 },
  { page: 'number of an order', view: 'quiet', taps: NUMBER, keys: 13 },
  { page: 'count handed over', view: 'quiet', taps: HANDED, keys: 13 },
  { page: 'count that is doubted', view: 'quiet', taps: DOUBTED, keys: 3 },
  { page: 'what was taken out', view: 'quiet', taps: ['.key.taken'], keys: 4 },
  { page: 'cartons taken out', view: 'quiet', taps: TAKEN, keys: 13 },
  { page: 'cartons that are doubted', view: 'quiet', taps: [...TAKEN, '.key.digit', '.key.take'], keys: 2 },
  { page: 'note', view: 'stopped', taps: ['.key.note'], keys: 10 },
] as const;

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function gapBetween(one: Box, other: Box): number {
  return Math.max(
    other.left - one.right,
    one.left - other.right,
    other.top - one.bottom,
    one.top - other.bottom,
  );
}

describe('screens in a browser', () => {
  it.each(looked)(
    'axe finds nothing on the $screen with $view in $theme $taps',
    async ({ screen, view, theme, taps }) => {
      const page = await open(view, screen, `?theme=${theme}`, taps);
      expect(await faultsIn(page)).toEqual([]);
    },
  );

  it.each(Object.keys(screens) as (keyof typeof screens)[])(
    'nothing sticks out of the %s, whatever the words',
    async (screen) => {
      const page = await open('long', screen);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(over).toBeLessThanOrEqual(0);
    },
  );

  it.each([
    { path: '/wall', frame: '.wall', size: { width: 1366, height: 768 } },
    { path: '/', frame: '.wall', size: { width: 1680, height: 900 } },
    { path: '/panel/front', frame: '.panel', size: { width: 1024, height: 600 } },
    { path: '/panel/front', frame: '.panel', size: { width: 390, height: 844 } },
  ])(
    'the whole of $path lies inside a screen of $size.width by $size.height, in its middle',
    async ({ path, frame, size }) => {
      stage.show(views.quiet);
      const page = await stage.page(size.width, size.height);
      await page.goto(`${stage.address}${path}`);
      await page.waitForSelector(frame);
      const box = await page.locator(frame).boundingBox();
      const { x = -1, y = -1, width = 0, height = 0 } = box ?? {};
      expect(width * height).toBeGreaterThan(0);
      expect(Math.min(x, y)).toBeGreaterThanOrEqual(-0.5);
      expect(x + width / 2).toBeCloseTo(size.width / 2, 0);
      expect(y + height / 2).toBeCloseTo(size.height / 2, 0);
    },
  );

  it.each(keyed)(
    'a panel’s $page has nothing to press under 130 px, no key nearer than 8 px, and none that cuts its words',
    async ({ view, taps, keys }) => {
      const page = await open(view, 'panel', '', taps);
      const seen = await page.locator('button').evaluateAll((buttons) =>
        buttons.map((button) => {
          const { left, right, top, bottom } = button.getBoundingClientRect();
          const said = [...button.querySelectorAll('span')];
          const cut = said.some(
            // letters reach a little beyond a line's height, a cut line by much more
            (one) => one.scrollHeight > one.clientHeight + 5 || one.scrollWidth > one.clientWidth + 1,
          );
          return { left, right, top, bottom, cut: cut ? button.textContent : undefined };
        }),
      );
      expect(seen.length).toBe(keys);
      const sides = seen.map(({ left, right, top, bottom }) => Math.min(right - left, bottom - top));
      expect(Math.min(...sides)).toBeGreaterThanOrEqual(130);
      expect(seen.flatMap(({ cut }) => cut ?? [])).toEqual([]);
      const apart = seen.flatMap((one, i) => seen.slice(i + 1).map((other) => gapBetween(one, other)));
      expect(Math.min(...apart)).toBeGreaterThanOrEqual(7.9);
    },
  );

  it('says on a phone that somebody is going', async () => {
    const page = await open('stopped', 'phone');
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'I’m going' }).click();
    await page.getByText('You are on your way').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'going', author: { kind: 'screen', screen: 'phone' } },
    ]);
  });

  it('shows no colour at all on a wall at rest', async () => {
    const page = await open('quiet', 'wall');
    const coloured = await page.evaluate(() => {
      const tokens = ['--abnormal', '--emergency', '--must', '--normal'].map((token) => {
        const probe = document.createElement('i');
        probe.style.color = `var(${token})`;
        document.body.append(probe);
        const { color } = getComputedStyle(probe);
        probe.remove();
        return color;
      });
      return Array.from(document.querySelectorAll('main *')).filter((element) => {
        const { fill, stroke, backgroundColor, color } = getComputedStyle(element);
        return [fill, stroke, backgroundColor, color].some((used) => tokens.includes(used));
      }).length;
    });
    expect(coloured).toBe(0);
  });
});
