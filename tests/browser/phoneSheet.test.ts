import { describe, expect, it } from 'vitest';
import { faultsIn } from './axeFaults.ts';
import { bareNumbers } from './bareNumbers.ts';
import { logIn } from './logIn.ts';
import {
  number,
  openAtPanel,
  pageOf,
  shot,
  site,
  step,
  tap,
  typeAtPanel,
  withBrowser,
} from './sheetPages.ts';

withBrowser();

describe('a sheet on a phone', () => {
  it('[SH5] [SH6] is begun, goes on at the panel, keeps what is entered without a network, and is handed over', async () => {
    const to = await site();
    const phone = await pageOf(to, '/sheet', 390, 844);
    const panel = await pageOf(to, '/panel/front', 1280, 800);
    await tap(phone, /^Sachet 48/);
    await tap(phone, /^another size/);
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await expect.poll(() => phone.locator('.stephead .no').textContent()).toBe('1.1');
    await shot(phone, 'phone-number');
    // each sees what the other did
    await tap(panel, /^Changeover sheet/);
    await typeAtPanel(panel, '96');
    await phone.getByText('96 entered').waitFor();
    await phone.getByText('by the panel loading front').waitFor();
    await phone.locator('.sheetbeside .next').click();
    await phone.getByRole('heading', { name: /blanks and sachets/ }).waitFor();

    await to.silence();
    await phone.getByText('No network.').waitFor();
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await tap(phone, 'Well');
    await phone.getByRole('heading', { name: /suction cups/ }).waitFor();
    await phone.getByText('1 entry kept here, sent later').waitFor();
    // at the panel a kept one as well, made later
    await panel.getByText('No network.').waitFor();
    await tap(panel, /^All steps/);
    await panel.locator('.key.step1', { hasText: '4.2' }).click();
    await typeAtPanel(panel, '22.5');
    await panel.getByText('1 entry kept here, sent later').waitFor();
    await shot(phone, 'phone-gone');
    await to.speak();
    await phone.getByText('No network.').waitFor({ state: 'detached' });
    await expect.poll(() => step(to, 'line-cleared')?.isDone).toBe(true);
    await expect.poll(() => number(to, '4.2').done).toMatchObject({ value: 22.5 });

    await phone.getByRole('button', { name: /^All steps/ }).click();
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await tap(phone, /^Hand over/);
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await phone.getByRole('textbox').fill('4.2 is stiff');
    await tap(phone, 'Enter it');
    await phone.getByText(/Handed over .* by a phone: 4.2 is stiff/).waitFor();
    await expect.poll(() => to.sheet()?.handed).toMatchObject([{ words: '4.2 is stiff' }]);
    // whichever screen was heard first, each stands where it was made
    const made = (await to.entered()).toSorted((a, b) => a.at - b.at);
    expect(made.map(({ kind }) => kind)).toEqual([
      'sheetBegun',
      'reading',
      'stepDone',
      'reading',
      'sheetHanded',
    ]);

    await phone.locator('.opened[data-settled="true"]').waitFor();
    await tap(phone, /^Close it/);
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await tap(phone, 'another order comes');
    await phone.getByText(/closed .* by a phone/).waitFor();
    expect(to.sheet()).toBeUndefined();
  });

  it('[SH6] a number that was typed and asked about is there when the page is loaded again, and once it was entered no more', async () => {
    const to = await site();
    await to.begin();
    const phone = await pageOf(to, '/sheet', 390, 844);
    const panel = await pageOf(to, '/panel/front', 1280, 800);
    await expect.poll(() => phone.locator('.stephead .no').textContent()).toBe('1.1');
    await phone.getByRole('textbox').fill('90');
    await phone.getByRole('textbox').press('Enter');
    await phone.getByText('Does it stay at 90?').waitFor();
    await phone.reload();
    await phone.getByText('Does it stay at 90?').waitFor();
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await shot(phone, 'phone-asked-again');
    expect(await phone.getByRole('textbox').inputValue()).toBe('90');
    expect(await faultsIn(phone)).toEqual([]);
    await tap(phone, 'It stays at 90');
    await expect.poll(() => number(to, '1.1').done).toMatchObject({ value: 90, found: 90 });
    await tap(phone, /^All steps/);
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await phone.locator('.allsteps button', { hasText: '1.1' }).click();
    await expect.poll(() => phone.getByRole('textbox').inputValue()).toBe('');

    const toStep = async () => {
      await tap(panel, /^Changeover sheet/);
      await tap(panel, /^All steps/);
      await openAtPanel(panel, step(to, '2.1')!);
    };
    await toStep();
    await typeAtPanel(panel, '72');
    await panel.getByRole('heading', { name: 'Did you mean 27.0?' }).waitFor();
    await panel.reload();
    await toStep();
    await panel.getByRole('heading', { name: 'Did you mean 27.0?' }).waitFor();
    await tap(panel, 'Look again');
    await panel.getByRole('button', { name: 'Enter 72' }).waitFor();
  });

  it('is told to log in where entries are not open to everybody, and sees the sheet', async () => {
    const to = await site();
    await to.person('17', ['viewer'], '480216');
    to.close();
    await to.begin();
    const phone = await pageOf(to, '/sheet', 390, 844);
    await phone.getByText('To enter numbers and steps of a changeover, log in.').waitFor();
    await phone.locator('.stepcard').waitFor();
    expect(await phone.locator('.sheetfield').count()).toBe(0);
    expect(await phone.getByRole('button', { name: /^As book/ }).count()).toBe(0);
  });

  it('[SH3] [SH6] an approval that was kept is taken under the number that gave it, and under no other', async () => {
    const to = await site();
    await to.person('17', ['operator'], '480216');
    await to.person('18', ['operator'], '480217');
    await to.begin();
    const phone = await pageOf(to, '/sheet', 390, 844);
    await phone.getByRole('button', { name: /^All steps/ }).click();
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await phone.locator('.allsteps button', { hasText: 'artwork and code' }).click();
    await phone.getByText('To approve a step of a changeover, log in.').waitFor();
    await logIn(phone, '17', '480216');
    await phone.locator('.opened[data-settled="true"]').waitFor();
    await to.silence();
    await phone.getByText('No network.').waitFor();
    await tap(phone, 'Approve as number 17');
    await phone.getByText('1 entry kept here, sent later').waitFor();
    to.endSessions('17');
    await to.speak();
    // refused, said with why and what it was, and kept: also when the page is loaded anew
    await phone.getByText('Number 17 is not logged in any more.').waitFor();
    await phone.getByText('step approved, first-cartons: well').waitFor();
    await phone.reload();
    await phone.getByText('Number 17 is not logged in any more.').waitFor();
    await logIn(phone, '18', '480217');
    await tap(phone, 'Send again');
    await phone.getByText('Number 17 is not logged in any more.').waitFor();
    expect(step(to, 'first-cartons')?.done).toBeUndefined();
    await phone.getByRole('button', { name: 'Number 18', exact: true }).click();
    await phone.getByRole('button', { name: 'Log out' }).click();
    await logIn(phone, '17', '480216');
    await tap(phone, 'Send again');
    await expect
      .poll(() => step(to, 'first-cartons')?.done?.author)
      .toEqual({ kind: 'person', number: '17' });
    await phone.locator('.refusedhere').waitFor({ state: 'detached' });
    expect((await to.entered()).filter(({ kind }) => kind === 'stepApproved')).toHaveLength(1);
  });

  it.each([320, 360, 390, 1440])(
    'has nothing that sticks out, nothing small to press, and axe finds nothing at %i px',
    async (width) => {
      const to = await site();
      await to.begin();
      const page = await pageOf(to, '/sheet', width, 844);
      for (const wanted of ['4.2', '5.2', '9.2', 'suction cups', 'artwork and code']) {
        await page.getByRole('button', { name: /^All steps/ }).click();
        await page.locator('.opened[data-settled="true"]').waitFor();
        await page.locator('.allsteps button', { hasText: wanted }).click();
        await page.locator('.opened[data-settled="true"]').waitFor();
        expect(
          await page.evaluate(
            () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
          ),
        ).toBeLessThanOrEqual(0);
        const small = await page
          .locator('main button, main input')
          .evaluateAll((all) =>
            all
              .map((one) => ({ said: one.textContent, height: one.getBoundingClientRect().height }))
              .filter(({ height }) => height > 0 && height < 43.5),
          );
        expect(small).toEqual([]);
        expect(await faultsIn(page)).toEqual([]);
        expect(await bareNumbers(page)).toEqual([]);
      }
    },
  );
});
