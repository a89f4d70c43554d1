import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import type { EpochMs } from '../../model/units/units.ts';
import { faultsIn } from './axeFaults.ts';
import { bareNumbers } from './bareNumbers.ts';
import { pageOf, shot, shown, site, step, tap, typeAtPanel, withBrowser } from './sheetPages.ts';

withBrowser();

const hasAhead = (page: Page) =>
  expect.poll(() => page.evaluate(() => localStorage.getItem('sheets ahead'))).toContain('sampler-12');
const beginHere = async (page: Page) => {
  await tap(page, /^Sampler 12/);
  await tap(page, /^another size/);
};
/** What the book says of 1.1 for Sampler 12. */
const FIRST = '118';
/** What comes within two seconds was made just now, and is refused where its sheet is not open. */
const isKeptLong = (page: Page) => page.waitForTimeout(2_500);
const settled = (page: Page) => page.locator('.opened[data-settled="true"]').waitFor();

describe('a sheet that another replaced while somebody worked in it', () => {
  it('[SH10] a phone that was without a network says so, with all that it entered, until that was read', async () => {
    const to = await site();
    const phone = await pageOf(to, '/sheet', 390, 844);
    await hasAhead(phone);
    await to.silence();
    await phone.getByText('No network.').waitFor();
    await beginHere(phone);
    await expect.poll(() => phone.locator('.stephead .no').textContent()).toBe('1.1');
    await to.begin();
    await settled(phone);
    await phone.getByRole('textbox').fill(FIRST);
    await phone.getByRole('textbox').press('Enter');
    await phone.getByRole('heading', { name: /blanks and sachets/ }).waitFor();
    await settled(phone);
    await tap(phone, 'Well');
    await phone.getByText('3 entries kept here, sent later').waitFor();
    await isKeptLong(phone);
    await to.speak();
    await phone.getByText(/^Sampler 12: replaced 06:\d\d$/).waitFor();
    await phone
      .getByText(/The panel loading front began a sheet for Sachet 48, which took its place\./)
      .waitFor();
    await phone.getByText('step of the changeover, line-cleared: well').waitFor();
    await phone.getByText(/^number read, 1\.1: 118$/).waitFor();
    expect(to.sheet()).toMatchObject({ id: 'begun', size: { id: 'sachet-48' } });
    expect(step(to, '1.1')).toMatchObject({ done: undefined, now: { value: Number(FIRST) } });
    expect(step(to, 'line-cleared')?.done).toBeUndefined();
    await shot(phone, 'phone-replaced');
    expect(await faultsIn(phone)).toEqual([]);
    expect(await bareNumbers(phone)).toEqual([]);

    // it outlives the page and the time that a kept entry is said, and the Line screen leads to it
    await phone.goto(`${to.address}/`);
    await phone
      .getByRole('link', { name: 'The sheet you worked in is not open any more: read why' })
      .waitFor();
    await shot(phone, 'phone-replaced-line');
    expect(await faultsIn(phone)).toEqual([]);
    await phone.getByRole('link', { name: 'The sheet you worked in is not open any more: read why' }).click();
    await phone.getByText('step of the changeover, line-cleared: well').waitFor();
    await tap(phone, /^I have read it/);
    await phone.locator('.refusedhere').waitFor({ state: 'detached' });
    await phone.reload();
    await phone.locator('.stepcard').waitFor();
    expect(await phone.locator('.refusedhere').count()).toBe(0);
  });

  it('[SH10] a panel says so on a page of its own, as much at a time as it has room for', async () => {
    const to = await site();
    const panel = await pageOf(to, '/panel/front', 1280, 800);
    await tap(panel, /^Changeover sheet/);
    await beginHere(panel);
    await expect.poll(() => shown(panel)).toBe('1.1');
    await typeAtPanel(panel, FIRST);
    await expect.poll(() => shown(panel)).not.toBe('1.1');
    const steps = to.sheet()!.steps.slice(1, 9);
    await to.silence();
    await panel.getByText('No network.').waitFor();
    await to.live.enter({
      ...{ id: 'desk', at: (Date.now() + 5) as EpochMs, author: { kind: 'person', number: '7' } },
      ...{ kind: 'sheetBegun', size: 'sachet-48', in: 'size' },
    });
    for (const one of steps) {
      await expect.poll(() => shown(panel)).toContain(one.kind === 'number' ? one.id : one.name);
      if (one.kind === 'number') await typeAtPanel(panel, String(one.book));
      else await tap(panel, one.kind === 'part' ? 'Fitted' : 'Well');
    }
    await panel.getByText('8 entries kept here, sent later').waitFor();
    await isKeptLong(panel);
    await to.speak();
    await panel.getByRole('heading', { name: /^Sampler 12: replaced 06:\d\d$/ }).waitFor();
    await panel.getByText(/Number 7 began a sheet for Sachet 48, which took its place\./).waitFor();
    await shot(panel, 'panel-replaced');
    expect(await faultsIn(panel)).toEqual([]);
    await tap(panel, /^Later/);
    await panel.locator('.left1').waitFor({ state: 'detached' });
    await panel.reload();
    await panel.locator('.left1').waitFor();
    await panel.getByText('6 of 8 are on this page.').waitFor();
    await tap(panel, /^Read, go on/);
    await panel.locator('.left1 li').nth(2).waitFor({ state: 'detached' });
    expect(await panel.locator('.left1 li').count()).toBe(2);
    await tap(panel, /^I have read it/);
    await panel.locator('.left1').waitFor({ state: 'detached' });
    await panel.reload();
    await panel.getByRole('button', { name: /^Changeover sheet/ }).waitFor();
    expect(await panel.locator('.left1').count()).toBe(0);
  });

  it('[SH10] is said where nothing came too late as well: it was replaced while this screen was there', async () => {
    const to = await site();
    const phone = await pageOf(to, '/sheet', 390, 844);
    await beginHere(phone);
    await expect.poll(() => phone.locator('.stephead .no').textContent()).toBe('1.1');
    // who only looks on is told nothing
    const desk = await pageOf(to, '/sheet', 1440, 900);
    await expect.poll(() => desk.locator('.stephead .no').textContent()).toBe('1.1');
    await to.tell({ 'Cartoner.Mode': 4, 'Cartoner.State': 11, 'Cartoner.Size': 48 });
    await phone.getByText(/^Sampler 12: replaced 06:\d\d$/).waitFor();
    await phone.getByText(/The PLC told of Sachet 48, whose sheet took its place\./).waitFor();
    await expect.poll(() => desk.locator('h1').textContent()).toContain('Sachet 48');
    expect(await desk.locator('.refusedhere').count()).toBe(0);
    await tap(phone, /^I have read it/);
    await phone.locator('.refusedhere').waitFor({ state: 'detached' });
  });
});
