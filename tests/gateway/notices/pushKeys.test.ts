import { chmodSync, existsSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { startNotices } from '../../../gateway/notices/notices.ts';
import { openPush } from '../../../gateway/notices/ways/push.ts';
import { openPeople } from '../../../gateway/people/people.ts';
import { CHEAP } from '../api/web.ts';
import { peopleSite } from '../people/peopleSite.ts';
import { AT } from './parcels.ts';
import { browserAt } from './pushReceiver.ts';
import { SUBJECT, folderForTest, subscriptionsOf, turnOn } from './pushSite.ts';

describe('the keys of push', () => {
  const opened = (data: string) =>
    openPush({
      settings: { subject: SUBJECT, services: [] },
      ...{ data, subscriptions: subscriptionsOf(), now: () => AT },
    });

  it('are made on first use, for their owner alone, and are the same from then on', async () => {
    const data = folderForTest();
    const first = await opened(data);
    expect(statSync(join(data, 'push.json')).mode & 0o777).toBe(0o600);
    const second = await opened(data);
    expect(second.open.publicKey).toBe(first.open.publicKey);
    expect(JSON.stringify(first.open)).not.toContain(
      (JSON.parse(readFileSync(join(data, 'push.json'), 'utf8')) as { privateKey: string }).privateKey,
    );
  });

  it('that are made anew leave nobody subscribed to those before: no service would take what they sign', async () => {
    const data = folderForTest();
    const people = openPeople(data, { now: () => AT, cost: CHEAP, durable: false });
    onTestFinished(() => people.close());
    const first = { code: people.firstCode!, number: '12', secret: 'correct horse 9' } as const;
    await people.logIn.asAdmin({ ...first, place: 'screen', address: '' });
    const settings = { subject: SUBJECT, services: [] };
    const open = () => openPush({ settings, data, subscriptions: people.push, now: () => AT });
    await open();
    people.push.add('12', browserAt('https://push.example/1').subscription);
    await open();
    expect(people.push.of('12')).toHaveLength(1);
    rmSync(join(data, 'push.json'));
    await open();
    expect(people.push.of('12')).toEqual([]);
  });

  it('are not used where others may read them, or the file holds something else', async () => {
    const data = folderForTest();
    await opened(data);
    chmodSync(join(data, 'push.json'), 0o644);
    await expect(opened(data)).rejects.toMatchObject({ name: 'LineError' });
    writeFileSync(join(data, 'push.json'), '{}');
    chmodSync(join(data, 'push.json'), 0o600);
    await expect(opened(data)).rejects.toMatchObject({ why: 'It does not hold the two keys of push.' });
  });

  it('are not made where the file of ways has no push', async () => {
    const data = folderForTest();
    writeFileSync(join(data, 'ways.yaml'), 'webhooks: []\n');
    const log = { info: () => {}, warn: () => {}, error: () => {} };
    const notices = (await startNotices({ data, log, say: () => {}, subscriptions: subscriptionsOf() }))!;
    onTestFinished(() => notices.stop());
    expect(notices.push).toBeUndefined();
    expect(existsSync(join(data, 'push.json'))).toBe(false);
    const site = await peopleSite({ notices: () => notices });
    expect((await site.ask('GET', '/api/notices/push')).body).toEqual({
      running: false,
      key: null,
      own: null,
    });
    const cookie = await site.person('12', []);
    const { status, body } = await turnOn(site, cookie, browserAt('https://push.example/1'));
    expect([status, body.trouble]).toEqual([409, 'Push is not set up here.']);
  });
});
