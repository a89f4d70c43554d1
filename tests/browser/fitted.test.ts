import { describe, expect, it } from 'vitest';
import { faultsIn } from './axeFaults.ts';
import { openAtPanel, pageOf, shot, shown, site, step, tap, withBrowser } from './sheetPages.ts';

withBrowser();

describe('which lot of board and which change parts run', () => {
  it('[SP4] is said at a panel outside a changeover and in a sheet’s step, with the last ones by one tap, and taken back', async () => {
    const to = await site();
    const things = () => to.live.view().fitted;
    const panel = await pageOf(to, '/panel/front', 1280, 800);
    await tap(panel, /^Lot or part/);
    await shot(panel, 'panel-fitted');
    await tap(panel, /^Lot of board/);
    await panel.getByLabel('Which lot of board is in?').fill('L-1208');
    await tap(panel, 'Enter it');
    await expect
      .poll(() => things()[0]?.now)
      .toMatchObject({ name: 'L-1208', author: { kind: 'position', position: 'front' } });
    // taken back there, what the PLC told holds again
    await tap(panel, /^Take it back/);
    await expect.poll(() => things()[0]?.now).toMatchObject({ author: undefined });

    await tap(panel, /^Lot or part/);
    await tap(panel, /^Suction cups/);
    await panel.getByLabel('Which one is fitted: suction cups?').fill('K2');
    await tap(panel, 'Enter it');
    await expect.poll(() => things().find((one) => one.step === 'cups')?.now?.name).toBe('K2');

    // in a sheet the part's step is done with its name
    await to.begin();
    await tap(panel, /^Changeover sheet/);
    await tap(panel, /^All steps/);
    await openAtPanel(panel, step(to, 'cups')!);
    await panel.getByText('last K2').waitFor();
    await shot(panel, 'panel-part');
    const tight = await panel
      .locator('.key.beside1')
      .evaluateAll(
        (all) =>
          all.filter((one) => one.firstElementChild!.getBoundingClientRect().height > one.clientHeight - 16)
            .length,
      );
    expect(tight).toBe(0);
    await tap(panel, /^Which one\?/);
    await shot(panel, 'panel-part-name');
    expect(await faultsIn(panel)).toEqual([]);
    await tap(panel, 'K2');
    await expect.poll(() => step(to, 'cups')?.done).toMatchObject({ well: true, words: 'K2' });
    await expect.poll(() => shown(panel)).not.toBe('suction cups');
  });

  it.each([390, 1440])(
    '[SP4] [EN1] is said at a station and below the sheet of a phone, and corrected like all entries, at %i px',
    async (width) => {
      const to = await site();
      const page = await pageOf(to, '/stations/pick', width, 844);
      const here = page.locator('.fittedhere');
      await here.getByText('Suction cups').waitFor();
      await here.getByText('nobody has said').waitFor();
      await here.getByRole('button', { name: /^Enter it/ }).click();
      await here.getByLabel('Which one is fitted: suction cups?').fill('K2');
      await here.getByRole('button', { name: 'Enter it' }).click();
      await here.locator('b', { hasText: 'K2' }).waitFor();
      await here.getByText(/^since 06:\d\d, by a/).waitFor();
      expect(await faultsIn(page)).toEqual([]);
      await here.scrollIntoViewIfNeeded();
      await shot(page, `fitted-station-${width}`);

      await page.goto(`${to.address}/sheet`);
      await here.getByText('Pocket plates').waitFor();
      await here
        .locator('li', { hasText: 'Suction cups' })
        .getByRole('button', { name: /^Enter another/ })
        .click();
      await here.getByRole('button', { name: 'K2', exact: true }).waitFor();
      await shot(page, `fitted-sheet-${width}`);
      expect(await faultsIn(page)).toEqual([]);
      expect(
        await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        ),
      ).toBeLessThanOrEqual(0);

      await page.goto(`${to.address}/stops`);
      const row = page.locator('.saidlist li', { hasText: 'suction cups: K2' });
      await row.getByRole('button').first().click();
      await row.getByLabel('What it should say').fill('K3');
      await row.getByLabel('Why it is corrected').fill('a slip');
      await row.getByRole('button', { name: 'Enter the correction' }).click();
      await expect.poll(() => to.live.view().fitted.find((one) => one.step === 'cups')?.now?.name).toBe('K3');
    },
  );
});
