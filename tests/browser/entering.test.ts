import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import type { LineView } from '../../model/view/view.ts';
import { type ViewName, views } from '../dashboard/views/views.ts';
import { openStage, type Stage } from './stage.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(views.quiet);
});
afterAll(async () => stage.end());

/** A panel with a view, after somebody has tapped what `taps` select. */
async function open(view: ViewName | LineView, taps: readonly string[] = []): Promise<Page> {
  stage.show(typeof view === 'string' ? views[view] : view);
  const page = await stage.page(1280, 800);
  await page.goto(`${stage.address}/panel/front`);
  await page.waitForSelector('main:not(.waiting)');
  for (const tap of taps) await page.locator(tap).first().click();
  return page;
}

/** A newer stop than the one that `question` asks about. */
const nextQuestion: LineView = {
  ...views.question,
  question: {
    ...views.question.question!,
    stop: 's-09:55:00',
    station: 'bottom major flap',
    answers: ['tuck jam', 'glue', 'board', 'skew'].map((name) => ({
      id: name,
      name,
      drawing: 'bottom-major',
      times: 0,
    })),
  },
};

const ORDERS = ['.key.order'];
const DOUBTED = [...ORDERS, '.key.handed', '.key.digit', '.key.take'];

describe('a line-side panel', () => {
  it('sends the answer of a panel with its position as the author, and asks no more', async () => {
    const page = await open('question');
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'sachet fell' }).click();
    await page.getByText('Kept: reason').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      {
        kind: 'reason',
        stop: views.question.question?.stop,
        reason: 'fell',
        author: { kind: 'position', position: 'front' },
      },
    ]);
  });

  it('does not take words typed for one stop as the reason of the next', async () => {
    const page = await open('question', ['.key.else']);
    const before = stage.entries.length;
    await page.getByPlaceholder('or type it').fill('half a word');
    stage.tell(nextQuestion);
    await page.getByText('not yet at bottom major flap').first().waitFor();
    expect(await page.getByPlaceholder('or type it').count()).toBe(0);
    await page.getByRole('button', { name: 'something else' }).click();
    expect(await page.getByPlaceholder('or type it').inputValue()).toBe('');
    await page.getByPlaceholder('or type it').fill('tuck bent');
    await page.getByRole('button', { name: 'Enter it' }).click();
    await page.getByText('Kept: reason').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'reason', stop: 's-09:55:00', reason: 'other', words: 'tuck bent' },
    ]);
  });

  it('opens the next stop on its four answers after the one before was asked in words', async () => {
    const page = await open('question', ['.key.else']);
    stage.tell(views.quiet);
    await page.getByRole('button', { name: 'Leave a note' }).waitFor();
    stage.tell(nextQuestion);
    await page.getByRole('heading', { name: 'Why did it stop?' }).waitFor();
    expect(await page.locator('.key.answer').count()).toBe(4);
  });

  it('takes no answer from a finger that was on its way when the question changed', async () => {
    const page = await open('question');
    await page.getByRole('button', { name: 'sachet fell', disabled: false }).waitFor();
    const before = stage.entries.length;
    // The tap falls in the very turn in which the changed question is drawn.
    await page.evaluate(() => {
      const says = () => document.querySelector('.key.answer')?.textContent ?? '';
      new MutationObserver((_changes, watch) => {
        if (!says().includes('tuck jam')) return;
        watch.disconnect();
        document.querySelector<HTMLElement>('.key.answer')?.click();
        document.body.dataset.tapped = 'yes';
      }).observe(document.body, { childList: true, subtree: true, characterData: true });
    });
    stage.tell(nextQuestion);
    await page.waitForSelector('body[data-tapped]');
    await page.getByRole('button', { name: 'glue' }).click();
    await page.getByText('Kept: reason').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([{ stop: 's-09:55:00', reason: 'glue' }]);
  });

  it('enters the next order and its crew in two taps', async () => {
    const page = await open('quiet');
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'Order, crew' }).click();
    await page.getByRole('button', { name: /4475/ }).click();
    await page.getByRole('button', { name: /target 52.*as now/ }).click();
    await page.getByText('Kept: order').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      {
        kind: 'order',
        number: '4475',
        size: 'sachet-20',
        blend: 'mint',
        quantity: 26_400,
        starts: 'whenEnded',
        crew: 2,
        author: { kind: 'position', position: 'front' },
      },
    ]);
  });

  it('begins an order now that was to follow and is chosen once more', async () => {
    const orders = views.quiet.orders.map((order) =>
      order.number === '4472' ? { ...order, state: 'next' as const } : order,
    );
    const page = await open({ ...views.quiet, orders }, ORDERS);
    const before = stage.entries.length;
    await page.getByRole('button', { name: /4472/ }).click();
    await page.getByText('4471 is ended, and 4472 runs from now on').waitFor();
    await page.getByRole('button', { name: /target 26/ }).click();
    await page.getByText('Kept: order').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'order', number: '4472', size: 'sachet-48', starts: 'now', crew: 1 },
    ]);
  });

  it('marks the order that follows, and says of an ended one that it goes on', async () => {
    const orders = views.quiet.orders.map((order) =>
      order.number === '4472' ? { ...order, state: 'next' as const } : order,
    );
    const page = await open({ ...views.quiet, orders }, ORDERS);
    expect(await page.locator('.key.row', { hasText: '4472' }).textContent()).toContain('follows');
    expect(await page.getByText(/, follows/).count()).toBe(1);
    await page.locator('.key.another').click();
    for (const key of ['4', '4', '7', '0'])
      await page.getByRole('button', { name: key, exact: true }).click();
    await page.getByText('It ended').waitFor();
  });

  it('takes the cartons handed over digit by digit, beside what was counted', async () => {
    const page = await open('quiet', ORDERS);
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'handed over cartons of 4470' }).click();
    const enter = page.getByRole('button', { name: 'enter it' });
    expect(await enter.isDisabled()).toBe(true);
    for (const key of ['5', '4', 'erase', '3', '9', '8'])
      await page.getByRole('button', { name: key, exact: true }).click();
    await page.getByText('14 fewer than counted').waitFor();
    await enter.click();
    await page.getByText('Kept: cartons handed over').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      {
        kind: 'handedOver',
        order: '4470',
        cartons: 5398,
        author: { kind: 'position', position: 'front' },
      },
    ]);
  });

  it('asks about a count that is far from what was counted, and changes it only by a tap', async () => {
    const page = await open('quiet', DOUBTED);
    const before = stage.entries.length;
    await page.getByText('1 handed over: is that right?').waitFor();
    expect(stage.entries.length).toBe(before);
    await page.getByRole('button', { name: 'back' }).click();
    expect(await page.locator('.typed').textContent()).toBe('1');
    await page.getByRole('button', { name: 'enter it' }).click();
    await page.getByRole('button', { name: '1 as typed', exact: true }).click();
    await page.getByText('Kept: cartons handed over').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([{ kind: 'handedOver', order: '4470', cartons: 1 }]);
  });
});

describe('cartons that no counter tells of', () => {
  it('are entered at a panel in two steps: what they were, and how many', async () => {
    const page = await open('quiet', ['.key.taken']);
    const before = stage.entries.length;
    await page.getByRole('button', { name: 'brought back' }).click();
    const enter = page.getByRole('button', { name: 'enter it' });
    expect(await enter.isDisabled()).toBe(true);
    await page.getByRole('button', { name: '0', exact: true }).click();
    expect(await enter.isDisabled()).toBe(true);
    await page.getByRole('button', { name: '3', exact: true }).click();
    await page.getByText('3 cartons more will come to the check than were picked.').waitFor();
    await enter.click();
    await page.getByText('Kept: cartons taken out or brought back').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'takenOut', cartons: 3, why: 'broughtBack', author: { kind: 'position', position: 'front' } },
    ]);
  });

  it('are asked about where they are more than pockets hold, and changed only by a tap', async () => {
    const page = await open('quiet', ['.key.taken', '.key.sample']);
    const before = stage.entries.length;
    for (const digit of ['9', '9']) await page.getByRole('button', { name: digit, exact: true }).click();
    await page.getByRole('button', { name: 'enter it' }).click();
    await page.getByText('99 at once: is that right?').waitFor();
    expect(stage.entries.length).toBe(before);
    await page.getByRole('button', { name: 'type it again' }).click();
    expect(await page.locator('.typed').textContent()).toBe('99');
    await page.getByRole('button', { name: 'enter it' }).click();
    await page.getByRole('button', { name: '99 as typed', exact: true }).click();
    await page.getByText('Kept: cartons taken out or brought back').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([{ kind: 'takenOut', cartons: 99, why: 'sample' }]);
  });

  it('are entered at a desk as at a panel', async () => {
    stage.show(views.quiet);
    const page = await stage.page(1440, 900);
    await page.goto(stage.address);
    const before = stage.entries.length;
    await page.getByLabel('Cartons taken out, or brought back').fill('4');
    await page.getByLabel('What they were').selectOption('taken out by hand');
    await page.getByRole('button', { name: 'Record it' }).click();
    await page.getByText('Kept: cartons taken out or brought back').waitFor();
    await page.getByLabel('Cartons taken out, or brought back').fill('400');
    await page.getByRole('button', { name: 'Record it' }).click();
    await page.getByText('400 at once: is that right?').waitFor();
    await page.getByRole('button', { name: '400, as typed' }).click();
    await expect.poll(() => stage.entries.length).toBe(before + 2);
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'takenOut', cartons: 4, why: 'byHand', author: { kind: 'screen', screen: 'desk' } },
      { kind: 'takenOut', cartons: 400, why: 'byHand' },
    ]);
  });
});

describe('a desk', () => {
  it('enters at a desk what a panel does: an order that follows, one that runs now, cartons handed over', async () => {
    stage.show(views.quiet);
    const page = await stage.page(1440, 900);
    await page.goto(stage.address);
    await page.waitForSelector('main:not(.waiting)');
    const before = stage.entries.length;
    for (const [number, key] of [
      ['4472', 'Follows'],
      ['4468', 'Runs from now on'],
    ] as const) {
      await page.getByLabel('Next order').selectOption(number);
      await page.getByRole('button', { name: key }).click();
    }
    await page.getByLabel('Cartons handed over of order 4470').fill('5420');
    await page.getByRole('button', { name: 'Enter' }).click();
    await page.getByText('Kept: cartons handed over').waitFor();
    const author = { kind: 'screen', screen: 'desk' };
    expect(stage.entries.slice(before)).toMatchObject([
      { kind: 'order', number: '4472', starts: 'whenEnded', author },
      { kind: 'order', number: '4468', starts: 'now', author },
      { kind: 'handedOver', order: '4470', cartons: 5420, author },
    ]);
  });

  it('asks about a count that is far from what was counted, and keeps it only when it is said again', async () => {
    stage.show(views.quiet);
    const page = await stage.page(1440, 900);
    await page.goto(stage.address);
    const field = page.getByLabel('Cartons handed over of order 4470');
    const before = stage.entries.length;
    await field.fill('542');
    await page.getByRole('button', { name: 'Enter' }).click();
    await page.getByText('542 handed over: is that right?').waitFor();
    await field.fill('54');
    expect(await page.getByText('is that right?').count()).toBe(0);
    await page.getByRole('button', { name: 'Enter' }).click();
    await page.getByRole('button', { name: '5,412, as many as counted' }).click();
    await page.getByText('Kept: cartons handed over').waitFor();
    expect(stage.entries.slice(before)).toMatchObject([{ kind: 'handedOver', order: '4470', cartons: 5412 }]);
  });

  it('[EN1] takes back what was just entered there, for a minute, and then offers it no more', async () => {
    const page = await open('quiet', ['.key.note']);
    await page.getByPlaceholder('or type it').fill('box bent');
    await page.getByRole('button', { name: 'Enter it' }).click();
    await page.getByText('Kept: note').waitFor();
    const [note] = stage.entries.slice(-1) as { id: string }[];
    await page.getByRole('button', { name: 'Take it back' }).click();
    await page.getByText('Kept: correction').waitFor();
    expect(stage.entries.at(-1)).toMatchObject({
      ...{ kind: 'correction', of: note!.id, was: 'note' },
      author: { kind: 'position', position: 'front' },
    });
    expect(stage.entries.at(-1)).not.toHaveProperty('body');
    expect(await page.getByRole('button', { name: 'Take it back' }).count()).toBe(0);
    const keys = await page
      .locator('.key')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    expect(Math.min(...keys)).toBeGreaterThanOrEqual(130);
  });
});
