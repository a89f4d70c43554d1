import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { LANDS_MS } from '../../dashboard/replay/targets.ts';
import { epochMs, HOUR, type Instant, MINUTE, type Span } from '../../model/units/units.ts';
import type { LineView } from '../../model/view/view.ts';
import { wordsIn } from '../../model/words/words.ts';
import { monday } from '../simulator/simulatedLine.ts';
import { faultsIn } from './axeFaults.ts';
import { ready, shownAt, withReplaySite } from './replaySite.ts';

const shots = join(import.meta.dirname, 'output');
const { replay: said } = wordsIn('en').screen.past;
/** What a live screen was shown at some moments. */
const shown: LineView[] = [];
/** The early shift from 06:00 on, and a little more than four hours of it. */
const site = withReplaySite({
  hours: 4.2,
  every: (MINUTE / 4) as Span,
  told: ({ live }, now) => {
    if ((now - monday) % (20 * MINUTE) === 0) shown.push(live.view());
  },
});
const { faults } = site;
beforeAll(() => void mkdirSync(shots, { recursive: true }));

const open = async (search: string, width = 1440, height = 1400) =>
  ready(await site.page(`/replay${search}`, { viewport: { width, height } }));
const stops = () =>
  site
    .gateway()
    .live.fold()
    .state.stops.filter((stop) => stop.class !== 'pause' && stop.class !== 'changeover');

describe('a shift that is replayed', () => {
  it('[RP1] shows at a moment what the live screen showed then', async () => {
    for (const view of shown.filter((_one, place) => place % 3 === 1)) {
      const one = await open(`?at=${view.at}`);
      expect(await shownAt(one)).toBe(view.at);
      await one.locator('.atcursor summary').first().click();
      const { count } = wordsIn('en').screen.line;
      await expect.poll(() => one.locator('.wholeline').textContent()).toContain(count(view.path.good));
      await one.close();
    }
    expect(faults).toEqual([]);
  });

  it('is gone through by keys: to stops, by carton, to its beginning; the address opens the same moment', async () => {
    const one = await open(`?at=${epochMs((monday + HOUR) as Instant)}`);
    const next = stops().find(({ begin }) => begin > monday + HOUR)!;
    await one.keyboard.press('s');
    await expect.poll(() => shownAt(one)).toBe(epochMs(next.begin) + LANDS_MS);
    await expect.poll(() => one.locator('.atcursor .sentence').textContent()).not.toMatch(/^Running/);
    // the last carton before it, and the next one after that
    await one.keyboard.press(',');
    await expect.poll(() => shownAt(one)).toBeLessThan(epochMs(next.begin) + LANDS_MS);
    const before = await shownAt(one);
    await one.keyboard.press('.');
    await expect.poll(() => shownAt(one)).toBeGreaterThan(before);
    await one.keyboard.press('Home');
    await expect.poll(() => shownAt(one)).toBe(epochMs(monday));
    await one.keyboard.press('Shift+ArrowRight');
    await expect.poll(() => shownAt(one)).toBe(epochMs((monday + MINUTE) as Instant));
    await one.keyboard.press('k');
    await expect.poll(() => one.url()).toContain('as=known');
    await one.locator('.lanechoice').getByRole('button', { name: '7 loading' }).click();
    await one.keyboard.press('s');
    const first = stops()[0]!;
    await expect.poll(() => shownAt(one)).toBe(epochMs(first.begin) + LANDS_MS);
    await expect.poll(() => one.url()).toContain(`at=${epochMs(first.begin) + LANDS_MS}`);
    const address = one.url();
    const again = await open(address.slice(address.indexOf('?')));
    expect(await shownAt(again)).toBe(epochMs(first.begin) + LANDS_MS);
    expect(await again.getByRole('button', { name: said.as.known }).getAttribute('aria-pressed')).toBe(
      'true',
    );
    await again.locator('.stationlanes').waitFor();
    expect(faults).toEqual([]);
  });

  it('[AS1] tells the stops of the shift so far as they were told then', async () => {
    const [first, second] = stops();
    const one = await open(`?at=${epochMs(second!.begin) - 1000}`);
    const rows = one.locator('.sofar li');
    await expect.poll(() => rows.count()).toBe(1);
    await rows.getByRole('button').click();
    await expect.poll(() => shownAt(one)).toBe(epochMs(first!.begin));
    await one.getByRole('button', { name: said.as.known }).click();
    await one.getByText(said.soFar.title('known')).waitFor();
    expect(faults).toEqual([]);
  });

  it('plays, faster than it was, and stops playing', async () => {
    const one = await open(`?at=${epochMs((monday + HOUR) as Instant)}`);
    const begun = await shownAt(one);
    await one.keyboard.press('4');
    await one.keyboard.press(' ');
    await expect.poll(() => shownAt(one)).toBeGreaterThan(begun + 10 * 60_000);
    await one.getByRole('button', { name: said.stop }).click();
    const rested = await shownAt(one);
    await one.waitForTimeout(700);
    expect(Math.abs((await shownAt(one)) - rested)).toBeLessThan(10 * 60_000);
    const still = await shownAt(one);
    await one.waitForTimeout(500);
    expect(await shownAt(one)).toBe(still);
    expect(faults).toEqual([]);
  });

  it('[RP5] tells what happened around a stop, counted from its first fault, and goes to any of it', async () => {
    const stop = stops().find(({ reason }) => reason !== 0)!;
    const one = await open(`?at=${epochMs(stop.begin)}`);
    const list = one.locator('.happened li');
    await list.filter({ hasText: 'first fault' }).first().waitFor();
    await list.filter({ hasText: 'line left production' }).first().waitFor();
    const restarted = list.filter({ hasText: 'line returned to production' }).last();
    await restarted.getByRole('button').click();
    await expect.poll(() => shownAt(one)).toBeGreaterThan(epochMs(stop.begin));
    await one.screenshot({ path: join(shots, 'replay-stop.png') });
    expect(faults).toEqual([]);
  });

  it.each([
    [1440, 1200, 'light'],
    [1920, 1080, 'dark'],
    [390, 844, 'light'],
    [320, 640, 'dark'],
  ])('is whole and can be used at %i px', async (width, height, theme) => {
    const stop = stops()[0]!;
    const one = await open(`?at=${epochMs(stop.begin)}&theme=${theme}&station=loading`, width, height);
    await one.locator('.stationlanes').waitFor();
    expect(await one.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    expect(await faultsIn(one)).toEqual([]);
    await one.screenshot({ path: join(shots, `replay-${width}.png`), fullPage: true });
    expect(faults).toEqual([]);
  });
});
