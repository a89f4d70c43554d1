import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { z } from 'zod';
import {
  awaitNotices,
  type Notices,
  parcelOf,
  startNotices,
  waysWrongOf,
} from '../../../gateway/notices/notices.ts';
import { outboxAnswer, waysAnswer } from '../../../gateway/notices/noticesSchemas.ts';
import { siteForTest } from '../api/web.ts';
import { peopleSite } from '../people/peopleSite.ts';
import { certificateFor } from './certificate.ts';
import { hookServer } from './hookServer.ts';
import { mailServer } from './mailServer.ts';
import { AT, messageOf } from './parcels.ts';

const PASSWORD = 'not-a-real-password';
const KEY = 'not-a-real-key-but-long-enough-for-one';
const CEILING = { timeout: 240_000 };
const certificate = certificateFor('127.0.0.1');

function folderForTest(): string {
  const folder = mkdtempSync(join(tmpdir(), 'scoreline-notices-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  return folder;
}

function secretIn(folder: string, name: string, text: string): void {
  writeFileSync(join(folder, name), `${text}\n`, { mode: 0o600 });
}

/** The ways out with a mail server and a receiver on loopback, and all that is said and logged. */
async function opened({ pager, key = KEY }: { readonly pager: string; readonly key?: string }) {
  const data = folderForTest();
  const server = await mailServer({
    ...certificate,
    authOptional: false,
    onAuth: ({ password }, _session, done) => done(null, password === PASSWORD ? { user: 'line3' } : {}),
  });
  secretIn(data, 'mail.secret', PASSWORD);
  secretIn(data, 'pager.secret', key);
  writeFileSync(join(data, 'plant.pem'), certificate.cert);
  writeFileSync(
    join(data, 'ways.yaml'),
    [
      `mail: { host: 127.0.0.1, port: ${server.port}, security: startTls, from: line3@plant.example,`,
      '  logIn: { user: line3, password: { file: mail.secret } } }',
      `webhooks: [{ id: pager, address: '${pager}?box=7', key: { file: pager.secret } }]`,
      'addresses: { 12: twelve@plant.example }',
      'trusted: plant.pem',
    ].join('\n'),
  );
  const said: string[] = [];
  const say = (...what: unknown[]) => void said.push(JSON.stringify(what));
  const log = { info: say, warn: say, error: say };
  const notices = (await startNotices({ data, log, say }))!;
  onTestFinished(() => notices.stop());
  return { data, notices, said, mails: server.mails };
}

function offer({ outbox }: Notices, notice: string): void {
  const to = [
    { person: '12', way: 'mail' },
    { person: '12', way: 'pager' },
    { person: '13', way: 'mail' },
  ];
  outbox.offer(to.map((one) => parcelOf(messageOf(notice), one, AT)));
}

const ended = ({ store }: Notices) => {
  const { waiting, sending } = store.counts();
  return waiting + sending;
};

describe('the ways out for notices', () => {
  it('are not there without a file of ways, and make no file then', async () => {
    const data = folderForTest();
    const log = { info: () => {}, warn: () => {}, error: () => {} };
    expect(await startNotices({ data, log, say: () => {} })).toBeUndefined();
    expect(existsSync(join(data, 'outbox.sqlite'))).toBe(false);
    const { get } = await siteForTest();
    expect(await (await get('/api/notices/outbox')).json()).toEqual({
      running: false,
      counts: { waiting: 0, sending: 0, told: 0, dead: 0, withdrawn: 0 },
      letters: [],
    });
    expect(await (await get('/api/notices/ways')).json()).toMatchObject({
      running: false,
      mail: null,
      webhooks: [],
    });
  });

  it('[NR4] open as soon as a file of ways is put where none was, and an outbox that cannot be opened is said once', async () => {
    const receiver = await hookServer();
    const data = folderForTest();
    const said: string[] = [];
    const say = (...what: unknown[]) => void said.push(JSON.stringify(what));
    const waysOut = await awaitNotices({ data, log: { info: say, warn: say, error: say }, say });
    onTestFinished(() => waysOut.stop());
    const { notices, look } = waysOut;
    const site = await siteForTest({ notices });
    const ways = async () => (await site.get('/api/notices/ways')).json();
    await look();
    expect(notices()).toBeUndefined();
    expect(await ways()).toMatchObject({ running: false });
    secretIn(data, 'pager.secret', KEY);
    mkdirSync(join(data, 'outbox.sqlite'));
    writeFileSync(
      join(data, 'ways.yaml'),
      `webhooks: [{ id: pager, address: '${receiver.address}', key: { file: pager.secret } }]`,
    );
    await look();
    await look();
    expect(notices()).toBeUndefined();
    expect(said.filter((one) => one.includes('Notices cannot go out yet'))).toHaveLength(1);
    rmdirSync(join(data, 'outbox.sqlite'));
    await look();
    expect(await ways()).toMatchObject({ running: true, webhooks: [{ id: 'pager' }] });
    notices()!.outbox.offer([parcelOf(messageOf('n1'), { person: '12', way: 'pager' }, AT)]);
    await expect.poll(() => ended(notices()!), CEILING).toBe(0);
    expect(notices()!.store.counts()).toMatchObject({ told: 1 });
  });

  it('[NR4] sign nothing with a key that can be guessed, and say so before any notice goes out', async () => {
    const { address } = await hookServer();
    const { notices, said } = await opened({ pager: address, key: 'short' });
    const fault = { at: { line: 3 }, ways: ['pager'], what: 'The key of the webhook pager is too short.' };
    expect(notices.faults).toMatchObject([fault]);
    expect(said.join()).toContain('ways.yaml:3:');
    expect(said.join()).toContain('Notices go out by: mail');
  });

  it('[NR4] go on without a way that is wrong, tell it, and take it back once the file is mended', async () => {
    const receiver = await hookServer();
    const { data, notices, mails } = await opened({ pager: receiver.address });
    const right = readFileSync(join(data, 'ways.yaml'), 'utf8');
    writeFileSync(join(data, 'ways.yaml'), right.replace('id: pager, address', 'id: pager, adress'));
    await notices.readAgain();
    offer(notices, 'n1');
    await expect.poll(() => mails.length, CEILING).toBe(1);
    const waits = () => notices.store.newest(10).find(({ way }) => way === 'pager');
    await expect.poll(() => waits()?.why?.trouble, CEILING).toBe('wayWrong');
    expect(waits()?.state).toBe('waiting');
    const { get } = await siteForTest({ notices: () => notices });
    const shown = waysAnswer.parse(await (await get('/api/notices/ways')).json());
    expect(shown).toMatchObject({
      webhooks: [],
      faults: [{ line: 3, ways: ['pager'], what: expect.stringMatching(/pager is left out/) }],
      reach: { mail: ['12'], webhooks: [] },
    });
    expect(waysWrongOf(notices.faults)).toMatchObject({ line: 3, more: 0 });
    writeFileSync(join(data, 'ways.yaml'), right);
    await notices.readAgain();
    expect(notices.faults).toEqual([]);
    await expect.poll(() => waits()?.state, CEILING).toBe('told');
  });

  it('[NR4] give up no letter while the file cannot be read, and send it once it can', CEILING, async () => {
    const receiver = await hookServer();
    const { data, notices, mails } = await opened({ pager: receiver.address });
    const right = readFileSync(join(data, 'ways.yaml'), 'utf8');
    writeFileSync(join(data, 'ways.yaml'), `${right}\nport: [2599`);
    await notices.readAgain();
    offer(notices, 'n1');
    const states = () => notices.store.newest(10).map(({ state, why }) => `${state} ${why?.trouble}`);
    await expect.poll(states, CEILING).toEqual(Array(3).fill('waiting wayWrong'));
    writeFileSync(join(data, 'ways.yaml'), right);
    await notices.readAgain();
    await expect.poll(() => mails.length + receiver.heard.length, CEILING).toBe(2);
  });

  it('[NR4] stay as they are where the file is gone, and say so', async () => {
    const { address } = await hookServer();
    const { data, notices } = await opened({ pager: address });
    rmSync(join(data, 'ways.yaml'));
    await notices.readAgain();
    expect(notices.ways.webhooks).toHaveLength(1);
    expect(notices.faults).toMatchObject([{ what: 'The file of ways is no longer there.' }]);
  });

  it('tell a notice by mail and by webhook, and list what did not arrive with why', async () => {
    const receiver = await hookServer();
    const { notices, mails } = await opened({ pager: receiver.address });
    offer(notices, 'n1');
    await expect.poll(() => ended(notices), CEILING).toBe(0);
    expect(mails.map(({ to, encrypted }) => ({ to, encrypted }))).toEqual([
      { to: ['twelve@plant.example'], encrypted: true },
    ]);
    expect(receiver.heard).toHaveLength(1);
    const { get } = await siteForTest({ notices: () => notices });
    const answer = outboxAnswer.parse(await (await get('/api/notices/outbox')).json());
    expect(answer.counts).toEqual({ waiting: 0, sending: 0, told: 2, dead: 1, withdrawn: 0 });
    expect(answer.letters.map(({ person, way, state, tries }) => [person, way, state, tries])).toEqual([
      ['13', 'mail', 'dead', 1],
      ['12', 'pager', 'told', 1],
      ['12', 'mail', 'told', 1],
    ]);
    expect(answer.letters[0]!.why).toEqual({
      trouble: 'noAddress',
      words: 'No address is kept for this person and this way.',
    });
    const dead = outboxAnswer.parse(await (await get('/api/notices/outbox?state=dead&most=1')).json());
    expect(dead.letters).toEqual([answer.letters[0]]);
  });

  it('show and log no password, no key, no place of one, no path of a webhook and nobody’s address', async () => {
    const receiver = await hookServer((response) => void response.writeHead(500).end());
    const { data, notices, said } = await opened({ pager: receiver.address });
    offer(notices, 'n1');
    await expect.poll(() => notices.store.newest(1, 'dead').length, CEILING).toBe(1);
    await expect.poll(() => receiver.heard.length, CEILING).toBeGreaterThan(0);
    const { get } = await siteForTest({ notices: () => notices });
    const ways: unknown = await (await get('/api/notices/ways')).json();
    expect(waysAnswer.parse(ways)).toMatchObject({
      running: true,
      mail: { host: '127.0.0.1', security: 'startTls', logsIn: true },
      reach: { shutOff: [], pages: [], mail: ['12'], push: [], webhooks: ['pager'] },
      webhooks: [{ id: 'pager', origin: new URL(receiver.address).origin }],
      ownCertificates: true,
    });
    const outbox: unknown = await (await get('/api/notices/outbox')).json();
    const shown = JSON.stringify([ways, outbox, said]);
    for (const secret of [PASSWORD, KEY, 'mail.secret', data, '/calls', 'box=7', 'twelve@'])
      expect(shown).not.toContain(secret);
  });
});

describe('trying again over the interface', () => {
  it('tries one that was given up, and refuses anything else with words', async () => {
    let status = 400;
    const receiver = await hookServer((response) => void response.writeHead(status).end());
    const { notices } = await opened({ pager: receiver.address });
    const { address } = await siteForTest({ notices: () => notices });
    const again = (id: string, body = '{}', type = 'application/json') =>
      fetch(`${address}/api/notices/outbox/${id}/again`, {
        method: 'POST',
        headers: { 'content-type': type },
        body,
      });
    const one = parcelOf(messageOf('n1'), { person: '12', way: 'pager' }, AT);
    notices.outbox.offer([one]);
    await expect.poll(() => notices.store.find(one.id)?.state, CEILING).toBe('dead');
    for (const [body, type] of [
      ['{"now":true}', 'application/json'],
      ['{}', 'text/plain'],
      ['', 'application/x-www-form-urlencoded'],
    ] as const) {
      const refused = await again(one.id, body, type);
      expect(refused.status, type).toBe(400);
      expect(
        z.object({ ok: z.literal(false), why: z.string() }).safeParse(await refused.json()).success,
      ).toBe(true);
    }
    expect((await again('none')).status).toBe(404);
    status = 200;
    const taken = await again(one.id);
    expect([taken.status, await taken.json()]).toEqual([202, { ok: true }]);
    await expect.poll(() => notices.store.find(one.id)?.state, CEILING).toBe('told');
    const twice = await again(one.id);
    expect([twice.status, await twice.json()]).toEqual([
      409,
      {
        ok: false,
        trouble: 'This notice is not one that was given up.',
        why: 'It arrived, was taken back, or is still being tried.',
        mend: 'Nothing has to be done.',
      },
    ]);
    expect(receiver.heard).toHaveLength(2);
  });

  it('is for those who see to notices, once people have numbers', async () => {
    const receiver = await hookServer((response) => void response.writeHead(400).end());
    const { notices } = await opened({ pager: receiver.address });
    const one = parcelOf(messageOf('n1'), { person: '12', way: 'pager' }, AT);
    notices.outbox.offer([one]);
    await expect.poll(() => notices.store.find(one.id)?.state, CEILING).toBe('dead');
    const site = await peopleSite({ notices: () => notices });
    const cookies = ['', await site.person('12', ['operator']), await site.person('13', ['engineer'])];
    const statuses: number[] = [];
    for (const cookie of cookies) {
      const answer = await site.ask('POST', `/api/notices/outbox/${one.id}/again`, {}, { cookie });
      statuses.push(answer.status);
    }
    expect(statuses).toEqual([403, 403, 202]);
  });

  it('refuses questions that make no sense', async () => {
    const { get } = await siteForTest();
    for (const query of ['state=lost', 'most=0', 'most=501', 'most=a', 'more=1'])
      expect((await get(`/api/notices/outbox?${query}`)).status, query).toBe(400);
  });
});
