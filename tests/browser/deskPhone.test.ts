import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { type ViewName, views } from '../dashboard/views/views.ts';
import { openStage, type Stage } from './stage.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(views.quiet);
});
afterAll(async () => stage.end());

async function open(view: ViewName, width: number, height: number, path = '/'): Promise<Page> {
  stage.show(views[view]);
  const page = await stage.page(width, height);
  await page.goto(`${stage.address}${path}`);
  await page.waitForSelector('main:not(.waiting)');
  await page.waitForSelector('.strip svg.recharts-surface, .before');
  return page;
}

describe('a desk by its keyboard', () => {
  it.each(['stopped', 'quiet', 'lost'] as const)(
    'stops only at what has a name and is not hidden, with %s',
    async (view) => {
      const page = await open(view, 1440, 900);
      const stops: { tag: string; name: string; hidden: boolean }[] = [];
      for (let i = 0; i < 60; i++) {
        await page.keyboard.press('Tab');
        const stop = await page.evaluate(() => {
          const at = document.activeElement;
          if (at === null || at === document.body) return undefined;
          const label = at instanceof HTMLInputElement || at instanceof HTMLSelectElement ? at.labels : null;
          return {
            tag: at.tagName.toLowerCase(),
            name: (at.getAttribute('aria-label') ?? label?.[0]?.textContent ?? at.textContent ?? '').trim(),
            hidden: at.closest('[aria-hidden="true"]') !== null,
          };
        });
        if (stop === undefined) break;
        stops.push(stop);
      }
      expect(stops.length).toBeGreaterThan(8);
      expect(stops.filter(({ name, hidden }) => name === '' || hidden)).toEqual([]);
      expect(stops.map(({ tag }) => tag)).toContain('summary');
    },
  );

  it('has nothing to press under 24 px', async () => {
    const page = await open('stopped', 1440, 900);
    const small = await page.locator('a, button, summary, input, select').evaluateAll((all) =>
      all
        .map((one) => ({ what: one.textContent, box: one.getBoundingClientRect() }))
        .filter(({ box }) => Math.min(box.width, box.height) < 24)
        .map(({ what }) => what),
    );
    expect(small).toEqual([]);
  });

  it('has the screens and the switches in one line beside each other, and leads to the panels below', async () => {
    const page = await open('stopped', 1440, 900);
    const outside = await page.locator('.deskbar').evaluate((bar) => {
      const { right } = bar.getBoundingClientRect();
      return [...bar.querySelectorAll('a, button')]
        .map((one) => ({ what: one.textContent, box: one.getBoundingClientRect() }))
        .filter(({ box }) => box.right > right + 0.5 || box.height > 50)
        .map(({ what }) => what);
    });
    expect(outside).toEqual([]);
    await page.getByRole('navigation', { name: 'Line-side panels' }).getByRole('link').first().waitFor();
  });
});

describe('a phone', () => {
  it('has no link to a line-side panel, whose entries would be by its position', async () => {
    const page = await open('quiet', 390, 844);
    const links = await page.locator('a').evaluateAll((all) => all.map((one) => one.getAttribute('href')));
    expect(links).toContain('/stops');
    expect(links.filter((href) => href?.startsWith('/panel'))).toEqual([]);
  });

  it.each([320, 390, 700, 1000])('has a strip as wide as its column at %i px', async (width) => {
    const page = await open('quiet', width, 844);
    const [strip, column] = await Promise.all(
      ['.strip', '.phoneblank'].map((which) =>
        page.locator(which).evaluate((one) => one.getBoundingClientRect().width),
      ),
    );
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(Math.abs((strip ?? 0) - (column ?? 1))).toBeLessThanOrEqual(1);
    expect(over).toBeLessThanOrEqual(0);
  });
});

describe('what nobody vouches for now', () => {
  it.each([
    ['wall', 'lost', 1920, 1080, '/wall', 'svg text'],
    ['wall', 'stale', 1920, 1080, '/wall', 'svg text'],
    ['phone', 'lost', 390, 844, '/', '.phonepath p, .phonepath b, .sum, .sum b, .rows .n, .phoneblank .big'],
    [
      'phone',
      'stale',
      390,
      844,
      '/',
      '.phonepath p, .phonepath .n, .sum, .sum b, .rows .n, .phoneblank .big',
    ],
  ] as const)('is thin and grey on the %s: %s', async (_screen, view, width, height, path, which) => {
    const page = await open(view, width, height, path);
    const loud = await page.locator(which).evaluateAll((all) => {
      const probe = document.createElement('i');
      probe.style.color = 'var(--ink3)';
      document.body.append(probe);
      const grey = getComputedStyle(probe).color;
      return all
        .filter((one) => /\d (lost|cartons lost)|^[\d,]+$/.test(one.textContent ?? ''))
        .filter((one) => one.closest('.tab, .strip, .phonestrip') === null)
        .filter((one) => {
          const { color, fill, fontWeight } = getComputedStyle(one);
          return (one.tagName === 'text' ? fill : color) !== grey || fontWeight !== '400';
        })
        .map((one) => one.textContent);
    });
    expect(loud).toEqual([]);
  });
});
