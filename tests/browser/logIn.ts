import type { Page } from 'playwright-core';

/** Logs in at a desk or a phone, as whoever stands there does. */
export async function logIn(page: Page, number: string, code: string): Promise<void> {
  const dialog = page.getByRole('dialog');
  // who logs out is asked at once who comes next
  if ((await dialog.count()) === 0) await page.getByRole('button', { name: 'Log in' }).click();
  await page.getByLabel('your number').fill(number);
  await page.getByLabel('code or password').fill(code);
  await dialog.getByRole('button', { name: 'Log in' }).click();
  await page.getByRole('button', { name: `Number ${number}`, exact: true }).waitFor();
}
