import { type CDPSession, chromium, type Page } from 'playwright-core';
import { buildDashboard, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import type { Bound } from '../../gateway/binding/binding.ts';
import { epochMs, HOUR, type Instant, MINUTE } from '../../model/units/units.ts';
import { runUntil, startMachine } from '../../simulator/machine/machine.ts';
import { chromiumFlags, chromiumPath } from '../browser/chromium.ts';
import { type GatewaySite, openGatewaySite } from '../browser/gatewaySite.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';
import type { Figure } from './run.ts';

const SEEKS = 60;
/** Each is opened so often; the middle one is told. */
const OPENED = 5;

interface Measured {
  readonly openMs: number;
  readonly fetchMs: number;
  readonly seekMs: number;
  readonly seekWorstMs: number;
  readonly knownMs: number;
  readonly heapMB: number;
  readonly changes: number;
}

/**
 * A shift in Chromium from a gateway on loopback: from the address to ready to scrub, and from a moment that is asked for to
 * the line as it was then on the screen. The reference is fetching the same pieces alone, in the same browser. Shifts of 1 h and 24 h
 * stand beside it.
 */
export async function measure(): Promise<Figure> {
  if (dashboardIsOld()) await buildDashboard();
  const eight = await measured(8);
  const one = await measured(1);
  const day = await measured(24);
  return {
    value: eight.openMs,
    unit: 'ms to open 8 h',
    reference: eight.fetchMs,
    ratio: round(eight.openMs / eight.fetchMs, 2),
    ...eight,
    ...named('1h', one),
    ...named('24h', day),
  };
}

function named(name: string, figures: Measured): Record<string, number> {
  return Object.fromEntries(Object.entries(figures).map(([key, value]) => [`${key}${name}`, value]));
}

async function measured(hours: number): Promise<Measured> {
  const bound = withShiftsOf(hours);
  const end = (monday + (hours + 0.5) * HOUR) as Instant;
  const site = await openGatewaySite({ bound, now: () => epochMs(end) });
  const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumFlags });
  try {
    await fill(site, bound, end);
    const page = await browser.newPage({ viewport: { width: 1440, height: 1400 } });
    const opened: number[] = [];
    for (let turn = 0; turn < OPENED; turn += 1) opened.push(await openIn(page, site, hours));
    const seeks = await seeksIn(page, hours, 'shown');
    await page.getByRole('button', { name: 'as known now' }).click();
    const known = await seeksIn(page, hours, 'known');
    return {
      openMs: round(middle(opened), 0),
      fetchMs: round(await fetchIn(page, site, hours), 0),
      seekMs: round(middle(seeks), 1),
      seekWorstMs: round(Math.max(...seeks), 1),
      knownMs: round(middle(known), 1),
      heapMB: round((await heapOf(page)) / 1e6, 1),
      changes: site.tape.end(bound.line.id),
    };
  } finally {
    await browser.close();
    await site.end();
  }
}

/** The bundled line with shifts of another length. */
function withShiftsOf(hours: number): Bound {
  const bound = boundLine();
  const [shift] = bound.line.calendar.shifts;
  const to = `${String((6 + hours) % 24).padStart(2, '0')}:00`;
  const calendar = { ...bound.line.calendar, shifts: [{ ...shift!, from: '06:00', to }] };
  return { ...bound, line: { ...bound.line, calendar } };
}

async function fill(site: GatewaySite, bound: Bound, end: Instant): Promise<void> {
  const machine = startMachine({ seed: 1, start: monday });
  for (let at = monday; at < end; ) {
    at = Math.min(end, at + MINUTE) as Instant;
    await site.live.offer(changesOf(bound, runUntil(machine, at)));
  }
}

/** From the address to the line at the moment that it names. */
async function openIn(page: Page, site: GatewaySite, hours: number): Promise<number> {
  const at = epochMs((monday + (hours / 2) * HOUR) as Instant);
  await page.goto('about:blank');
  const began = Date.now();
  await page.goto(`${site.address}/replay?at=${at}`, { waitUntil: 'commit' });
  await page.waitForSelector('.atcursor h2');
  const shown = await page.evaluate<number>('Date.now()');
  return shown - began;
}

/** Here and there in the shift, by the slider: until the screen shows the line as it was then. */
async function seeksIn(page: Page, hours: number, as: string): Promise<readonly number[]> {
  // given as text, because what runs in the page must not be touched by this side's compiler
  return page.evaluate<number[]>(`(async () => {
    const slider = document.querySelector('.coursestrip input');
    const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set;
    const sheet = document.querySelector('.replayhalves');
    const took = [];
    let seed = ${as === 'known' ? 7 : 3};
    const next = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
    for (let n = 0; n < ${SEEKS}; n += 1) {
      const at = Math.round(${epochMs(monday)} + next() * ${hours * 3_600_000});
      const told = () => document.querySelector('.atcursor')?.getAttribute('data-at');
      const began = performance.now();
      set.call(slider, String(at));
      slider.dispatchEvent(new Event('input', { bubbles: true }));
      await new Promise((resolve) => {
        const look = () => Math.abs(Number(told()) - Number(slider.value)) < 1000 && resolve();
        const watch = new MutationObserver(look);
        watch.observe(sheet, { subtree: true, childList: true, attributes: true, characterData: true });
        look();
      });
      took.push(performance.now() - began);
      await new Promise((resolve) => setTimeout(resolve, 250));
    }
    return took;
  })()`);
}

/** The pieces of the shift alone, six at a time, as a browser does. */
async function fetchIn(page: Page, site: GatewaySite, hours: number): Promise<number> {
  const [from, to] = [epochMs(monday), epochMs((monday + hours * HOUR) as Instant)];
  const base = `${site.address}/api/lines/${site.live.line.id}/tape`;
  return page.evaluate<number>(`(async () => {
    const began = performance.now();
    const stretch = await (await fetch('${base}?from=${from}&to=${to}')).json();
    await Promise.all(stretch.pieces.map(async ({ start }) => (await fetch('${base}/pieces/' + start)).arrayBuffer()));
    return performance.now() - began;
  })()`);
}

/** What page and worker hold after a collection, in bytes. */
async function heapOf(page: Page): Promise<number> {
  const session = await page.context().newCDPSession(page);
  const own = await usedBy((method) => session.send(method as 'Runtime.getHeapUsage'));
  return own + (await workersHeap(session));
}

async function usedBy(send: (method: string) => Promise<unknown>): Promise<number> {
  await send('HeapProfiler.collectGarbage');
  const { usedSize, backingStorageSize = 0 } = (await send('Runtime.getHeapUsage')) as {
    readonly usedSize: number;
    readonly backingStorageSize?: number;
  };
  return usedSize + backingStorageSize;
}

async function workersHeap(session: CDPSession): Promise<number> {
  const attached: string[] = [];
  session.on('Target.attachedToTarget', ({ sessionId }) => attached.push(sessionId));
  await session.send('Target.setAutoAttach', {
    autoAttach: true,
    waitForDebuggerOnStart: false,
    flatten: false,
  });
  let sum = 0;
  for (const sessionId of attached) {
    let id = 0;
    sum += await usedBy((method) => {
      id += 1;
      const asked = id;
      const answered = new Promise<unknown>((resolve) => {
        session.on('Target.receivedMessageFromTarget', (event) => {
          const message = JSON.parse(event.message) as { readonly id?: number; readonly result?: unknown };
          if (event.sessionId === sessionId && message.id === asked) resolve(message.result);
        });
      });
      void session.send('Target.sendMessageToTarget', {
        sessionId,
        message: JSON.stringify({ id: asked, method }),
      });
      return answered;
    });
  }
  if (attached.length === 0) throw new Error('no worker was found: its heap would be missing');
  return sum;
}

function middle(all: readonly number[]): number {
  return all.toSorted((a, b) => a - b)[Math.floor(all.length / 2)]!;
}

function round(value: number, decimals: number): number {
  return Math.round(value * 10 ** decimals) / 10 ** decimals;
}
