import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { NoticeView } from '../../model/view/noticesView.ts';
import { at, notices, noticeView } from '../dashboard/notices/views.ts';
import { views } from '../dashboard/views/views.ts';
import { faultsIn } from './axeFaults.ts';
import { openStage, type Stage } from './stage.ts';

const front = { kind: 'position', position: 'front' } as const;
const person = { kind: 'person', number: '4021' } as const;
const raised = noticeView({
  look: [
    {
      kind: 'offBook',
      ...{ adjustment: '5.3', name: 'main plough, infeed', reads: 36.5, book: 34, unit: 'mm', decimals: 1 },
    },
    { kind: 'condition', name: 'vacuum', reads: 0.42, low: 0.6, high: 0.9, unit: 'bar' },
  ],
});
const server = noticeView({
  ...{ id: 'n2', kind: 'server', station: undefined, size: undefined },
  facts: { kind: 'server', server: 'plc', since: at(20) },
});
const own = noticeView({
  ...{ id: 'n3', state: 'taken', taken: { at: at(41), by: front }, kind: 'rejects' },
  facts: { kind: 'rejects', rule: 'run', rejects: 42, of: 3000, expected: 11.6, onceInShifts: 34 },
});
const others = noticeView({
  ...{ id: 'n4', state: 'taken', taken: { at: at(41), by: person }, owner: '4021' },
  ...{ kind: 'rate', station: undefined },
  facts: { kind: 'rate', perMinute: 31.4, target: 44, minutes: 30, since: at(20) },
});
const disk = noticeView({
  ...{ id: 'n5', state: 'shelved', level: 'note', kind: 'disk', station: undefined },
  facts: { kind: 'disk', freeBytes: 1e9, leastBytes: 2e9 },
  shelved: { at: at(30), until: at(1500), by: person, words: 'disk is ordered' },
});
const open: readonly NoticeView[] = [raised, server, own, others, disk];
const who = { recipients: ['4021', '4022'].map((one) => ({ person: one, ways: ['page'], when: {} })) };
const stop = { until: at(40), lasted: 44_000, name: 'tuck jam' };
const stops = { list: [9, 8, 7, 6, 5].map((n) => ({ id: `s${n}`, at: at(n * 4), ...stop })), stops: 5 };

let stage: Stage;
beforeAll(async () => {
  stage = await openStage({ ...views.quiet, notices: notices(open) }, (path) => {
    if (path.endsWith('/notices/settings')) return { settings: { who }, shutOff: [] };
    return path.endsWith('/past/stops') ? stops : undefined;
  });
});
beforeEach(() => stage.refuse(undefined));
afterAll(() => stage?.end());

async function panel(all = open): Promise<Page> {
  stage.show({ ...views.quiet, notices: notices(all) });
  const page = await stage.page(1280, 800);
  await page.goto(`${stage.address}/panel/front`);
  return page;
}

const key = (page: Page, name: RegExp) => page.getByRole('button', { name });

/** Presses a key once it can be pressed: it is dead for a moment after it came. */
async function press(page: Page, name: RegExp): Promise<void> {
  await expect.poll(() => page.locator('button[aria-disabled]').count(), { timeout: 60_000 }).toBe(0);
  await key(page, name).click();
}

/** To the list, past what opened by itself. */
async function listed(page: Page): Promise<void> {
  await press(page, /not now/);
  await press(page, /the other notices/);
  await page.getByText(/^1 to \d of/).waitFor();
}

async function last(): Promise<unknown> {
  const before = stage.entries.length;
  await expect.poll(() => stage.entries.length, { timeout: 60_000 }).toBe(before + 1);
  return stage.entries.at(-1);
}

/** What the panel sends when this is pressed. */
async function sends(page: Page, name: RegExp): Promise<unknown> {
  const sent = last();
  await press(page, name);
  return sent;
}

describe('notices at a line-side panel', { timeout: 240_000 }, () => {
  it('are all reached, own ones and others, taken, not taken and put aside, with three in a list and the rest one key on', async () => {
    const page = await panel();
    await listed(page);
    const titles = [/Bottom major flap stops/, /server plc is not heard/, /rejects above.*taken here/];
    for (const title of titles) await key(page, title).waitFor();
    expect(await faultsIn(page)).toEqual([]);
    await press(page, /^2 more/);
    await key(page, /Rate below target.*number 4021 has it/).waitFor();
    await press(page, /disk is getting full.*disk is ordered/);
    await page.getByText(/Shelved until .* by number 4021: disk is ordered/).waitFor();
    expect(await sends(page, /take it back/)).toMatchObject({ kind: 'noticeUnshelved', notice: 'n5' });
  });

  it('are read whole, taken or not: what, since when and when told, the caution, what to look at first, and each stop', async () => {
    for (const one of [raised, { ...raised, state: 'taken', taken: { at: at(42), by: person } } as const]) {
      const page = await panel([one, server]);
      await listed(page);
      await press(page, /Bottom major flap/);
      const text = page.getByRole('region', { name: 'Notices' });
      await text.getByText('Since 10:21, told 10:40, with Sachet 48.').waitFor();
      const caution = await text.getByRole('complementary').boundingBox();
      const look = await text.getByText('Look first:').boundingBox();
      expect(caution!.y).toBeLessThan(look!.y);
      // the last stop lies below what is seen, and keys that a glove finds bring it up
      const stopsSaid = text.getByText(/tuck jam, 44 s/).last();
      await stopsSaid.waitFor();
      expect(await isSeen(page, stopsSaid)).toBe(false);
      await expect
        .poll(
          async () => {
            const down = key(page, /further down/);
            if (await down.isEnabled()) await down.click();
            return isSeen(page, stopsSaid);
          },
          { timeout: 60_000 },
        )
        .toBe(true);
      expect(await faultsIn(page)).toEqual([]);
    }
  });

  it('are taken, handed over, put aside and closed with what was found and done', async () => {
    const page = await panel();
    await listed(page);
    await press(page, /rejects above/);
    await press(page, /hand it over/);
    expect(await sends(page, /number 4022/)).toMatchObject({
      ...{ kind: 'noticeHanded', notice: 'n3', to: '4022', author: front },
    });
    await page.getByText('Handed over.').waitFor();
    await press(page, /read it again/);
    await press(page, /put it aside/);
    await press(page, /in two hours/);
    expect(await sends(page, /part is ordered/)).toMatchObject({
      ...{ kind: 'noticeShelved', notice: 'n3', words: 'part is ordered' },
    });
    await press(page, /read it again/);
    await press(page, /say what was found/);
    await press(page, /^dust or dirt/);
    await press(page, /^cleaned/);
    await page.getByRole('textbox').fill('glass of the sensor');
    expect(await sends(page, /close it/)).toMatchObject({
      ...{ kind: 'noticeClosed', notice: 'n3', found: 'dirt', done: 'cleaned', words: 'glass of the sensor' },
    });
  });

  it('say first what was done and how many others there are, with no key of another notice under the finger', async () => {
    for (const [act, said] of [
      [/I’m going/, 'You said that you are going.'],
      [/not now/, 'It is put aside at this panel, and stays open.'],
    ] as const) {
      const page = await panel();
      await key(page, act).waitFor();
      await expect.poll(() => page.locator('button[aria-disabled]').count(), { timeout: 60_000 }).toBe(0);
      const box = (await key(page, act).boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      const before = stage.entries.length;
      await page.mouse.click(x, y);
      // a glove that comes down once more, and once more when the keys are alive again
      await page.mouse.click(x, y);
      await page.getByText(said).waitFor();
      await expect.poll(() => page.locator('button[aria-disabled]').count(), { timeout: 60_000 }).toBe(0);
      await page.mouse.click(x, y);
      await page.getByText(said).waitFor();
      await page.getByText(/^Three others are open, (one|two)? ?.*not taken\.$/).waitFor();
      expect(stage.entries.length - before).toBe(act.source === 'not now' ? 0 : 1);
      await press(page, /to the line/);
      // nothing opens by itself behind it: the rest is read on purpose
      await key(page, /^Notices.*4 open, 1 on the shelf/).waitFor();
    }
  });

  it('keep what was said through a refusal and a page that is loaded again, and say why it was refused and what to do', async () => {
    const page = await panel();
    await listed(page);
    await press(page, /rejects above/);
    await press(page, /say what was found/);
    await press(page, /^blanks/);
    await press(page, /cleared only/);
    await page.getByRole('textbox').fill('lot 7 is damp');
    stage.refuse({ ok: false, trouble: 'It cannot be.', why: 'Somebody was first.', mend: 'Look again.' });
    await press(page, /close it/);
    await page.getByText('Somebody was first. Look again.').waitFor();
    await press(page, /understood/);
    stage.refuse(undefined);
    await page.reload();
    await listed(page);
    await press(page, /rejects above/);
    await press(page, /say what was found/);
    expect(await page.getByRole('textbox').inputValue()).toBe('lot 7 is damp');
    expect(await sends(page, /close it/)).toMatchObject({
      found: 'blanks',
      done: 'clearedOnly',
      words: 'lot 7 is damp',
    });
  });

  it.each([
    [/as a note/, ['note']],
    [/forget it/, []],
  ] as const)(
    '[NL10] reach what was half said here once somebody else said it first, and a page is loaded again: %s',
    async (act, kinds) => {
      const page = await panel([own]);
      await press(page, /^Notices/);
      await press(page, /rejects above/);
      await press(page, /say what was found/);
      await press(page, /^blanks/);
      await press(page, /cleared only/);
      await page.getByRole('textbox').fill('lot 7 is damp');
      const said = { at: at(42), by: person, found: 'part', done: 'partChanged', words: undefined } as const;
      const ended = {
        at: at(42),
        how: 'closed',
        by: person,
        said,
        corrections: [],
        correctable: 'c1',
      } as const;
      stage.show({ ...views.quiet, notices: notices([], [{ ...own, state: 'ended', ended }]) });
      await page.reload();
      const before = stage.entries.length;
      await press(page, /^Notices/);
      await press(page, /rejects above.*what was typed here is not said/);
      await page.getByText('Typed here, and not said:').waitFor();
      await page.getByText('lot 7 is damp').waitFor();
      expect(await faultsIn(page)).toEqual([]);
      await press(page, act);
      await expect.poll(() => key(page, act).count(), { timeout: 60_000 }).toBe(0);
      await expect.poll(() => stage.entries.slice(before)).toMatchObject(kinds.map((kind) => ({ kind })));
      await press(page, /the list of notices/);
      await page.getByText('Nothing is open.').waitFor();
      await press(page, /to the line/);
      await key(page, /^Notices/).waitFor({ state: 'detached' });
    },
  );
});

async function isSeen(page: Page, what: ReturnType<Page['locator']>): Promise<boolean> {
  const room = (await page.locator('.noticetext').boundingBox())!;
  const box = (await what.boundingBox())!;
  return box.y >= room.y && box.y + box.height <= room.y + room.height;
}
