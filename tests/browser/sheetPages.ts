import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, onTestFinished } from 'vitest';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import type { NumberStep, SheetStep } from '../../model/view/sheetView.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';
import { openSheetSite, type SheetSite } from './sheetSite.ts';

const output = join(import.meta.dirname, 'output');

let browser: Browser;

/** A browser for the tests of a file, on the dashboard as its sources are now. */
export function withBrowser(): void {
  beforeAll(async () => {
    mkdirSync(output, { recursive: true });
    if (dashboardIsOld()) await buildDashboard();
    browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
  });
  afterAll(() => browser?.close());
}

/** A line of its own for a test, and its gateway. */
export async function site(): Promise<SheetSite> {
  const made = await openSheetSite();
  onTestFinished(() => made.end());
  return made;
}

export async function pageOf(to: SheetSite, path: string, width: number, height: number): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: 'light',
    reducedMotion: 'reduce',
  });
  onTestFinished(() => context.close());
  const page = await context.newPage();
  await page.goto(`${to.address}${path}`);
  await page.waitForSelector('main:not(.waiting)');
  return page;
}

export const shot = async (page: Page, name: string) =>
  writeFileSync(join(output, `sheet-${name}.png`), await page.screenshot());
export const tap = (page: Page, name: string | RegExp) => page.getByRole('button', { name }).first().click();
export const step = (to: SheetSite, id: string): SheetStep | undefined =>
  to.sheet()?.steps.find((one) => one.id === id);
export const number = (to: SheetSite, id: string) => step(to, id) as NumberStep;

/** Types a number at a panel and enters it. */
export async function typeAtPanel(page: Page, typed: string): Promise<void> {
  await page.locator('.key.field1, .key.field2').click();
  for (const digit of typed) await page.getByRole('button', { name: digit, exact: true }).click();
  await tap(page, `Enter ${typed}`);
}

/** The step that a panel shows: its number, or its name. */
export const shown = (page: Page) => page.locator('.panelcard h2 :is(.no, b)').first().textContent();

export const logInAtPanel = async (page: Page, who: string, code: string) => {
  await tap(page, /^Log in to approve/);
  for (const digit of who) await page.getByRole('button', { name: digit, exact: true }).click();
  await page.locator('.key.take').click();
  await page.getByText('Your code?').first().waitFor();
  for (const digit of code) await page.getByRole('button', { name: digit, exact: true }).click();
  await page.locator('.key.take').click();
};

/** Opens a step from the panel's list of all steps, which has pages. */
export async function openAtPanel(page: Page, wanted: SheetStep): Promise<void> {
  const name = wanted.kind === 'number' ? `${wanted.id} ${wanted.name}` : wanted.name;
  const key = page.locator('.key.step1', { hasText: name });
  await page.locator('.key.step1').first().waitFor();
  if ((await key.count()) === 0) await tap(page, /of the steps$/);
  await key.click();
}
