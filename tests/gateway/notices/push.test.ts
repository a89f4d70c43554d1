import { describe, expect, it } from 'vitest';
import { parcelOf } from '../../../gateway/notices/notices.ts';
import { AT, messageOf, parcel } from './parcels.ts';
import { browserAt, pushReceiver, vouched } from './pushReceiver.ts';
import { CEILING, SUBJECT, subscriptionsOf, sent, wholeSite, turnOn, through } from './pushSite.ts';

describe('web push', () => {
  it('brings a notice to the browser of its person, which alone can read it, through the outbox', async () => {
    const receiver = await pushReceiver();
    const { site, notices, said } = await wholeSite(receiver);
    const cookie = await site.person('12', ['maintenance']);
    const phone = receiver.browser('phone');
    expect((await turnOn(site, cookie, phone)).status).toBe(201);
    notices.outbox.offer([parcelOf(messageOf('n1'), { person: '12', way: 'push' }, AT)]);
    await expect.poll(() => through(notices), CEILING).toBe(0);
    expect(notices.store.counts().told).toBe(1);
    const [pushed] = receiver.pushed;
    expect(phone.read(pushed!)).toEqual({
      id: parcel('n1', 'push').id,
      title: 'Call, Line 3',
      body: 'Fold bottom flap jams more than it used to.',
      open: '/notices/n1',
      level: 'call',
    });
    expect(pushed!.body.includes('jams')).toBe(false);
    const { ttl, urgency, topic } = pushed!.headers;
    expect([ttl, urgency, topic]).toEqual(['14400', 'high', parcel('n1', 'push').id]);
    const { claims, key } = vouched(pushed!);
    expect(claims).toMatchObject({ aud: receiver.origin, sub: SUBJECT });
    expect(key).toBe((await site.ask('GET', '/api/notices/push')).body.key);
    expect(said.join(' ')).toContain('it needs the internet here and on each phone, and HTTPS');
  });

  it('tells as soon as one browser has it, and forgets those that have given it up', async () => {
    for (const status of [404, 410]) {
      const receiver = await pushReceiver(
        (response, { path }) => void response.writeHead(path.endsWith('old') ? status : 201).end(),
      );
      const [old, phone] = [receiver.browser('old'), receiver.browser('phone')];
      const subscriptions = subscriptionsOf(old, phone);
      expect(await sent(receiver, subscriptions)).toEqual({ kind: 'told' });
      expect(subscriptions.dropped).toEqual([old.subscription.endpoint]);
      expect(receiver.pushed).toHaveLength(2);
    }
  });

  it('reaches nobody where the last browser is gone, or none was there, and says so for good', async () => {
    const receiver = await pushReceiver((response) => void response.writeHead(410).end());
    const nobody = { kind: 'failed', lasting: true, why: { trouble: 'noAddress' } };
    expect(await sent(receiver, subscriptionsOf(receiver.browser('old')))).toEqual(nobody);
    expect(await sent(receiver, subscriptionsOf())).toEqual(nobody);
  });

  it.each([
    [429, { kind: 'failed', lasting: false, why: { trouble: 'notNow', code: '429' }, waitMs: 120_000 }],
    [500, { kind: 'failed', lasting: false, why: { trouble: 'notNow', code: '500' } }],
    [403, { kind: 'failed', lasting: false, why: { trouble: 'logIn', code: '403' } }],
    [413, { kind: 'failed', lasting: true, why: { trouble: 'refused', code: '413' } }],
    [301, { kind: 'failed', lasting: true, why: { trouble: 'elsewhere', code: '301' } }],
  ])(
    'that the service answers by %s is tried again, or not, and the browser stays',
    async (status, outcome) => {
      const receiver = await pushReceiver(
        (response) => void response.writeHead(status, status === 429 ? { 'retry-after': '120' } : {}).end(),
      );
      const subscriptions = subscriptionsOf(receiver.browser('phone'));
      expect(await sent(receiver, subscriptions)).toEqual(outcome);
      expect(subscriptions.dropped).toEqual([]);
    },
  );

  it('goes to nobody whose certificate is not trusted, and to no service that was not named', async () => {
    const receiver = await pushReceiver();
    const phone = receiver.browser('phone');
    const { pushed } = await pushReceiver();
    expect(await sent({ ...receiver, cert: '' }, subscriptionsOf(phone))).toMatchObject({
      why: { trouble: 'certificate' },
    });
    const elsewhere = browserAt(phone.subscription.endpoint.replace('localhost', '127.0.0.1'));
    expect(await sent(receiver, subscriptionsOf(elsewhere))).toMatchObject({ why: { trouble: 'noAddress' } });
    expect(pushed).toEqual([]);
  });

  it('is urgent on the way where the notice is, and a note is not', async () => {
    const receiver = await pushReceiver();
    const subscriptions = subscriptionsOf(receiver.browser('phone'));
    await sent(receiver, subscriptions, 'note');
    await sent(receiver, subscriptions, 'urgent');
    expect(receiver.pushed.map(({ headers }) => headers.urgency)).toEqual(['normal', 'high']);
  });
});
