import { expect, it } from 'vitest';
import type { EpochMs } from '../../model/units/units.ts';
import { faultsIn } from './axeFaults.ts';
import { pageOf, shot, site, tap, withBrowser } from './sheetPages.ts';

withBrowser();

it('[SH9] the sheet that fits is offered at a panel and on a phone, and begins with one tap, with its own steps', async () => {
  const to = await site();
  const order = (id: string, blend: string, starts: 'now' | 'whenEnded') =>
    to.live.enter({
      ...{ id, at: Date.now() as EpochMs, author: { kind: 'screen', screen: 'desk' }, kind: 'order' },
      ...{ number: id, size: 'sachet-20', blend, quantity: 9000, starts },
    });
  await order('4711', 'mint', 'now');
  await order('4712', 'fennel', 'whenEnded');
  await to.tell({ 'Cartoner.Mode': 4, 'Cartoner.State': 11, 'Cartoner.FirstOut': 202 });
  const panel = await pageOf(to, '/panel/front', 1280, 800);
  const phone = await pageOf(to, '/sheet', 390, 844);
  await phone.getByRole('heading', { name: 'This one fits' }).waitFor();
  await shot(phone, 'phone-offered');
  expect(await faultsIn(phone)).toEqual([]);
  await tap(panel, /^Changeover sheet one fits: another artwork or blend/);
  await panel.getByText('the next order has another blend').waitFor();
  await shot(panel, 'panel-offered');
  expect(to.sheet()).toBeUndefined();
  await tap(panel, /^Another artwork or blend Sachet 20/);
  await panel.locator('.panelcard').waitFor();
  expect(to.sheet()).toMatchObject({ kind: 'artwork', size: { id: 'sachet-20' } });
  expect(to.sheet()?.steps.map(({ kind }) => kind)).not.toContain('number');
  await phone.locator('.stepcard').waitFor();
});
