import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import type { EpochMs } from '../../model/units/units.ts';
import { faultsIn } from './axeFaults.ts';
import { bareNumbers } from './bareNumbers.ts';
import { number, pageOf, shot, shown, site, step, tap, typeAtPanel, withBrowser } from './sheetPages.ts';

const now = () => Date.now() as EpochMs;

withBrowser();

/** What a sheet to come would have has arrived, and is kept. */
const hasAhead = (page: Page) =>
  expect.poll(() => page.evaluate(() => localStorage.getItem('sheets ahead'))).toContain('sachet-48');
/** A step of the list of all steps, on a phone. */
const open = async (page: Page, text: string) => {
  await page.getByRole('button', { name: /^All steps/ }).click();
  await page.locator('.opened[data-settled="true"]').waitFor();
  await page.locator('.allsteps button', { hasText: text }).click();
  await page.locator('.opened[data-settled="true"]').waitFor();
};

describe('a sheet that is begun while there is no network', () => {
  it('[SH6] [SH8] has its steps at once on a phone; once the gateway answers, all is there once and what changed is marked', async () => {
    const to = await site();
    const phone = await pageOf(to, '/sheet', 390, 844);
    await hasAhead(phone);
    await to.silence();
    await phone.getByText('No network.').waitFor();
    await tap(phone, /^Sachet 48/);
    await tap(phone, /^another size/);
    await phone.getByText(/^Numbers as of 06:\d\d\.$/).waitFor();
    await expect.poll(() => phone.locator('.stephead .no').textContent()).toBe('1.1');
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await shot(phone, 'phone-begun-gone');
    expect(await faultsIn(phone)).toEqual([]);
    expect(await bareNumbers(phone)).toEqual([]);
    await open(phone, 'suction cups');
    await phone.getByText('large, blue ring').waitFor();
    await tap(phone, 'Fitted');
    await open(phone, 'blanks and sachets');
    await tap(phone, 'Well');
    await phone.getByText('3 entries kept here, sent later').waitFor();

    // an engineer approves another number meanwhile
    await to.live.enter({
      ...{ id: 'approved', at: now(), author: { kind: 'person', number: '7' } },
      ...{ kind: 'book', size: 'sachet-48', adjustment: '5.2', value: 33, why: 'sixteen runs' },
    });
    const before = (await to.entered()).length;
    await to.speak();
    await phone.getByText('No network.').waitFor({ state: 'detached' });
    await expect.poll(() => step(to, 'cups')?.isDone).toBe(true);
    await expect.poll(() => step(to, 'line-cleared')?.isDone).toBe(true);
    await phone.getByText('The book has changed since this was begun here:').waitFor();
    expect((await to.entered()).slice(before).map(({ kind }) => kind)).toEqual([
      'sheetBegun',
      'stepDone',
      'stepDone',
    ]);
    expect(to.sheet()).toMatchObject({ size: { id: 'sachet-48' }, author: { kind: 'screen' } });
    await open(phone, '5.2');
    await phone.getByText(/^The book said 31\.5 as of 06:\d\d; it says/).waitFor();
    await shot(phone, 'phone-book-changed');
    expect(await faultsIn(phone)).toEqual([]);
    // and stays so when the page is loaded again
    await phone.reload();
    await phone.getByText('The book has changed since this was begun here:').waitFor();
  });

  it('[SH8] at a panel is the one that a phone began meanwhile, with what both entered', async () => {
    const to = await site();
    const panel = await pageOf(to, '/panel/front', 1280, 800);
    await hasAhead(panel);
    await to.silence();
    await tap(panel, /^Changeover sheet/);
    await tap(panel, /^Sachet 48/);
    await tap(panel, /^another size/);
    await expect.poll(() => shown(panel)).toBe('1.1');
    await panel.getByText(/^book as of 06:\d\d, Sachet.48$/).waitFor();
    await typeAtPanel(panel, '96');
    await panel.getByText('2 entries kept here, sent later').waitFor();
    await shot(panel, 'panel-begun-gone');
    await tap(panel, /^All steps/);
    await panel.getByText(/^Numbers as of 06:\d\d\.$/).waitFor();
    await shot(panel, 'panel-begun-all');
    // the PLC tells of the change while nobody hears the panel, and a program does a step of that sheet
    await to.tell({
      'Cartoner.Mode': 4,
      'Cartoner.State': 11,
      'Cartoner.FirstOut': 202,
      'Cartoner.Size': 48,
    });
    const told = to.sheet()!;
    await to.live.enter({
      ...{ id: 'phone', at: now(), author: { kind: 'screen', screen: 'phone' } },
      ...{ kind: 'stepDone', sheet: told.id, step: 'cups', well: true },
    });
    await to.speak();
    await expect.poll(() => number(to, '1.1').done).toMatchObject({ value: 96 });
    expect(step(to, 'cups')?.isDone).toBe(true);
    await panel.locator('.key.step1.done', { hasText: 'suction cups' }).waitFor();
  });
});
