import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { buildDashboard, dashboardFolder, dashboardIsOld } from '../../gateway/commands/dashboard.ts';
import { startNotices } from '../../gateway/notices/notices.ts';
import { pushBody } from '../../gateway/notices/ways/pushWay.ts';
import { openPeople } from '../../gateway/people/people.ts';
import { subscriptionId } from '../../gateway/people/subscriptions.ts';
import { CHEAP } from '../gateway/api/web.ts';
import { AT, parcel } from '../gateway/notices/parcels.ts';
import { browserAt } from '../gateway/notices/pushReceiver.ts';
import { type PeopleSite, peopleSite } from '../gateway/people/peopleSite.ts';
import { faultsIn } from './axeFaults.ts';
import { chromiumFlags, chromiumPath } from './chromium.ts';

const output = join(import.meta.dirname, 'output');
const SECRET = '480216';
let browser: Browser;

beforeAll(async () => {
  if (dashboardIsOld()) await buildDashboard();
  const names = '--host-resolver-rules=MAP scoreline.plant.example 127.0.0.1';
  browser = await chromium.launch({ executablePath: chromiumPath(), args: [...chromiumFlags, names] });
});
afterAll(() => browser?.close());

/** A gateway with push set up, and number 12, who has a phone. */
async function opened() {
  const data = mkdtempSync(join(tmpdir(), 'scoreline-push-'));
  writeFileSync(join(data, 'ways.yaml'), 'push: { subject: mailto:line3@plant.example }\n');
  const people = openPeople(data, { now: () => AT, cost: CHEAP, durable: false });
  const log = { info: () => {}, warn: () => {}, error: () => {} };
  const notices = (await startNotices({ data, log, say: () => {}, subscriptions: people.push }))!;
  const site = await peopleSite({ notices: () => notices, data, built: dashboardFolder });
  await site.person('12', ['maintenance'], SECRET);
  onTestFinished(async () => {
    await notices.stop();
    people.close();
    rmSync(data, { recursive: true });
  });
  return { site, push: people.push };
}

async function phone(): Promise<{ context: BrowserContext; page: Page }> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  onTestFinished(() => context.close());
  return { context, page: await context.newPage() };
}

async function logIn(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.getByRole('button', { name: 'Log in' }).click();
  await page.getByLabel('your number').fill('12');
  await page.getByLabel('code or password').fill(SECRET);
  await page.locator('dialog').getByRole('button', { name: 'Log in' }).click();
  await page.getByRole('button', { name: 'Number 12', exact: true }).click();
}

/** No push service is reached from a test: in its place stands a subscription as one would give it. */
async function withPushService(page: Page, endpoint: string): Promise<void> {
  const { subscription } = browserAt(endpoint);
  await page.addInitScript(
    ({ endpoint: at, p256dh, auth }) => {
      let held: object | null = null;
      const made = {
        endpoint: at,
        toJSON: () => ({ endpoint: at, expirationTime: null, keys: { p256dh, auth } }),
        unsubscribe: async () => {
          held = null;
          return true;
        },
      };
      Object.assign(PushManager.prototype, {
        getSubscription: async () => held,
        subscribe: async ({ applicationServerKey: key }: { applicationServerKey: string }) => {
          if (!/^[\w-]{87}$/.test(key)) throw new Error('no key of a gateway');
          held = made;
          return made;
        },
      });
    },
    { ...subscription },
  );
}

async function keep(page: Page, name: string): Promise<void> {
  mkdirSync(output, { recursive: true });
  writeFileSync(join(output, `push-${name}.png`), await page.screenshot());
}

/** Through the browser's own tools, as if its push service had brought it. */
async function deliver(
  context: BrowserContext,
  page: Page,
  { address }: PeopleSite,
  text: string,
): Promise<void> {
  const tools = await context.newCDPSession(page);
  const registered = new Promise<string>((resolve) => {
    tools.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => {
      const found = registrations.find(({ scopeURL }) => scopeURL === `${address}/`);
      if (found) resolve(found.registrationId);
    });
  });
  await tools.send('ServiceWorker.enable');
  const registrationId = await registered;
  await tools.send('ServiceWorker.deliverPushMessage', { origin: address, registrationId, data: text });
}

describe('notices on a phone by push', () => {
  it('are turned on and off by whose phone it is, with what it needs said beside', async () => {
    const { site, push } = await opened();
    const { context, page } = await phone();
    await context.grantPermissions(['notifications'], { origin: site.address });
    const endpoint = 'https://push.example/phone';
    await withPushService(page, endpoint);
    await logIn(page, site.address);
    await page.getByText('Notices here by push').click();
    await page.getByText('It needs the internet here and on the gateway').waitFor();
    expect(await faultsIn(page)).toEqual([]);
    await page.getByRole('button', { name: 'Tell me here' }).click();
    await page.getByText('are shown here, also while this page is closed').waitFor();
    expect(push.rows('12').map(({ id }) => id)).toEqual([subscriptionId(endpoint)]);
    await keep(page, 'on');
    await page.getByRole('button', { name: 'No longer here' }).click();
    await page.getByText('Nothing is told here while').waitFor();
    expect(push.rows('12')).toEqual([]);
    push.add('12', browserAt('https://push.example/other').subscription);
    await page.reload();
    await page.getByRole('button', { name: 'Number 12', exact: true }).click();
    await page.getByText('Notices here by push').click();
    await page.getByText('in one other browser of yours').waitFor();
    await page.getByRole('button', { name: 'No longer there' }).click();
    await expect.poll(() => push.rows('12')).toEqual([]);
  });

  it('are shown as they came, one in place of the same, and lead to their page', async () => {
    const { site } = await opened();
    const { context, page } = await phone();
    await context.grantPermissions(['notifications'], { origin: site.address });
    await page.goto(site.address);
    const started = context.waitForEvent('serviceworker');
    await page.evaluate(() => navigator.serviceWorker.register('/push.js').then(() => {}));
    const worker = await started;
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => {}));
    const text = pushBody(parcel('n1', 'push'));
    await deliver(context, page, site, text);
    await deliver(context, page, site, text);
    const shown = () =>
      page.evaluate(async () => {
        const registration = await navigator.serviceWorker.ready;
        const all = await registration.getNotifications();
        return all.map(({ title, body, tag }) => ({ title, body, tag }));
      });
    await expect.poll(shown, { timeout: 60_000 }).toEqual([
      {
        title: 'Call, Line 3',
        body: 'Fold bottom flap jams more than it used to.',
        tag: parcel('n1', 'push').id,
      },
    ]);
    const led = await worker.evaluate(async () => {
      const scope = globalThis as unknown as WorkerScope;
      const went: string[] = [];
      scope.clients.openWindow = async (address) => void went.push(address);
      const [notification] = await scope.registration.getNotifications();
      const event = new scope.NotificationEvent('notificationclick', { notification: notification! });
      scope.dispatchEvent(event);
      while (went.length === 0) await new Promise((resolve) => setTimeout(resolve, 10));
      return { went, left: (await scope.registration.getNotifications()).length };
    });
    expect(led).toEqual({ went: [`${site.address}/notices/n1`], left: 0 });
  });

  it('cannot be turned on where the page did not come encrypted, which is said', async () => {
    const { site } = await opened();
    const { page } = await phone();
    await logIn(page, site.address.replace('127.0.0.1', 'scoreline.plant.example'));
    await page.getByText('Notices here by push').click();
    await page.getByText('This page did not come by HTTPS').waitFor();
    expect(await page.getByRole('button', { name: 'Tell me here' }).count()).toBe(0);
    await keep(page, 'not-secure');
  });

  it('are not offered where push is not set up', async () => {
    const site = await peopleSite({ built: dashboardFolder });
    await site.person('12', [], SECRET);
    const { page } = await phone();
    const told = page.waitForResponse('**/api/notices/push');
    await logIn(page, site.address);
    await told;
    await page.getByText('Another code or password').waitFor();
    expect(await page.getByText('Notices here by push').count()).toBe(0);
  });
});

/** What of a service worker's own world is used here. */
interface WorkerScope {
  clients: { openWindow: (address: string) => Promise<void> };
  registration: { getNotifications(): Promise<Notification[]> };
  NotificationEvent: new (kind: string, parts: { notification: Notification }) => Event;
  dispatchEvent(event: Event): boolean;
}
