import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { epochMs, HOUR, type Instant, MINUTE } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';
import { faultsIn } from './axeFaults.ts';
import { openGatewaySite } from './gatewaySite.ts';
import { moment, ready, shownAt, withReplaySite } from './replaySite.ts';

const bound = boundLine();
const { replay: said, said: saidOf } = wordsIn('en').screen.past;
const { notes, link } = said;
/** An hour and a half of the early shift. */
const site = withReplaySite({ hours: 1.5, every: MINUTE });
const { faults } = site;

async function open(path: string, width = 1440, height = 1200, lets: readonly string[] = []): Promise<Page> {
  return site.page(path, { viewport: { width, height }, permissions: [...lets] });
}

async function replay(search: string, ...more: [number?, number?, (readonly string[])?]): Promise<Page> {
  return ready(await open(search.startsWith('http') ? search : `/replay${search}`, ...more));
}

const at = shownAt;
/** Where the focus is, by what is said of it. */
const focused = (page: Page) =>
  page.evaluate(
    () => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent,
  );

describe('notes of a shift that is replayed', () => {
  it('[RP21] are written at the moment looked at, by keys alone, and gone to; a bookmark has no words', async () => {
    const page = await replay(`?at=${moment(40)}`);
    await page.keyboard.press('b');
    const field = page.getByLabel(notes.label(moment(40), bound.line.zone));
    await expect.poll(() => field.evaluate((one) => one === document.activeElement)).toBe(true);
    // keys of the screen are letters here
    await page.keyboard.type('same bend, k m s 4');
    expect(await field.inputValue()).toBe('same bend, k m s 4');
    await page.keyboard.press('Enter');
    const list = page.locator('.noteslist li');
    await list.filter({ hasText: 'same bend' }).waitFor();
    await expect.poll(() => focused(page)).toBe(notes.open);
    expect(await at(page)).toBe(moment(40));
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('b');
    await page.keyboard.press('Enter');
    await list.filter({ hasText: notes.bookmark }).waitFor();
    await page.locator('.happened li').filter({ hasText: 'note: same bend' }).waitFor();
    expect(await page.locator('.noteflag.later').count()).toBe(2);
    await page.keyboard.press('Home');
    await page.keyboard.press('m');
    await expect.poll(() => at(page)).toBe(moment(40));
    await page.keyboard.press('m');
    await expect.poll(() => at(page)).toBe(moment(41));
    await page.keyboard.press('Shift+M');
    await expect.poll(() => at(page)).toBe(moment(40));
    expect(faults).toEqual([]);
  });

  it('[RP21] withdrawn, stand struck through and are not gone to', async () => {
    const page = await replay(`?at=${moment(10)}`);
    const row = page.locator('.noteslist li').filter({ hasText: notes.bookmark });
    await row.getByRole('button', { name: saidOf.correct }).click();
    await row.getByLabel(saidOf.whyLabel).fill('wrong carton');
    await row.getByRole('button', { name: saidOf.withdraw }).click();
    await row.filter({ hasText: notes.withdrawn }).locator('.gone').waitFor();
    await expect.poll(() => page.locator('.noteflag').count()).toBe(1);
    expect(faults).toEqual([]);
  });

  it('[RP21] begun and left alone are not written, and the keyboard is where it was', async () => {
    const page = await replay(`?at=${moment(20)}`);
    await page.keyboard.press('b');
    await page.keyboard.type('no');
    await page.keyboard.press('Escape');
    await expect.poll(() => focused(page)).toBe(notes.open);
    expect(await page.locator('.noteslist li').filter({ hasText: 'no' }).count()).toBeLessThanOrEqual(2);
    expect(await page.locator('.entries .kept').count()).toBe(0);
  });
});

describe('the address of a replay', () => {
  it('[RP22] is copied, and opens the same moment and view in another browser', async () => {
    const page = await replay(`?at=${moment(30)}`, 1440, 1200, ['clipboard-read', 'clipboard-write']);
    await page.keyboard.press('k');
    await page.keyboard.press('+');
    await page.locator('.lanechoice').getByRole('button', { name: '7 loading' }).click();
    await page.keyboard.press('Alt+ArrowRight');
    await page.keyboard.press('l');
    await page.getByText(link.copied).waitFor();
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    await expect.poll(() => page.url()).toBe(copied);
    expect(new URL(copied).searchParams.get('line')).toBe(bound.line.id);
    const again = await replay(copied);
    await expect.poll(() => at(again)).toBe(moment(30) + 100);
    for (const name of [said.as.known, said.window.minutes(10), '7 loading'])
      await again
        .locator(`[aria-pressed="true"]`, { hasText: name === '7 loading' ? '7' : name })
        .first()
        .waitFor();
    await again.reload();
    await expect.poll(() => at(again)).toBe(moment(30) + 100);
    expect(faults).toEqual([]);
  });

  it('[RP22] stands there to be copied by hand where a browser lets no page do so', async () => {
    const page = await replay(`?at=${moment(30)}`);
    await page.evaluate(() => Object.defineProperty(navigator, 'clipboard', { value: undefined }));
    await page.getByRole('button', { name: link.copy }).click();
    const field = page.getByLabel(link.byHand);
    expect(await field.inputValue()).toContain(`at=${moment(30)}`);
  });
});

describe('by keys', () => {
  it('[RP23] the list of keys opens; the slider and the keys of the page leave the others alone', async () => {
    const page = await replay(`?at=${moment(30)}`);
    await page.getByLabel(said.cursor).focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => at(page)).toBe(moment(30) + 1000);
    await page.keyboard.press('Shift+ArrowRight');
    await expect.poll(() => at(page)).toBe(moment(31) + 1000);
    await page.keyboard.press('k');
    await expect.poll(() => page.url()).toContain('as=known');
    await page.keyboard.press('?');
    await expect.poll(() => focused(page)).toBe(said.keys.title);
    expect(await page.locator('.keylist').evaluate((one) => (one as HTMLDetailsElement).open)).toBe(true);
    // what opens and shuts by Enter lets the other keys through
    await page.keyboard.press('Home');
    await expect.poll(() => at(page)).toBe(moment(0));
    await page.keyboard.press('Enter');
    expect(await page.locator('.keylist').evaluate((one) => (one as HTMLDetailsElement).open)).toBe(false);
  });

  it('[RP23] all of it is reached, in the order of the page, and is seen to have the focus', async () => {
    const page = await replay(`?at=${moment(30)}`);
    const reached: string[] = [];
    await page.getByLabel(said.which).focus();
    for (let n = 0; n < 120; n += 1) {
      await page.keyboard.press('Tab');
      const one = await page.evaluate(() => {
        const here = document.activeElement as HTMLElement | null;
        if (!here || here === document.body) return undefined;
        const part = here.closest(
          '.coursestrip, .transport, .besidestrip, .windowhead, .atcursor, .happened, .windowexport, .noteslist, .keylist',
        );
        const rings = [here, part].map((each) => each && getComputedStyle(each).outlineStyle);
        return { part: part?.classList.item(part.classList.length - 1) ?? '', seen: rings.includes('solid') };
      });
      if (!one) break;
      expect(one.seen).toBe(true);
      if (one.part !== '' && reached.at(-1) !== one.part) reached.push(one.part);
      if (one.part === 'keylist') break;
    }
    expect(reached).toEqual([
      'coursestrip',
      'transport',
      'besidestrip',
      'windowhead',
      'atcursor',
      'happened',
      'windowexport',
      'noteslist',
      'keylist',
    ]);
  });
});

describe('another shift', () => {
  it('[RP23] is chosen by keys, is what the page then shows, and the choice has the focus still', async () => {
    let clock = monday as Instant;
    const two = await openGatewaySite({ bound, now: () => epochMs(clock) });
    try {
      for (const start of [monday, (monday + 8.1 * HOUR) as Instant]) {
        clock = (start + 5 * MINUTE) as Instant;
        await two.live.offer(changesOf(bound, runUntil(startMachine({ seed: 3, start }), clock)));
      }
      const page = await replay(`${two.address}/replay`);
      await expect.poll(() => page.locator('h1').textContent()).toContain('Late shift');
      await page.getByLabel(said.which).focus();
      await page.keyboard.press('ArrowDown');
      await expect.poll(() => page.locator('h1').textContent()).toContain('Early shift');
      await page.locator('.atcursor header h2').waitFor();
      expect(await at(page)).toBe(moment(0));
      expect(await focused(page)).toContain('late shift');
      expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('SELECT');
      await expect.poll(() => new URL(page.url()).searchParams.get('at')).toBe(String(moment(0)));
    } finally {
      await two.end();
    }
    expect(faults).toEqual([]);
  });
});

describe('from other screens', () => {
  it('[RP20] one key at a stop opens Replay a minute before it', async () => {
    const page = await open('/stops');
    const way = page.locator('.allstops .seeit').last();
    await way.waitFor();
    const of = Number(
      new URL((await way.getAttribute('href'))!, site.gateway().address).searchParams.get('of'),
    );
    await way.focus();
    await page.keyboard.press('Enter');
    await page.locator('.atcursor header h2').waitFor();
    await expect.poll(() => at(page)).toBe(Math.max(moment(0), of - 60_000));
    expect(await way.count()).toBe(0);
    expect(faults).toEqual([]);
  });

  it.each([
    [1440, 24],
    [390, 44],
    [320, 44],
  ])(
    '[RP20] ways to a moment are large enough at %i px, and no fault is found with them',
    async (width, least) => {
      for (const path of [
        '/stops',
        '/maintenance',
        '/changeovers',
        '/safety-stops',
        `/replay?at=${moment(40)}`,
      ]) {
        for (const theme of ['light', 'dark']) {
          const page = await open(`${path}${path.includes('?') ? '&' : '?'}theme=${theme}`, width, 1000);
          await page
            .locator(path.startsWith('/replay') ? '.noteslist li' : 'main section')
            .first()
            .waitFor();
          await page.waitForLoadState('networkidle');
          const small = await page
            .locator('main .seeit:visible')
            .evaluateAll(
              (all, size) => all.filter((one) => one.getBoundingClientRect().height < size - 0.5).length,
              least,
            );
          expect([path, theme, small]).toEqual([path, theme, 0]);
          expect(await faultsIn(page)).toEqual([]);
          await page.context().close();
        }
      }
    },
  );
});
