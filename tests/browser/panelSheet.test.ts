import { describe, expect, it } from 'vitest';
import type { NumberStep } from '../../model/view/sheetView.ts';
import { faultsIn } from './axeFaults.ts';
import {
  logInAtPanel,
  number,
  openAtPanel,
  pageOf,
  shot,
  shown,
  site,
  step,
  tap,
  typeAtPanel,
  withBrowser,
} from './sheetPages.ts';

withBrowser();

describe('a whole changeover at a line-side panel', () => {
  it('names the steps beside one with the mark of the way to them, however long their names are', async () => {
    const to = await site();
    await to.begin();
    const page = await pageOf(to, '/panel/front', 1280, 800);
    await tap(page, /^Changeover sheet/);
    const next = page.locator('.key.beside1.next');
    const places: { readonly cut: boolean; readonly seen: boolean }[] = [];
    for (const wanted of to.sheet()!.steps.slice(0, -1)) {
      await expect.poll(() => shown(page)).toContain(wanted.kind === 'number' ? wanted.id : wanted.name);
      places.push(
        await next.evaluate((key) => {
          const name = key.querySelector('.besidename')!;
          const texts = document.createTreeWalker(name, NodeFilter.SHOW_TEXT);
          while (texts.nextNode()) if (texts.currentNode.textContent?.includes('›')) break;
          const mark = document.createRange();
          mark.selectNodeContents(texts.currentNode);
          mark.setStart(texts.currentNode, texts.currentNode.textContent!.indexOf('›'));
          const box = name.getBoundingClientRect();
          const { bottom, right } = mark.getBoundingClientRect();
          const cut = [name, ...name.children].some((one) => one.scrollHeight > one.clientHeight + 8);
          return { cut, seen: bottom <= box.bottom + 8 && right <= box.right + 1 };
        }),
      );
      if (places.at(-1)!.cut) await shot(page, 'panel-beside');
      await next.click();
    }
    expect(places.some(({ cut }) => cut)).toBe(true);
    expect(places.every(({ seen }) => seen)).toBe(true);
  });

  it('[SH1] [SH4] [SH6] [SH7] is done from the sheet with the network cut in the middle; nothing is lost or doubled', async () => {
    const to = await site();
    await to.person('17', ['operator'], '480216');
    // where the sensors stand for the old size
    await to.tell({
      'BottomMinor.KickerTiming': 142,
      'BottomMajor.ClosingGuide': 26,
      'TopMajor.ClosingGuide': 24.5,
      'TuckCam.Height': 62,
    });
    const page = await pageOf(to, '/panel/front', 1280, 800);
    await tap(page, /^Changeover sheet/);
    await tap(page, /^Sachet 48/);
    await tap(page, /^another size/);
    // the PLC tells of the changeover, which is this sheet's
    await to.tell({
      'Cartoner.Mode': 4,
      'Cartoner.State': 11,
      'Cartoner.FirstOut': 202,
      'Cartoner.Size': 48,
    });

    await expect.poll(() => shown(page)).toBe('1.1');
    await page.getByText('Isolated and locked out first.').waitFor();
    await shot(page, 'panel-number');
    await typeAtPanel(page, '96');
    await expect.poll(() => shown(page)).toMatch(/^blanks and sachets/);
    await tap(page, 'Well');
    await expect.poll(() => shown(page)).toBe('suction cups');
    await page.getByText('large, blue ring').waitFor();
    await tap(page, 'Not fitted');
    await tap(page, 'not here');
    await page.getByText('The step stays open.').first().waitFor();
    await expect.poll(() => step(to, 'cups')?.done).toMatchObject({ well: false, words: 'not here' });
    await tap(page, 'Fitted');

    // a slip is asked about, and what was meant is entered
    await expect.poll(() => shown(page)).toBe('2.1');
    await typeAtPanel(page, '72');
    await page.getByRole('heading', { name: 'Did you mean 27.0?' }).waitFor();
    await page.getByText('72 is not on the scale, which goes from 0.0 to 60.0.').waitFor();
    await shot(page, 'panel-doubt');
    expect(await page.getByRole('button', { name: /as typed/ }).count()).toBe(0);
    await tap(page, 'Yes, 27.0');
    await expect.poll(() => shown(page)).toBe('pocket plates');
    await tap(page, 'Fitted');
    await expect.poll(() => shown(page)).toBe('3.1');
    await tap(page, /^As book/);
    await expect.poll(() => number(to, '3.1').done).toMatchObject({ value: 41.5, how: 'confirmed' });

    // 4.1 has a sensor: it is turned until it reads the book's number, and is done by itself
    await expect.poll(() => shown(page)).toBe('4.1');
    await page.getByText('Its sensor reads').waitFor();
    await to.tell({ 'BottomMinor.KickerTiming': 150 });
    await page.getByText('Done by itself').waitFor();
    await page.locator('.key.beside1.next').click();
    await expect.poll(() => shown(page)).toBe('4.2');

    // the network goes
    const before = (await to.entered()).length;
    await to.silence();
    await page.getByText('No network.').waitFor();
    // it is far from the book, and asked about; what the person says is entered as typed
    await typeAtPanel(page, '52.5');
    await page.getByRole('heading', { name: 'Did you mean 25.5?' }).waitFor();
    await tap(page, '52.5 it is');
    // and whether it stays there, or was moved to the book's number
    await page.getByRole('heading', { name: 'Does it stay at 52.5?' }).waitFor();
    await shot(page, 'panel-off-book');
    await tap(page, 'It stays at 52.5');
    await expect.poll(() => shown(page)).toBe('5.1');
    await page.getByText('1 entry kept here, sent later').waitFor();
    await typeAtPanel(page, '14.5');
    await expect.poll(() => shown(page)).toBe('5.2');
    // nobody hears its sensor: what that read last is no answer, and its scale is read
    await page.getByText('Its sensor read 26.0 mm when it was last heard: read the scale.').waitFor();
    expect(await page.getByRole('button', { name: /^Leave it/ }).count()).toBe(0);
    await shot(page, 'panel-unheard');
    await typeAtPanel(page, '26');
    await tap(page, 'It stays at 26.0');
    await expect.poll(() => shown(page)).toBe('6.1');
    await tap(page, /^As book/);
    await expect.poll(() => shown(page)).toMatch(/^loading chute/);
    await tap(page, 'Well');
    await expect.poll(() => shown(page)).toBe('8.1');
    await typeAtPanel(page, '212');
    await expect.poll(() => shown(page)).toBe('9.1');
    await page.getByText(/^Its sensor read .* when it was last heard: read the scale\./).waitFor();
    await shot(page, 'panel-gone');
    await tap(page, /^All steps/);
    await page.getByText('6 entries kept here, sent later').waitFor();
    expect(await page.getByText(/kept here/).count()).toBeGreaterThan(1);
    await shot(page, 'panel-all-kept');
    expect((await to.entered()).length).toBe(before);

    // and comes back: in order, each once, where it was made
    await to.speak();
    await page.getByText('No network.').waitFor({ state: 'detached' });
    await expect.poll(async () => (await to.entered()).length).toBe(before + 6);
    await expect.poll(() => page.locator('.keptbar').count()).toBe(0);
    const sent = (await to.entered()).slice(before);
    expect(sent.map((one) => ('adjustment' in one ? one.adjustment : one.kind))).toEqual([
      '4.2',
      '5.1',
      '5.2',
      'asBook',
      'stepDone',
      '8.1',
    ]);
    expect(sent.every((one, i) => i === 0 || one.at >= sent[i - 1]!.at)).toBe(true);
    expect(new Set((await to.entered()).map(({ id }) => id)).size).toBe(before + 6);

    // the rest: sensors that are turned, one number that is entered
    await to.tell({ 'TopMajor.ClosingGuide': 30, 'TuckCam.Height': 70.5 });
    await openAtPanel(page, step(to, '9.2')!);
    await expect.poll(() => shown(page)).toBe('9.2');
    await typeAtPanel(page, '4');

    // all numbers are in: two are read back, without what was entered
    const asked = () =>
      to.sheet()!.steps.filter((one): one is NumberStep => one.kind === 'number' && !!one.readBack?.asked);
    await expect.poll(() => asked().length).toBe(2);
    await tap(page, /^All steps/);
    const [first, second] = asked();
    await openAtPanel(page, first!);
    await page.getByText('Read it once more.').waitFor();
    await shot(page, 'panel-readback');
    const plain = (value: number) => String(value);
    expect(await page.locator('.panel').textContent()).not.toContain(`${plain(first!.done!.value!)} entered`);
    expect(await page.locator('.threenumbers').count()).toBe(0);
    await typeAtPanel(page, plain(first!.done!.value!));
    await expect.poll(() => number(to, first!.id).isDone).toBe(true);

    // the second reads otherwise: which holds is asked, and both stay
    await tap(page, /^All steps/);
    await openAtPanel(page, second!);
    const other = plain(second!.done!.value! + 1);
    await typeAtPanel(page, other);
    await page.getByRole('heading', { name: 'The two do not agree. Where does it stand?' }).waitFor();
    await shot(page, 'panel-differs');
    await expect.poll(() => number(to, second!.id).readBack?.differs).toBe(true);
    expect(number(to, second!.id).isDone).toBe(false);
    await tap(page, /^It stays at .* as read back$/);
    await expect.poll(() => number(to, second!.id).isDone).toBe(true);
    expect(number(to, second!.id)).toMatchObject({
      done: { value: Number(other), how: 'typed', found: Number(other) },
      readBack: { done: { value: Number(other), how: 'readBack' } },
    });

    await tap(page, /^All steps/);
    await openAtPanel(page, step(to, 'trial-cartons')!);
    await page.getByText(/trial cartons.*left out of the count/).waitFor();
    await tap(page, 'Well');
    await expect.poll(() => shown(page)).toMatch(/^artwork and code/);
    await logInAtPanel(page, '17', '480216');
    await tap(page, 'Approve as number 17');
    await page.getByText('All steps are done.').waitFor();
    await page.getByText('ends by itself when the line is at its rate').waitFor();
    await shot(page, 'panel-done');
    expect(step(to, 'first-cartons')?.done).toMatchObject({ author: { kind: 'person', number: '17' } });
    expect(to.sheet()?.left).toBe(0);

    // production, and its rate
    await to.tell({ 'Cartoner.Mode': 1, 'Cartoner.State': 6, 'Cartoner.FirstOut': 0 });
    await to.run(200);
    await page.getByText('The sheet has ended by itself.', { exact: false }).waitFor();
    await shot(page, 'panel-ended');
    expect(to.live.view().sheets.ended).toMatchObject({ how: 'done', size: { id: 'sachet-48' } });
    const all = await to.entered();
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
    // nothing but the approval bears a person
    expect(all.filter(({ author }) => author.kind === 'person').map(({ kind }) => kind)).toEqual([
      'stepApproved',
    ]);
  });
});

describe('a sheet at a panel', () => {
  it('has its numbers and keys whole however long names are, and no type under 26 px', async () => {
    const to = await site();
    await to.begin();
    await to.tell({ 'BottomMajor.ClosingGuide': 26 });
    const page = await pageOf(to, '/panel/front', 1280, 800);
    await tap(page, /^Changeover sheet/);
    await tap(page, /^All steps/);
    await page.locator('.key.step1', { hasText: '5.2' }).click();
    await page.locator('.panelcard').waitFor();
    await page.evaluate(() => {
      const long = 'Doppelkammerbeutelführungsschiene für Großpackungen, linke Seite innen';
      for (const one of document.querySelectorAll('.stephead b, .threenumbers dt, .stephead small'))
        one.textContent = long;
    });
    await shot(page, 'panel-long');
    const [card, numbers] = await Promise.all(
      ['.panelcard', '.threenumbers'].map((which) => page.locator(which).boundingBox()),
    );
    expect(numbers!.y + numbers!.height).toBeLessThanOrEqual(card!.y + card!.height + 0.5);
    const small = await page
      .locator('.panelsheet, .panelcard, .panelknown, .key')
      .locator('p, b, small, span, dd, dt')
      .evaluateAll((all) =>
        all
          .filter((one) => one.getClientRects().length > 0 && !one.classList.contains('unseen'))
          .map((one) => [one.textContent, Number.parseFloat(getComputedStyle(one).fontSize)] as const)
          .filter(([text, size]) => text !== '' && size < 26),
      );
    expect(small).toEqual([]);
    const low = await page
      .locator('.key')
      .evaluateAll((all) =>
        all
          .map((one) => one.getBoundingClientRect())
          .filter(({ width, height }) => Math.min(width, height) < 130),
      );
    expect(low).toEqual([]);
    expect(await faultsIn(page)).toEqual([]);
  });

  it('is reached while a stop device is latched in, by a key of its own, and gives way to the next press', async () => {
    const to = await site();
    await to.begin();
    await to.tell({ 'Cartoner.Mode': 4, 'Cartoner.State': 11, 'Cartoner.FirstOut': 202 });
    const page = await pageOf(to, '/panel/front', 1280, 800);
    await tap(page, /^Changeover sheet/);
    await page.locator('.panelcard').waitFor();
    await to.tell({ 'Stop.MainPanel': true });
    await page.getByText('This panel only shows it.').waitFor();
    await tap(page, /^Changeover sheet/);
    await page.locator('.panelcard').waitFor();
    await page.getByText('Emergency stop latched in').first().waitFor();
    await shot(page, 'panel-latched');
    await to.tell({ 'Stop.MainPanel': false });
    await to.tell({ 'Stop.LoadingFront': true });
    await page.getByText('This panel only shows it.').waitFor();
  });
});
