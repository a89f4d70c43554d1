import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { quiet } from '../dashboard/views/running.ts';
import { question, stopped } from '../dashboard/views/stopped.ts';
import { long, lost, pressed } from '../dashboard/views/trouble.ts';
import { openStage, type Stage } from './stage.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const views = { quiet, stopped, pressed, question, lost, long };
const screens = {
  wall: { path: '/wall', size: { width: 1920, height: 1080 } },
  desk: { path: '/', size: { width: 1440, height: 900 } },
  phone: { path: '/', size: { width: 390, height: 844 } },
  panel: { path: '/panel/front', size: { width: 1280, height: 800 } },
};

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(quiet);
});
afterAll(async () => stage.end());

async function open(view: keyof typeof views, screen: keyof typeof screens, search = '') {
  stage.show(views[view]);
  const page = await stage.browser.newPage({ viewport: screens[screen].size });
  await page.goto(`${stage.address}${screens[screen].path}${search}`);
  await page.waitForSelector('main:not(.waiting)');
  return page;
}

/** Every screen, every state that changes what is drawn, both looks; not each with each, which takes minutes. */
const looked = [
  { screen: 'wall', view: 'stopped', theme: 'light' },
  { screen: 'wall', view: 'pressed', theme: 'dark' },
  { screen: 'desk', view: 'stopped', theme: 'dark' },
  { screen: 'desk', view: 'lost', theme: 'light' },
  { screen: 'phone', view: 'pressed', theme: 'light' },
  { screen: 'phone', view: 'quiet', theme: 'dark' },
  { screen: 'panel', view: 'quiet', theme: 'light' },
  { screen: 'panel', view: 'question', theme: 'dark' },
  { screen: 'panel', view: 'pressed', theme: 'light' },
] as const;

describe('screens in a browser', () => {
  it.each(looked)(
    'axe finds nothing on the $screen with $view in $theme',
    async ({ screen, view, theme }) => {
      const page = await open(view, screen, `?theme=${theme}`);
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
      await page.close();
      expect(found).toEqual([]);
    },
  );

  it.each(Object.keys(screens) as (keyof typeof screens)[])(
    'nothing sticks out of the %s, whatever the words',
    async (screen) => {
      const page = await open('long', screen);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      await page.close();
      expect(over).toBeLessThanOrEqual(0);
    },
  );

  it('has nothing to press under 130 px on a panel', async () => {
    const page = await open('question', 'panel');
    const sides = await page
      .locator('button')
      .evaluateAll((keys) =>
        keys.map((key) => Math.min(key.getBoundingClientRect().width, key.getBoundingClientRect().height)),
      );
    await page.close();
    expect(sides.length).toBe(6);
    expect(Math.min(...sides)).toBeGreaterThanOrEqual(130);
  });

  it('sends the answer of a panel with its position as the author, and asks no more', async () => {
    const page = await open('question', 'panel');
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'sachet fell' }).click();
    await page.getByText('Kept: reason').waitFor();
    await page.close();
    expect(stage.entries.slice(before)).toMatchObject([
      {
        kind: 'reason',
        stop: question.question?.stop,
        reason: 'fell',
        author: { kind: 'position', position: 'front' },
      },
    ]);
  });

  it('enters the next order and its crew in two taps', async () => {
    const page = await open('quiet', 'panel');
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'Order, crew' }).click();
    await page.getByRole('button', { name: /4475/ }).click();
    await page.getByRole('button', { name: /target 52.*as now/ }).click();
    await page.getByText('Kept: order').waitFor();
    await page.close();
    expect(stage.entries.slice(before)).toMatchObject([
      {
        kind: 'order',
        number: '4475',
        size: 'sachet-20',
        blend: 'mint',
        quantity: 26_400,
        starts: 'whenEnded',
      },
    ]);
  });

  it('says on a phone that somebody is going', async () => {
    const page = await open('stopped', 'phone');
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'I’m going' }).click();
    await page.getByText('You are on your way').waitFor();
    await page.close();
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
    await page.close();
    expect(coloured).toBe(0);
  });
});
