import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { at, notices, noticeView, told } from '../dashboard/notices/views.ts';
import { views } from '../dashboard/views/views.ts';
import { faultsIn } from './axeFaults.ts';
import { openStage, type Stage } from './stage.ts';

const SIZES = { desk: [1440, 900], phone: [390, 844], narrow: [320, 640] } as const;
const title = 'Bottom major flap stops far above its own normal';
const person = { kind: 'person', number: '4021' } as const;

const raised = noticeView({
  told: [told('4021'), { ...told('4022'), failed: true, way: 'mail' }],
  coming: [{ at: at(144), step: 1, tell: [{ kind: 'rota', rota: 'maintenance' }], leftOut: [] }],
  joined: [{ at: at(42), kind: 'rejects', station: 'bottom major flap', facts: undefined }],
  look: [{ kind: 'fault', name: 'tuck jam', times: 3, of: 3 }],
  story: [{ at: at(40), what: 'raised', by: null, detail: null }],
});
const taken = noticeView({
  ...{ id: 'n2', state: 'taken', taken: { at: at(41), by: person }, hasAt: at(41), owner: '4021' },
});
const said = { at: at(42), by: person, found: 'part', done: 'partChanged', words: 'guide worn' } as const;
/** Somebody else closed it, and said it otherwise once. */
const closed = noticeView({
  ...{ id: 'n2', state: 'ended', taken: { at: at(41), by: person } },
  ended: {
    ...{ at: at(42), how: 'closed', by: person, said, correctable: 'c1' },
    corrections: [
      { at: at(43), by: person, why: 'slip', before: { ...said, found: 'sensor', words: undefined } },
    ],
  },
});
const refusal = { ok: false, trouble: 'This notice was closed before you.', mend: 'Look.' } as const;
const shelved = noticeView({
  ...{ id: 'n3', state: 'shelved', station: undefined, kind: 'test' },
  facts: { kind: 'test', devices: [{ device: 'd', name: 'main panel' }], everyDays: 30 },
  shelved: { at: at(30), until: at(1500), by: person, words: 'test planned for Wednesday' },
});
const ended = noticeView({
  ...{ id: 'n4', state: 'ended', at: at(0) },
  ended: {
    at: at(30),
    how: 'never',
    by: undefined,
    said: undefined,
    corrections: [],
    correctable: undefined,
  },
});
const who = {
  recipients: ['4021', '4022', '4023'].map((one) => ({ person: one, ways: ['page'], when: {} })),
};

const view = (open: readonly NoticeView[], past: readonly NoticeView[]) => ({
  ...views.stopped,
  notices: notices(open, past),
});
const shown = view([raised, taken, shelved], [ended]);
/** Somebody else was quicker with the next closing. */
let isSecond = false;

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(
    shown,
    (path) => {
      if (path.endsWith('/notices/settings')) return { settings: { who }, shutOff: ['4023'] };
      const counts = { raised: 21, found: 14, nothing: 6, unsaid: 1, never: 2 };
      return path.endsWith('/notices') ? { days: 30, open: [], ended: [ended], counts } : undefined;
    },
    ({ kind }) => (kind === 'noticeClosed' && isSecond ? refusal : undefined),
  );
});
afterAll(() => stage?.end());
beforeEach(() => {
  stage.refuse(undefined);
  stage.show(shown);
});

async function opened(of: NoticeView, size: keyof typeof SIZES = 'desk', more = ''): Promise<Page> {
  const [width, height] = SIZES[size];
  const page = await stage.page(width, height);
  await page.goto(`${stage.address}/notices/${of.id}${more}`);
  await page.getByRole('article').waitFor();
  return page;
}

/** What the page sends to the gateway when somebody does this. */
async function entered(press: () => Promise<void>): Promise<unknown> {
  const before = stage.entries.length;
  await press();
  await expect.poll(() => stage.entries.length, { timeout: 60_000 }).toBe(before + 1);
  return stage.entries.at(-1);
}

describe('the Notices screen in a browser', { timeout: 120_000 }, () => {
  it.each([
    ['desk', ''],
    ['desk', '?theme=dark'],
    ['phone', ''],
    ['narrow', ''],
  ] as const)('at a %s %s can be read and reached by everybody, and has room', async (size, look) => {
    for (const notice of [raised, shelved, ended]) {
      const page = await opened(notice, size, look);
      for (const fold of await page.locator('article summary').all()) await fold.click();
      expect(await faultsIn(page)).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(SIZES[size][0]);
      const least = size === 'desk' ? 24 : 44;
      for (const button of await page.locator('article button:visible').all())
        expect((await button.boundingBox())!.height).toBeGreaterThanOrEqual(least);
    }
  });

  it('hands a notice over to somebody who is told of notices', async () => {
    const page = await opened(taken);
    await page.getByText('Hand it over').click();
    // whoever has it is not asked for, nor whose access has ended
    expect(await page.getByLabel('to number').locator('option').allTextContents()).toEqual(['4022']);
    expect(await entered(() => page.getByRole('button', { name: 'Hand over' }).click())).toMatchObject({
      ...{ kind: 'noticeHanded', notice: 'n2', to: '4022' },
    });
  });

  it('puts a notice on the shelf until a moment of somebody’s own, by the clock of the line and with why', async () => {
    const page = await opened(raised);
    await page.getByText('Put it on the shelf').click();
    await page.getByRole('combobox', { name: /^until/ }).selectOption('chosen');
    const shelve = page.getByRole('button', { name: 'Shelve it' });
    await page.getByLabel('which moment').fill('2026-03-17T09:00');
    await page.getByLabel('Why, in a few words').fill('part is ordered');
    await page.getByText('That moment is over.').waitFor();
    expect(await shelve.isDisabled()).toBe(true);
    await page.getByLabel('which moment').fill('2026-03-18T05:30');
    expect(await entered(() => shelve.click())).toMatchObject({
      ...{ kind: 'noticeShelved', notice: 'n1', words: 'part is ordered' },
      until: Date.parse('2026-03-18T04:30:00Z'),
    });
  });

  it('takes a notice off the shelf again', async () => {
    const page = await opened(shelved);
    const back = page.getByRole('button', { name: 'Take it off the shelf' });
    expect(await entered(() => back.click())).toMatchObject({ kind: 'noticeUnshelved', notice: 'n3' });
  });

  it('keeps what was found of one that ended by itself', async () => {
    const page = await opened(ended);
    await page.getByRole('button', { name: 'nothing', exact: true }).click();
    await page.getByRole('button', { name: 'nothing was needed' }).click();
    expect(await entered(() => page.getByRole('button', { name: 'Keep it' }).click())).toMatchObject({
      ...{ kind: 'noticeClosed', notice: 'n4', found: 'nothing', done: 'noneNeeded' },
    });
  });

  it('[NL2] lets somebody take over what another one has, from whoever is shown to have it', async () => {
    const page = await opened(taken);
    await page.getByText('Number 4021 has it since').waitFor();
    const over = page.getByRole('button', { name: 'Take it over' });
    expect(await entered(() => over.click())).toMatchObject({
      ...{ kind: 'noticeTaken', notice: 'n2', over: at(41) },
    });
  });

  it('[NL10] to who closes it second shows what the first one said, and keeps what was chosen and typed', async () => {
    const page = await opened(taken);
    isSecond = true;
    onTestFinished(() => {
      isSecond = false;
      stage.show(shown);
    });
    await page.getByRole('button', { name: 'blanks' }).click();
    await page.getByRole('button', { name: 'cleared only' }).click();
    await page.getByLabel('In words, if you like').fill('warped at one edge');
    await entered(() => page.getByRole('button', { name: 'Close it' }).click());
    stage.tell(view([raised, shelved], [closed, ended]));
    await page.getByText('This notice was closed before you.').waitFor();
    await page.getByText('Found: a part was worn or broken. Done: part changed.').waitFor();
    // what was said before that stands beside it
    await page.getByText('Before: found: sensor or cable').waitFor();
    await page.getByText('Somebody had said it before you.').waitFor();
    expect(await page.getByLabel('In words, if you like').inputValue()).toBe('warped at one edge');
    expect(await faultsIn(page)).toEqual([]);
    await page.getByLabel('Why it is corrected').fill('the guide was fine');
    const correct = page.getByRole('button', { name: 'Enter the correction' });
    expect(await entered(() => correct.click())).toMatchObject({
      ...{ kind: 'correction', of: 'c1', was: 'noticeClosed', why: 'the guide was fine' },
      body: {
        kind: 'noticeClosed',
        notice: 'n2',
        found: 'blanks',
        done: 'clearedOnly',
        words: 'warped at one edge',
      },
    });
  });

  it.each(['desk', 'phone'] as const)(
    '[NL10] at a %s what was said is taken back with a reason',
    async (size) => {
      stage.show(view([raised, shelved], [closed, ended]));
      onTestFinished(() => stage.show(shown));
      const page = await opened(closed, size);
      await page.getByText('Correct what was said').click();
      expect(await faultsIn(page)).toEqual([]);
      const back = page.getByRole('button', { name: 'Take it back' });
      expect(await back.isDisabled()).toBe(true);
      await page.getByLabel('Why it is corrected').fill('wrong notice');
      expect(await entered(() => back.click())).not.toHaveProperty('body');
    },
  );

  it('has the focus and says what was done, and leads on to what comes next, after each act', async () => {
    for (const size of ['desk', 'phone', 'narrow'] as const) {
      const page = await opened(taken, size);
      await page.getByRole('button', { name: 'blanks', exact: true }).click();
      await page.getByRole('button', { name: 'cleared only' }).click();
      await page.getByRole('button', { name: 'Close it' }).press('Enter');
      const outcome = page.getByRole('status').filter({ hasText: 'What you said is kept.' });
      await outcome.waitFor();
      await outcome.getByText('One other is open, it is not taken.').waitFor();
      const next = outcome.getByRole('link', { name: `The next one: ${title}` });
      await next.waitFor();
      expect(await page.evaluate('document.activeElement.className')).toBe('outcome');
      // the next key leads on from there
      await page.keyboard.press('Tab');
      expect(await page.evaluate('document.activeElement.textContent')).toBe(`The next one: ${title}`);
      expect(await faultsIn(page)).toEqual([]);
    }
  });

  it('keeps what was typed when it is refused and when the page is loaded again, and says what, why and how to mend it', async () => {
    const page = await opened(taken, 'phone');
    const words = page.getByLabel('In words, if you like');
    await page.getByRole('button', { name: 'blanks', exact: true }).click();
    await page.getByRole('button', { name: 'cleared only' }).click();
    await words.fill('lot 7 is damp');
    stage.refuse({
      ok: false,
      trouble: 'It cannot be.',
      why: 'The log-in has ended.',
      mend: 'Log in again.',
    });
    await page.getByRole('button', { name: 'Close it' }).click();
    await page.getByText('Not done. It cannot be. The log-in has ended. Log in again.').waitFor();
    expect(await words.inputValue()).toBe('lot 7 is damp');
    await page.reload();
    expect(await words.inputValue()).toBe('lot 7 is damp');
    stage.refuse(undefined);
    expect(await entered(() => page.getByRole('button', { name: 'Close it' }).click())).toMatchObject({
      ...{ notice: 'n2', found: 'blanks', done: 'clearedOnly', words: 'lot 7 is damp' },
    });
    await page.getByText('What you said is kept.').waitFor();
    await page.reload();
    await page.getByRole('article').waitFor();
    expect(await words.inputValue()).toBe('');
  });

  it('keeps what was typed when somebody else closes it first, until it is a note or thrown away', async () => {
    const page = await opened(taken, 'phone');
    await page.getByLabel('In words, if you like').fill('lot 7 is damp');
    const said = { at: at(50), by: person, found: 'part', done: 'partChanged', words: undefined } as const;
    // of one that ended long ago the line holds no entry that could be corrected
    const ended = {
      at: at(50),
      how: 'closed',
      by: person,
      said,
      corrections: [],
      correctable: undefined,
    } as const;
    const closed = noticeView({ ...taken, state: 'ended', ended });
    stage.tell(view([raised], [closed]));
    await page.getByText('Not said: somebody else closed it first').waitFor();
    await page.getByText('lot 7 is damp').waitFor();
    expect(await faultsIn(page)).toEqual([]);
    expect(
      await entered(() => page.getByRole('button', { name: 'Keep it as a note' }).click()),
    ).toMatchObject({
      ...{ kind: 'note', words: `${title}. lot 7 is damp` },
    });
    await page.getByText('Not said: somebody else closed it first').waitFor({ state: 'detached' });
  });

  it.each(['desk', 'phone', 'narrow'] as const)(
    'at a %s the flap says what was done in its place, and takes no other notice by a second press',
    async (size) => {
      const second = noticeView({ id: 'n9', at: at(39) });
      stage.show(view([raised, second, taken], []));
      const [width, height] = SIZES[size];
      const page = await stage.page(width, height);
      await page.goto(`${stage.address}/stops`);
      const flap = page.locator('.noticeflap');
      const going = flap.getByRole('button', { name: 'I’m going' });
      await expect.poll(() => going.getAttribute('aria-disabled'), { timeout: 60_000 }).toBeNull();
      const box = (await going.boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      const before = stage.entries.length;
      await page.mouse.click(x, y);
      await page.mouse.click(x, y);
      await flap.getByText('You have it now.').waitFor();
      await flap.getByText('Two others are open, one not taken.').waitFor();
      stage.tell(view([second, { ...raised, state: 'taken' }, taken], []));
      await page.mouse.click(x, y);
      await flap.getByText('You have it now.').waitFor();
      expect(await flap.getByRole('link').getAttribute('href')).toBe('/notices/n1');
      expect(stage.entries.slice(before)).toMatchObject([{ kind: 'noticeTaken', notice: 'n1' }]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
    },
  );

  it.each(['desk', 'phone', 'narrow'] as const)(
    'at a %s a gateway that stopped is said in view within seconds, and covers nothing',
    async (size) => {
      const page = await opened(raised, size);
      const old = page.locator('.shownold');
      await old.getByText(/^The gateway does not answer, shown as of/).waitFor();
      await page.evaluate('scrollTo(0, document.body.scrollHeight)');
      const box = (await old.boundingBox())!;
      expect([box.y, box.width]).toEqual([0, SIZES[size][0]]);
      expect(await faultsIn(page)).toEqual([]);
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(SIZES[size][0]);
    },
  );
});
