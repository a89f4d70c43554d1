import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { FIRST_SETTINGS, type NoticeSettings } from '../../model/notices/settings.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';
import { type NoticedSite, openNoticedSite } from './noticedSite.ts';

let browser: Browser;

beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
  browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
});
afterAll(() => browser?.close());

async function opened(width: number, height: number): Promise<{ site: NoticedSite; page: Page }> {
  const site = await openNoticedSite();
  const errors: string[] = [];
  const context = await browser.newContext({ viewport: { width, height } });
  onTestFinished(async () => {
    await context.close();
    await site.end();
    expect(errors).toEqual([]);
  });
  context.on('weberror', (error) => errors.push(String(error.error())));
  const page = await context.newPage();
  site.line.runs(12).run(500);
  await site.told();
  return { site, page };
}

const inUse = ({ live }: NoticedSite) => live.fold().state.noticeSettings;
const eventually = <Value>(read: () => Value) => expect.poll(read, { timeout: 60_000 });

describe('settings of notices, entered in a browser', { timeout: 300_000 }, () => {
  it('a budget is used with its reason, and the rest is saved beside it, by whom and why', async () => {
    const { site, page } = await opened(1440, 900);
    await page.goto(`${site.address}/notices`);
    await page.getByRole('link', { name: 'Settings' }).click();
    await page.getByText('Nobody has chosen them yet').waitFor();

    // what is typed before a budget is used stays, and is saved later
    const changeover = page.locator('li[data-kind="changeover"]').getByRole('textbox');
    await changeover.first().fill('1,5');
    const ten = page.locator('tr[data-budget="10"]');
    await ten.getByRole('button', { name: 'Use this' }).click();
    await page.getByLabel('Why one false notice in 10 shifts?').fill('nights are long');
    await page.getByRole('button', { name: 'Use it from now on' }).click();
    await eventually(() => inUse(site)).toMatchObject({
      by: { kind: 'screen', screen: 'desk' },
      why: 'nights are long',
      settings: {
        ...FIRST_SETTINGS,
        when: { ...FIRST_SETTINGS.when, stops: { ...FIRST_SETTINGS.when.stops, falseOnceInShifts: 10 } },
      },
    });
    await page.getByText('“nights are long”').waitFor();
    await ten.getByText('in use').waitFor();

    // half typed it cannot be saved; a page that is loaded again has it all
    await changeover.first().fill('');
    await page.getByRole('button', { name: 'Another person' }).click();
    await page.getByLabel('number', { exact: true }).fill('4711');
    const save = page.getByRole('button', { name: 'Save with a reason' });
    await page.getByLabel('Why, in a few words').fill('the fitter has a phone now');
    expect(await save.isDisabled()).toBe(true);
    await page.reload();
    await changeover.first().fill('1.5');
    await save.click();
    await eventually(() => inUse(site)?.why).toBe('the fitter has a phone now');
    const { when, who } = inUse(site)!.settings;
    expect([when.stops.falseOnceInShifts, when.changeover.times]).toEqual([10, 1.5]);
    expect(who.recipients).toEqual([{ person: '4711', ways: ['page'], when: { quiet: [] } }]);
    await page.getByText('“the fitter has a phone now”').waitFor();
    await page.getByText('Nothing is changed.').waitFor();
  });

  it('what is refused stays as it was typed, also when the page is loaded again', async () => {
    const { site, page } = await opened(390, 844);
    await page.goto(`${site.address}/notices/settings`);
    await page.getByText('Nobody has chosen them yet').waitFor();
    const stranger = { person: '4711', ways: ['page'], when: { quiet: [] }, stations: ['nowhere'] };
    const settings: NoticeSettings = {
      ...FIRST_SETTINGS,
      who: { ...FIRST_SETTINGS.who, recipients: [stranger] },
    };
    await page.evaluate(
      ([key, draft]) =>
        (globalThis as unknown as { localStorage: Storage }).localStorage.setItem(key!, draft!),
      [
        `notice settings ${site.live.view().line.id}`,
        JSON.stringify({ settings, why: 'so that somebody comes', from: FIRST_SETTINGS }),
      ],
    );
    await page.reload();
    await page.getByRole('button', { name: 'Save with a reason' }).click();
    await page.locator('.entries .refused').waitFor();
    expect(inUse(site)).toBeNull();
    for (const again of [false, true]) {
      if (again) await page.reload();
      await page.getByLabel('number', { exact: true }).waitFor();
      expect(await page.getByLabel('number', { exact: true }).inputValue()).toBe('4711');
      expect(await page.getByLabel('Why, in a few words').inputValue()).toBe('so that somebody comes');
    }
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
  });
});

describe('an open page with sound', { timeout: 300_000 }, () => {
  it.each([
    ['desk', 1440, 900],
    ['phone', 390, 844],
  ] as const)(
    'at a %s: it sounds once it was touched, goes on from screen to screen, says when it waits for a touch, and bears the notice across its top until somebody goes',
    async (screen, width, height) => {
      const { site, page } = await opened(width, height);
      await page.context().addInitScript(listen);
      await page.goto(`${site.address}/stops`);
      await page.getByRole('button', { name: 'Sound off' }).click();
      await page.getByRole('button', { name: 'Sound on' }).waitFor();
      // so that whoever turns it on knows what to listen for
      await eventually(() => heard(page)).toEqual([440, 550]);

      for (let jam = 0; jam < 6; jam += 1) site.line.jam().run(60);
      await site.told();
      await eventually(() => heard(page)).toEqual([440, 550, 440, 550]);
      const title = 'Bottom major flap stops far above its own normal';
      await page.locator('.noticeflap').getByText(title).waitFor();
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);

      // from screen to screen it goes on, and nothing is heard twice
      await page.getByRole('link', { name: 'Stations' }).first().click();
      await page.waitForURL('**/stations');
      await page.getByRole('button', { name: 'Sound on' }).waitFor();
      await page.locator('.noticeflap').getByText(title).waitFor();
      expect(await heard(page)).toEqual([]);

      const later = await page.context().newPage();
      await page.close();
      await later.addInitScript({ content: UNTOUCHED });
      await later.goto(`${site.address}/stops`);
      const waits = later.getByRole('button', { name: 'Sound waits' });
      await waits.waitFor();
      await later.getByText('Touch it once: until then it cannot.').waitFor();
      // whoever presses the switch wants to hear it: itself, and what nobody has taken yet
      await waits.click();
      await later.getByRole('button', { name: 'Sound on' }).waitFor();
      await eventually(() => heard(later)).toEqual([440, 550, 440, 550]);

      // as on a phone that is locked: it does not go on saying that it sounds
      await later.evaluate('forget(); void context.suspend()');
      await waits.waitFor();
      await later.getByRole('heading', { level: 1 }).click();
      await later.getByRole('button', { name: 'Sound on' }).waitFor();

      const flap = later.locator('.noticeflap');
      await flap.getByRole('button', { name: 'I’m going' }).click();
      await flap.waitFor({ state: 'detached' });
      await eventually(() => site.live.fold().state.notices.at(-1)!.taken).toMatchObject({
        by: { kind: 'screen', screen },
      });
    },
  );
});

/** Runs in a page: it gets no sound before it is touched, whatever else a test does to it. */
const UNTOUCHED = `{
  const { resume } = AudioContext.prototype;
  let isTouched = false;
  addEventListener('pointerdown', () => { isTouched = true; }, true);
  AudioContext.prototype.resume = function () {
    return isTouched ? resume.call(this) : new Promise(() => {});
  };
  globalThis.forget = () => { isTouched = false; };
}`;

/** Runs in the page: keeps the pitch of each tone that begins, and what it sounds by. */
function listen(): void {
  const page = globalThis as unknown as {
    tones: number[];
    context: unknown;
    OscillatorNode: { prototype: Starting };
  };
  interface Starting {
    readonly frequency: { readonly value: number };
    readonly context: unknown;
    start(when?: number): void;
  }
  page.tones = [];
  const { start } = page.OscillatorNode.prototype;
  page.OscillatorNode.prototype.start = function (this: Starting, when) {
    page.tones.push(this.frequency.value);
    page.context = this.context;
    start.call(this, when);
  };
}

function heard(page: Page): Promise<number[]> {
  return page.evaluate('tones');
}
