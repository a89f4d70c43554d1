import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { type Notices, startNotices } from '../../../gateway/notices/notices.ts';
import { openPush } from '../../../gateway/notices/ways/push.ts';
import type { Outcome } from '../../../gateway/notices/ways/way.ts';
import { openPeople, type Push } from '../../../gateway/people/people.ts';
import { CHEAP } from '../api/web.ts';
import { type PeopleSite, peopleSite } from '../people/peopleSite.ts';
import { AT, parcel } from './parcels.ts';
import type { PushBrowser, PushReceiver } from './pushReceiver.ts';

export const CEILING = { timeout: 240_000 };
export const SUBJECT = 'mailto:line3@plant.example';

export function folderForTest(): string {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-push-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  return folder;
}

/** A data folder whose file of ways has push by a receiver on loopback. */
export function folderWith({ cert }: PushReceiver): string {
  const data = folderForTest();
  writeFileSync(join(data, 'plant.pem'), cert);
  writeFileSync(
    join(data, 'ways.yaml'),
    `push: { subject: '${SUBJECT}', services: [localhost] }\ntrusted: plant.pem\n`,
  );
  return data;
}

/** Subscriptions without people. */
export function subscriptionsOf(...browsers: readonly PushBrowser[]): Push & { readonly dropped: string[] } {
  const dropped: string[] = [];
  const left = () =>
    browsers.map(({ subscription }) => subscription).filter(({ endpoint }) => !dropped.includes(endpoint));
  return {
    dropped,
    of: () => left(),
    people: () => [],
    rows: () => [],
    add: () => {},
    remove: () => false,
    drop: (endpoint) => void dropped.push(endpoint),
    clear: () => {},
  };
}

export async function sent(
  receiver: PushReceiver,
  subscriptions: Push,
  level?: 'note' | 'urgent',
): Promise<Outcome> {
  const { way } = await openPush({
    settings: { subject: SUBJECT, services: ['localhost'] },
    data: folderForTest(),
    ...{ subscriptions, trusted: receiver.cert, now: () => AT },
  });
  const one = parcel('n1', 'push');
  const message = level === undefined ? one.message : { ...one.message, level };
  return way.send({ ...one, message }, new AbortController().signal);
}

/** People, the ways out, and a receiver: everything but the browser. */
export async function wholeSite(receiver: PushReceiver) {
  const data = folderWith(receiver);
  const people = openPeople(data, { now: () => AT, cost: CHEAP, durable: false });
  const said: string[] = [];
  const log = { info: () => {}, warn: () => {}, error: () => {} };
  const say = (text: string) => void said.push(text);
  const notices = (await startNotices({ data, log, say, subscriptions: people.push }))!;
  onTestFinished(async () => {
    await notices.stop();
    people.close();
  });
  const site = await peopleSite({ notices: () => notices, data });
  return { site, notices, said, people };
}

/** Somebody turns it on in a browser. */
export function turnOn(site: PeopleSite, cookie: string, { subscription }: PushBrowser) {
  const { endpoint, ...keys } = subscription;
  return site.ask('POST', '/api/notices/push', { endpoint, expirationTime: null, keys }, { cookie });
}

export const through = ({ store }: Notices) => {
  const { waiting, sending } = store.counts();
  return waiting + sending;
};
