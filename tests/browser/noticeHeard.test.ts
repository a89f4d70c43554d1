import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { notices, noticeView } from '../dashboard/notices/views.ts';
import { views } from '../dashboard/views/views.ts';
import { openStage, type Stage } from './stage.ts';

const raised = noticeView();
const withNotice = { ...views.quiet, notices: notices([raised]) };

let stage: Stage;
beforeAll(async () => {
  stage = await openStage(withNotice);
});
afterAll(async () => stage?.end());

/** Runs in the page: counts the tones that begin. */
function listen(): void {
  const page = globalThis as unknown as {
    tones: number;
    OscillatorNode: { prototype: { start: (...at: unknown[]) => void } };
  };
  page.tones = 0;
  const { prototype } = page.OscillatorNode;
  const { start } = prototype;
  prototype.start = function (this: unknown, ...at: unknown[]) {
    page.tones += 1;
    start.apply(this, at);
  };
}

const tones = (page: Page) => page.evaluate('tones') as Promise<number>;

it('what was heard on one screen is not heard again on the next; a notice that comes back is', {
  timeout: 120_000,
}, async () => {
  const page = await stage.page(1440, 900);
  await page.addInitScript(listen);
  await page.goto(stage.address);
  await page.getByRole('button', { name: 'Sound off' }).click();
  await page.getByRole('button', { name: 'Sound on' }).waitFor();
  await expect.poll(() => tones(page), { timeout: 60_000 }).toBeGreaterThanOrEqual(2);

  await page.locator('.screens').getByRole('link', { name: 'Stops', exact: true }).click();
  await page.getByRole('heading', { level: 1, name: 'Stops' }).waitFor();
  // a touch somewhere is enough where it was on before
  await page.getByRole('heading', { level: 1 }).click();
  await page.getByRole('button', { name: 'Sound on' }).waitFor();
  expect(await tones(page)).toBe(0);

  stage.tell({ ...withNotice, notices: notices([{ ...raised, round: 1 }]) });
  await expect.poll(() => tones(page), { timeout: 60_000 }).toBe(2);
});
