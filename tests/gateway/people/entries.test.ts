import { io, type Socket } from 'socket.io-client';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { Entry } from '../../../model/entries/entries.ts';
import type { ClientToServer, EntryAnswer, ServerToClient } from '../../../model/view/protocol.ts';
import { line } from '../api/web.ts';
import { type PeopleSite, peopleSite } from './peopleSite.ts';

const DESK = { kind: 'screen', screen: 'desk' };
const FRONT = { kind: 'position', position: 'front' };
const NOTE = { kind: 'note', words: 'guide rattles' };
const TEST = { kind: 'tested', device: 'panel', method: 'pressed while it stood', person: '17' };

/** The newest entry on the tape. */
async function newest({ tape }: PeopleSite): Promise<Entry> {
  const end = tape.end(line.id);
  let found: unknown;
  for await (const changes of tape.read(line.id, end - 1, end))
    for (const { value } of changes) found = value;
  return JSON.parse(String(found)) as Entry;
}

let made = 0;
async function enters(site: PeopleSite, author: object, body: object, cookie?: string) {
  made += 1;
  const entry = { id: `e-${made}`, author, ...body };
  const answer = await site.enter(entry, cookie === undefined ? {} : { cookie });
  return { status: answer.status, body: (await answer.json()) as Record<string, unknown> };
}

describe('an entry', () => {
  it('of who is logged in at a desk bears the number, and the tape no name', async () => {
    const site = await peopleSite();
    const cookie = await site.person('17', ['operator']);
    await site.ask('PATCH', '/api/people/17', { name: 'Erasable Example' }, { cookie: await site.admin() });
    expect((await enters(site, DESK, NOTE, cookie)).status).toBe(201);
    const entry = await newest(site);
    expect(entry).toMatchObject({ ...NOTE, author: { kind: 'person', number: '17' } });
    expect(JSON.stringify(entry)).not.toContain('Example');
  });

  it('of nobody stays as it was: under its position or screen', async () => {
    const site = await peopleSite();
    await site.person('17', ['operator']);
    for (const author of [DESK, FRONT]) {
      expect((await enters(site, author, NOTE)).status).toBe(201);
      expect((await newest(site)).author).toEqual(author);
    }
  });

  it('that a panel may make by itself stands under its position, also where somebody forgot to log out', async () => {
    const site = await peopleSite();
    const cookie = await site.person('17', ['operator']);
    await enters(site, FRONT, NOTE, cookie);
    expect((await newest(site)).author).toEqual(FRONT);
    await enters(site, FRONT, TEST, cookie);
    expect((await newest(site)).author).toEqual({ kind: 'person', number: '17' });
  });

  it('[AC3] that bears a number needs the log-in of that number, once there is anybody', async () => {
    const site = await peopleSite();
    expect((await enters(site, DESK, TEST)).status).toBe(201);
    const cookie = await site.person('17', ['operator']);
    for (const author of [DESK, FRONT]) {
      const { status, body } = await enters(site, author, TEST);
      expect([status, body.trouble]).toEqual([403, 'To record a test, log in.']);
    }
    const own = await enters(site, DESK, TEST, cookie);
    expect(own.status).toBe(201);
    const others = await enters(site, DESK, { ...TEST, person: '18' }, cookie);
    expect([others.status, others.body.trouble]).toEqual([
      403,
      'You are logged in as 17, and this is for number 18.',
    ]);
    const viewer = await site.person('20', ['viewer']);
    const refused = await enters(site, DESK, { ...TEST, person: '20' }, viewer);
    expect([refused.status, refused.body.trouble]).toEqual([403, 'Your number may not record a test.']);
  });

  it('that was meant to bear a number is not recorded without it when the log-in has ended', async () => {
    const site = await peopleSite();
    const cookie = await site.person('17', ['operator']);
    const before = site.tape.end(line.id);
    const asPerson = { kind: 'person', number: '17' };
    await site.ask('DELETE', '/api/session', undefined, { cookie });
    for (const one of [cookie, undefined]) {
      const { status, body } = await enters(site, asPerson, NOTE, one);
      expect([status, body.trouble]).toEqual([400, 'Number 17 is not logged in any more.']);
    }
    const other = await site.person('18', ['operator']);
    expect((await enters(site, asPerson, NOTE, other)).status).toBe(400);
    expect(site.tape.end(line.id)).toBe(before);
  });

  it('of a desk needs a log-in where an admin said so, and one of a panel does not', async () => {
    const site = await peopleSite();
    const cookie = await site.person('17', ['operator']);
    const admin = await site.admin();
    const settings = (await site.ask('GET', '/api/people/settings', undefined, { cookie: admin })).body;
    await site.ask('PUT', '/api/people/settings', { ...settings, closed: true }, { cookie: admin });
    expect((await enters(site, DESK, NOTE)).status).toBe(403);
    expect((await enters(site, FRONT, NOTE)).status).toBe(201);
    expect((await enters(site, DESK, NOTE, cookie)).status).toBe(201);
    expect((await site.ask('GET', `/api/lines/${line.id}/view`)).status).toBe(200);
  });

  it('of a report’s signature is made by one’s own number', async () => {
    const site = await peopleSite();
    const path = `/api/lines/${line.id}/past/report?kind=shift`;
    const signing = { id: 's-1', person: '17', as: 'handsOver', read: 'mark' };
    const running = await site.ask('POST', path, signing);
    expect(running.status).not.toBe(403);
    const cookie = await site.person('17', ['operator']);
    expect((await site.ask('POST', path, signing)).body.trouble).toBe('To sign a report, log in.');
    expect((await site.ask('POST', path, { ...signing, person: '18' }, { cookie })).status).toBe(403);
    expect((await site.ask('POST', path, signing, { cookie })).status).toBe(running.status);
  });

  it('is refused to a page of another site, and so is everything else that changes something', async () => {
    const site = await peopleSite();
    const cookie = await site.person('17', ['operator']);
    const foreign = { cookie, origin: 'http://elsewhere.example' };
    const paths: readonly (readonly [string, string])[] = [
      ['POST', `/api/lines/${line.id}/entries`],
      ['POST', `/api/lines/${line.id}/past/cancel`],
      ['POST', '/api/session'],
      ['DELETE', '/api/session'],
      ['PUT', '/api/session/secret'],
      ['PATCH', '/api/people/17'],
    ];
    for (const [method, path] of paths) {
      const { status, body } = await site.ask(method, path, {}, foreign);
      expect([status, body.trouble], path).toEqual([403, 'This was sent by a page of another site.']);
    }
    const own = await site.ask('DELETE', '/api/session', undefined, { cookie, origin: site.address });
    expect(own.status).toBe(200);
  });
});

describe('a screen’s socket', () => {
  it('enters under the number that was logged in when it connected, until that log-in ends', async () => {
    const site = await peopleSite();
    const cookie = await site.person('17', ['operator']);
    const socket: Socket<ServerToClient, ClientToServer> = io(site.address, {
      transports: ['websocket'],
      extraHeaders: { cookie },
      reconnection: false,
    });
    onTestFinished(() => void socket.disconnect());
    const enter = (body: object, author: object = DESK) =>
      new Promise<EntryAnswer>((resolve) => {
        made += 1;
        const entry = { id: `e-${made}`, author, ...body };
        socket.emit('enter', { line: line.id, entry } as never, resolve);
      });
    expect(await enter(NOTE)).toMatchObject({ ok: true });
    expect((await newest(site)).author).toEqual({ kind: 'person', number: '17' });
    expect(await enter(TEST)).toMatchObject({ ok: true });
    await site.ask('DELETE', '/api/session', undefined, { cookie });
    expect(await enter(TEST)).toMatchObject({ ok: false, trouble: 'To record a test, log in.' });
    expect(await enter(NOTE, { kind: 'person', number: '17' })).toMatchObject({
      ok: false,
      trouble: 'Number 17 is not logged in any more.',
    });
  });
});
