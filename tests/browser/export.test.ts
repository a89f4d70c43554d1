import { readFileSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { epochMs, HOUR, type Instant } from '../../model/units/units.ts';
import { runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { csvRows } from '../gateway/export/csvRows.ts';
import { unzipped } from '../gateway/export/unzipped.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';
import { faultsIn } from './axeFaults.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';
import { type GatewaySite, openGatewaySite } from './gatewaySite.ts';

const bound = boundLine();
const end = (monday + 2 * HOUR) as Instant;
let site: GatewaySite;
let browser: Browser;
beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
  site = await openGatewaySite({ bound, now: () => epochMs(end) });
  await site.live.offer(changesOf(bound, runUntil(startMachine({ seed: 4, start: monday }), end)));
  browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
});
afterAll(async () => {
  await browser?.close();
  await site?.end();
});

describe('the form for an export', () => {
  it.each([
    [1440, 900],
    [390, 844],
  ])(
    '[OI4] is filled in, says what does not fit, tells when it is done, and the files are fetched: %d px',
    async (width, height) => {
      const page = await browser.newPage({ viewport: { width, height } });
      await page.goto(`${site.address}/signals`);
      const form = page.getByRole('region', { name: 'Export' });
      await form.getByLabel('From').fill('2026-03-16T07:00:00');
      await form.getByLabel('To, no more part of it').fill('2026-03-16T06:30:00');
      await form.getByRole('button', { name: 'Start the export' }).click();
      await form.getByText('The end has to lie after the beginning.').waitFor();
      await form.getByLabel('To, no more part of it').fill('2026-03-16T07:30:00');
      for (const table of ['Runs', 'Minutes']) await form.getByLabel(table).uncheck();
      await form.getByLabel('Signal changes').check();
      await form.getByRole('button', { name: 'Start the export' }).click();
      const row = form.getByRole('listitem').first();
      await row.getByText('CSV: Signal changes, Stops').waitFor();
      await row.getByText(/^Done: [\d,]+ rows, [\d.]+ [kM]B$/).waitFor();
      expect(await faultsIn(page)).toEqual([]);
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        row.getByRole('link', { name: 'Fetch the files' }).click(),
      ]);
      expect(download.suggestedFilename()).toBe('line-3_2026-03-16T0700_2026-03-16T0730.zip');
      const files = unzipped(readFileSync(await download.path()));
      const rows = csvRows(String(files.get('changes.csv')));
      expect(rows.length).toBeGreaterThan(1000);
      expect(rows.every(({ line_time }) => /^2026-03-16T07:[012]/.test(line_time!))).toBe(true);
      await row.getByRole('button', { name: 'Drop the file' }).click();
      await row.waitFor({ state: 'detached' });
      await page.close();
    },
  );
});
