import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LineView } from '../../model/view/view.ts';
import { type ViewName, views } from '../dashboard/views/views.ts';
import { openStage, type Stage } from './stage.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
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
async function open(
  view: ViewName | LineView,
  screen: keyof typeof screens,
  search = '',
  taps: readonly string[] = [],
) {
  stage.show(typeof view === 'string' ? views[view] : view);
  const page = await stage.page(screens[screen].size.width, screens[screen].size.height);
  await page.goto(`${stage.address}${screens[screen].path}${search}`);
  await page.waitForSelector('main:not(.waiting)');
  for (const tap of taps) await page.locator(tap).first().click();
  return page;
}

/** A newer stop than the one that `question` asks about. */
const nextQuestion: LineView = {
  ...views.question,
  question: {
    ...views.question.question!,
    stop: 's-09:55:00',
    station: 'bottom major flap',
    answers: ['tuck jam', 'glue', 'board', 'skew'].map((name) => ({
      id: name,
      name,
      drawing: 'bottom-major',
      times: 0,
    })),
  },
};

const ORDERS = ['.key.order'];
const CREW = [...ORDERS, '.key.row'];
const NUMBER = [...ORDERS, '.key.another', '.key.digit'];
const HANDED = [...ORDERS, '.key.handed', '.key.digit'];
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
];

/** Pages of a panel that have keys, and how many each. */
const keyed = [
  { page: 'question', view: 'question', taps: [], keys: 6 },
  { page: 'list of orders', view: 'quiet', taps: ORDERS, keys: 7 },
  { page: 'crews of an order', view: 'quiet', taps: CREW, keys: 4 },
  { page: 'number of an order', view: 'quiet', taps: NUMBER, keys: 13 },
  { page: 'count handed over', view: 'quiet', taps: HANDED, keys: 13 },
  { page: 'count that is doubted', view: 'quiet', taps: DOUBTED, keys: 3 },
  { page: 'note', view: 'stopped', taps: ['.key.note'], keys: 10 },
] as const;

describe('screens in a browser', () => {
  it.each(looked)(
    'axe finds nothing on the $screen with $view in $theme $taps',
    async ({ screen, view, theme, taps }) => {
      const page = await open(view, screen, `?theme=${theme}`, taps);
      await page.evaluate(axe);
      const found = await page.evaluate(async () => {
        const result = await (
          globalThis as unknown as {
            axe: {
              run: (where: Document) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
            };
          }
        ).axe.run(document);
        return result.violations.map(
          ({ id, nodes }) =>
            `${id}: ${nodes
              .slice(0, 3)
              .map(({ html }) => html.slice(0, 200))
              .join(' | ')}`,
        );
      });
      expect(found).toEqual([]);
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
    'a panel’s $page has nothing to press under 130 px, and no key cuts its words',
    async ({ view, taps, keys }) => {
      const page = await open(view, 'panel', '', taps);
      const seen = await page.locator('button').evaluateAll((buttons) =>
        buttons.map((button) => {
          const { width, height } = button.getBoundingClientRect();
          const said = [...button.querySelectorAll('span')];
          const cut = said.some(
            // letters reach a little beyond a line's height, a cut line by much more
            (one) => one.scrollHeight > one.clientHeight + 5 || one.scrollWidth > one.clientWidth + 1,
          );
          return { side: Math.min(width, height), cut: cut ? button.textContent : undefined };
        }),
      );
      expect(seen.length).toBe(keys);
      expect(Math.min(...seen.map(({ side }) => side))).toBeGreaterThanOrEqual(130);
      expect(seen.flatMap(({ cut }) => cut ?? [])).toEqual([]);
    },
  );

  it('sends the answer of a panel with its position as the author, and asks no more', async () => {
    const page = await open('question', 'panel');
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'sachet fell' }).click();
    await page.getByText('Kept: reason').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      {
        kind: 'reason',
        stop: views.question.question?.stop,
        reason: 'fell',
        author: { kind: 'position', position: 'front' },
      },
    ]);
  });

  it('does not take words typed for one stop as the reason of the next', async () => {
    const page = await open('question', 'panel', '', ['.key.else']);
    const before = stage.entries.length;
    await page.getByPlaceholder('or type it').fill('half a word');
    stage.tell(nextQuestion);
    await page.getByText('not yet at bottom major flap').first().waitFor();
    expect(await page.getByPlaceholder('or type it').count()).toBe(0);
    await page.getByRole('button', { name: 'something else' }).click();
    expect(await page.getByPlaceholder('or type it').inputValue()).toBe('');
    await page.getByPlaceholder('or type it').fill('tuck bent');
    await page.getByRole('button', { name: 'keep it' }).click();
    await page.getByText('Kept: reason').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'reason', stop: 's-09:55:00', reason: 'other', words: 'tuck bent' },
    ]);
  });

  it('opens the next stop on its four answers after the one before was asked in words', async () => {
    const page = await open('question', 'panel', '', ['.key.else']);
    stage.tell(views.quiet);
    await page.getByRole('button', { name: 'Leave a note' }).waitFor();
    stage.tell(nextQuestion);
    await page.getByRole('heading', { name: 'Why did it stop?' }).waitFor();
    expect(await page.locator('.key.answer').count()).toBe(4);
  });

  it('takes no answer from a finger that was on its way when the question changed', async () => {
    const page = await open('question', 'panel');
    await page.getByRole('button', { name: 'sachet fell', disabled: false }).waitFor();
    const before = stage.entries.length;
    // The tap falls in the very turn in which the changed question is drawn.
    await page.evaluate(() => {
      const says = () => document.querySelector('.key.answer')?.textContent ?? '';
      new MutationObserver((_changes, watch) => {
        if (!says().includes('tuck jam')) return;
        watch.disconnect();
        document.querySelector<HTMLElement>('.key.answer')?.click();
        document.body.dataset.tapped = 'yes';
      }).observe(document.body, { childList: true, subtree: true, characterData: true });
    });
    stage.tell(nextQuestion);
    await page.waitForSelector('body[data-tapped]');
    await page.getByRole('button', { name: 'glue' }).click();
    await page.getByText('Kept: reason').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([{ stop: 's-09:55:00', reason: 'glue' }]);
  });

  it('enters the next order and its crew in two taps', async () => {
    const page = await open('quiet', 'panel');
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'Order, crew' }).click();
    await page.getByRole('button', { name: /4475/ }).click();
    await page.getByRole('button', { name: /target 52.*as now/ }).click();
    await page.getByText('Kept: order').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      {
        kind: 'order',
        number: '4475',
        size: 'sachet-20',
        blend: 'mint',
        quantity: 26_400,
        starts: 'whenEnded',
        crew: 2,
        author: { kind: 'position', position: 'front' },
      },
    ]);
  });

  it('begins an order now that was to follow and is chosen once more', async () => {
    const orders = views.quiet.orders.map((order) =>
      order.number === '4472' ? { ...order, state: 'next' as const } : order,
    );
    const page = await open({ ...views.quiet, orders }, 'panel', '', ORDERS);
    const before = stage.entries.length;
    await page.getByRole('button', { name: /4472/ }).click();
    await page.getByText('4471 is ended, and 4472 runs from now on').waitFor();
    await page.getByRole('button', { name: /target 26/ }).click();
    await page.getByText('Kept: order').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'order', number: '4472', size: 'sachet-48', starts: 'now', crew: 1 },
    ]);
  });

  it('takes the cartons handed over digit by digit, beside what was counted', async () => {
    const page = await open('quiet', 'panel', '', ORDERS);
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'handed over cartons of 4470' }).click();
    const enter = page.getByRole('button', { name: 'enter it' });
    expect(await enter.isDisabled()).toBe(true);
    for (const key of ['5', '4', 'erase', '3', '9', '8'])
      await page.getByRole('button', { name: key, exact: true }).click();
    await page.getByText('14 fewer than counted').waitFor();
    await enter.click();
    await page.getByText('Kept: cartons handed over').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      {
        kind: 'handedOver',
        order: '4470',
        cartons: 5398,
        author: { kind: 'position', position: 'front' },
      },
    ]);
  });

  it('asks about a count that is far from what was counted, and changes it only by a tap', async () => {
    const page = await open('quiet', 'panel', '', DOUBTED);
    const before = stage.entries.length;
    await page.getByText('1 handed over: is that right?').waitFor();
    expect(stage.entries.length).toBe(before);
    await page.getByRole('button', { name: 'back' }).click();
    expect(await page.locator('.typed').textContent()).toBe('1');
    await page.getByRole('button', { name: 'enter it' }).click();
    await page.getByRole('button', { name: '1 as typed', exact: true }).click();
    await page.getByText('Kept: cartons handed over').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([{ kind: 'handedOver', order: '4470', cartons: 1 }]);
  });

  it.each(keyed)('a panel’s $page keeps its keys 8 px apart', async ({ view, taps }) => {
    const page = await open(view, 'panel', '', taps);
    const boxes = await page.locator('button').evaluateAll((buttons) =>
      buttons.map((button) => {
        const { left, right, top, bottom } = button.getBoundingClientRect();
        return { left, right, top, bottom };
      }),
    );
    const gaps = boxes.flatMap((one, i) =>
      boxes
        .slice(i + 1)
        .map((other) =>
          Math.max(
            other.left - one.right,
            one.left - other.right,
            other.top - one.bottom,
            one.top - other.bottom,
          ),
        ),
    );
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(7.9);
  });

  it('enters at a desk what a panel does: an order that follows, one that runs now, cartons handed over', async () => {
    const page = await open('quiet', 'desk');
    const before = stage.entries.length;
    for (const [number, key] of [
      ['4472', 'Follows'],
      ['4468', 'Runs from now on'],
    ] as const) {
      await page.getByLabel('Next order').selectOption(number);
      await page.getByRole('button', { name: key }).click();
    }
    await page.getByLabel('Cartons handed over of order 4470').fill('5420');
    await page.getByRole('button', { name: 'Enter' }).click();
    await page.getByText('Kept: cartons handed over').waitFor();
    const author = { kind: 'screen', screen: 'desk' };
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'order', number: '4472', starts: 'whenEnded', author },
      { kind: 'order', number: '4468', starts: 'now', author },
      { kind: 'handedOver', order: '4470', cartons: 5420, author },
    ]);
  });

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
