import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { type Browser, chromium } from 'playwright-core';
import { build, preview } from 'vite';
import { chromiumFlags, chromiumPath } from '../browser/chromium.ts';
import type { Figure } from './run.ts';

const SECONDS = 30;
const THROTTLE = 4;

/**
 * Six charts that change once a second, in Chromium whose processor is slowed down four times: of each second its longest
 * frame, and of those the one that 95 in 100 do not exceed. A frame is what the page's thread does between two
 * drawings, not the time between them. The reference: the same six without turns, with the library's usual settings.
 */
export async function measure(): Promise<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-paint-'));
  const root = join(import.meta.dirname, 'paint');
  await build({ root, plugins: [react()], logLevel: 'silent', build: { outDir: folder, emptyOutDir: true } });
  const served = await preview({
    root,
    logLevel: 'silent',
    build: { outDir: folder },
    preview: { host: '127.0.0.1', port: 0 },
  });
  const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
  try {
    const address = served.resolvedUrls!.local[0]!;
    const worst = (path: string, throttle: number) => worstFrames(browser, `${address}${path}`, throttle);
    const slowed = await worst('', THROTTLE);
    const unslowed = await worst('', 1);
    const usual = await worst('?alone', THROTTLE);
    return {
      value: p95(slowed),
      unit: 'ms, p95 of the longest frame of each second, processor 4 times slower',
      reference: p95(usual),
      ratio: Math.round((p95(slowed) / p95(usual)) * 1000) / 1000,
      unthrottled: p95(unslowed),
      middle: slowed.toSorted((a, b) => a - b)[Math.floor(slowed.length / 2)]!,
      seconds: SECONDS,
    };
  } finally {
    await browser.close();
    await served.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The longest task of the page's thread in each second, in milliseconds as the page's own clock has them. */
async function worstFrames(browser: Browser, address: string, throttle: number): Promise<number[]> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 1600 } });
  try {
    await page.goto(address);
    await page.waitForSelector('svg.recharts-surface');
    await page.waitForTimeout(3000);
    const session = await page.context().newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: throttle });
    await page.waitForTimeout(2000);
    // given as text, because what runs in the page must not be touched by this side's compiler
    return await page.evaluate<number[]>(`new Promise((resolve) => {
      const channel = new MessageChannel();
      const worst = [];
      let begun = performance.now();
      let most = 0;
      let framed = 0;
      channel.port1.onmessage = () => { most = Math.max(most, performance.now() - framed); };
      const frame = () => {
        framed = performance.now();
        if (framed - begun >= 1000) { worst.push(Math.round(most * 10) / 10); most = 0; begun = framed; }
        if (worst.length >= ${SECONDS}) return resolve(worst);
        requestAnimationFrame(frame);
        channel.port2.postMessage(0);
      };
      requestAnimationFrame(frame);
    })`);
  } finally {
    await page.close();
  }
}

function p95(all: readonly number[]): number {
  const sorted = all.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * 0.95))]!;
}
