import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { type Notices, startNotices } from '../../../gateway/notices/notices.ts';
import { trialAnswer } from '../../../gateway/notices/trial.ts';
import { siteForTest } from '../api/web.ts';
import { peopleSite } from '../people/peopleSite.ts';
import { certificateFor } from './certificate.ts';
import { hookServer } from './hookServer.ts';
import { mailServer } from './mailServer.ts';

const certificate = certificateFor('127.0.0.1');
const PATH = '/api/lines/small/notices/trial';

/** A mail server and a receiver on loopback, and the ways to them. */
async function waysTo(
  pager: string,
): Promise<{ notices: Notices; mails: Awaited<ReturnType<typeof mailServer>>['mails'] }> {
  const data = mkdtempSync(join(tmpdir(), 'scoreline-trial-'));
  onTestFinished(() => rmSync(data, { recursive: true }));
  const server = await mailServer({ ...certificate, authOptional: true });
  writeFileSync(join(data, 'pager.secret'), 'not-a-real-key-but-long-enough-for-one', { mode: 0o600 });
  writeFileSync(join(data, 'plant.pem'), certificate.cert);
  writeFileSync(
    join(data, 'ways.yaml'),
    [
      `mail: { host: 127.0.0.1, port: ${server.port}, security: startTls, from: line3@plant.example }`,
      `webhooks: [{ id: pager, address: '${pager}', key: { file: pager.secret } }]`,
      'addresses: { 12: twelve@plant.example }',
      'trusted: plant.pem',
    ].join('\n'),
  );
  const log = { info: () => {}, warn: () => {}, error: () => {} };
  const notices = (await startNotices({ data, log, say: () => {} }))!;
  onTestFinished(() => notices.stop());
  return { notices, mails: server.mails };
}

async function sent(address: string, person: string, way: string) {
  const headers = { 'content-type': 'application/json' };
  const response = await fetch(`${address}${PATH}`, {
    ...{ method: 'POST', headers, body: JSON.stringify({ person, way }) },
  });
  return { status: response.status, body: (await response.json()) as Record<string, unknown> };
}

describe('a trial', () => {
  it('[NR5] goes out once by mail and by webhook, says that it is one, and what became of it', async () => {
    const receiver = await hookServer();
    const { notices, mails } = await waysTo(receiver.address);
    const { address, live, ...site } = await siteForTest({ notices: () => notices });
    const before = live.position();
    for (const way of ['mail', 'pager']) {
      const { status, body } = await sent(address, '12', way);
      expect([status, trialAnswer.parse(body)]).toMatchObject([
        200,
        { arrived: true, said: expect.stringMatching(/taken it/) },
      ]);
    }
    const [mail] = mails;
    expect(mail).toMatchObject({ to: ['twelve@plant.example'] });
    expect(mail!.text).toContain('Subject: Trial, ');
    expect(mail!.text.replaceAll('=\r\n', '')).toContain('Nothing has happened at the line');
    expect(mail!.text).not.toContain('until somebody takes it');
    expect(JSON.parse(receiver.heard[0]!.body)).toMatchObject({ trial: true, notice: 'trial', person: '12' });
    // no notice of it: not on the tape, and not in the outbox
    expect(live.position()).toBe(before);
    expect(notices.store.newest(10)).toEqual([]);
    expect(((await (await site.get('/api/lines/small/notices')).json()) as { open: unknown[] }).open).toEqual(
      [],
    );
  });

  it('[NR5] that does not arrive says why, and is not tried again', async () => {
    const receiver = await hookServer((response) => void response.writeHead(503).end());
    const { notices } = await waysTo(receiver.address);
    const { address } = await siteForTest({ notices: () => notices });
    expect((await sent(address, '12', 'pager')).body).toMatchObject({
      arrived: false,
      said: expect.stringMatching(/did not arrive/),
    });
    expect((await sent(address, '13', 'mail')).body).toMatchObject({
      arrived: false,
      said: expect.stringMatching(/No address is kept/),
    });
    expect((await sent(address, '12', 'dect')).body).toMatchObject({
      arrived: false,
      said: expect.stringMatching(/has no such way\.$/),
    });
    expect(receiver.heard).toHaveLength(1);
  });

  it('[NR5] of an open page says whether one would be heard, with no file of ways either', async () => {
    const { address, pages } = await siteForTest();
    expect((await sent(address, '12', 'page')).body).toMatchObject({
      arrived: false,
      said: expect.stringMatching(/No page/),
    });
    pages.sounds('one', () => '12', true);
    expect((await sent(address, '12', 'page')).body).toMatchObject({
      arrived: true,
      said: expect.stringMatching(/is open with sound/),
    });
  });

  it('[NR5] floods nobody', async () => {
    const receiver = await hookServer();
    const { notices } = await waysTo(receiver.address);
    const { address } = await siteForTest({ notices: () => notices });
    const statuses: number[] = [];
    for (let n = 0; n < 5; n += 1) statuses.push((await sent(address, '12', 'pager')).status);
    expect(statuses).toEqual([200, 200, 200, 429, 429]);
    expect(receiver.heard).toHaveLength(3);
    for (let n = 20; n < 30; n += 1) statuses.push((await sent(address, String(n), 'pager')).status);
    expect(statuses.slice(5).filter((status) => status === 200)).toHaveLength(7);
    expect((await sent(address, 'nobody', 'pager')).status).toBe(400);
  });

  it('[NR5] is for those who see to notices, and for each person to themselves; [NR1] not to who is shut off', async () => {
    const receiver = await hookServer();
    const { notices } = await waysTo(receiver.address);
    const site = await peopleSite({ notices: () => notices });
    const operator = await site.person('12', ['operator']);
    const to = (person: string, cookie: string) =>
      site.ask('POST', PATH, { person, way: 'pager' }, { cookie });
    expect((await to('12', '')).status).toBe(403);
    expect((await to('13', operator)).status).toBe(403);
    expect((await to('12', operator)).status).toBe(200);
    expect((await to('13', await site.admin())).status).toBe(200);
    await site.ask('PATCH', '/api/people/12', { disabled: true }, { cookie: await site.admin() });
    const refused = await to('12', await site.admin());
    expect([refused.status, refused.body.trouble]).toEqual([409, 'The access of number 12 has ended.']);
    expect(receiver.heard).toHaveLength(2);
  });
});
