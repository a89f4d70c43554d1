import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, onTestFinished } from 'vitest';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { epochMs, HOUR, type Instant, MINUTE, type Span } from '../../model/units/units.ts';
import { runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';
import { type GatewaySite, openGatewaySite } from './gatewaySite.ts';

/** The gateway of a simulated line from Monday's early shift on, and a browser that looks at it. */
export interface ReplaySite {
  readonly gateway: () => GatewaySite;
  /** A page in a browser of its own: nothing is kept from one to the next. It ends with the test. */
  readonly page: (path: string, options?: BrowserContextOptions) => Promise<Page>;
  /** What pages failed with, and nobody was told. */
  readonly faults: readonly string[];
}

export interface ReplayWish {
  readonly hours: number;
  /** It is told so much at a time. */
  readonly every: Span;
  readonly lively?: number;
  /** After each time, with the moment up to which it was told. */
  readonly told?: (gateway: GatewaySite, at: Instant) => void;
}

/** A publish every quarter of a second. */
const PUBLISH = MINUTE / 240;

/** To be called once by the file whose tests it is for. */
export function withReplaySite({ hours, every, lively = 1, told = () => {} }: ReplayWish): ReplaySite {
  const bound = boundLine();
  const end = (monday + hours * HOUR) as Instant;
  const faults: string[] = [];
  let gateway: GatewaySite | undefined;
  let browser: Browser | undefined;
  beforeAll(async () => {
    if (dashboardIsOld()) await buildDashboard();
    let clock = monday as Instant;
    const opened = await openGatewaySite({ bound, now: () => epochMs(clock) });
    gateway = opened;
    const machine = startMachine({ seed: 11, start: monday, lively });
    for (let at = monday; at < end; ) {
      at = Math.min(end, at + every) as Instant;
      clock = at;
      const changes = changesOf(bound, runUntil(machine, at));
      await opened.live.offer(changes.map((change) => ({ ...change, received: receivedAt(change.at) })));
      told(opened, at);
    }
    browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
  });
  afterAll(async () => {
    await browser?.close();
    await gateway?.end();
  });
  return {
    gateway: () => gateway!,
    faults,
    page: async (path, options = {}) => {
      const context = await browser!.newContext(options);
      onTestFinished(() => context.close());
      const page = await context.newPage();
      page.on('pageerror', (error) => void faults.push(error.message));
      await page.goto(path.startsWith('http') ? path : `${gateway!.address}${path}`);
      return page;
    },
  };
}

function receivedAt(moment: Instant): Instant {
  return (Math.ceil(moment / PUBLISH) * PUBLISH) as Instant;
}

/** Waits until a replay shows the line at its moment. */
export async function ready(page: Page): Promise<Page> {
  await page.locator('.atcursor header h2').waitFor();
  return page;
}

/** The moment that the line is shown at, once it is there. */
export const shownAt = async (page: Page) => Number(await page.locator('.atcursor').getAttribute('data-at'));
/** So many minutes into the early shift. */
export const moment = (minutes: number) => epochMs((monday + minutes * MINUTE) as Instant);
