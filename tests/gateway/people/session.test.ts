import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { createEntrance } from '../../../gateway/tls/entrance.ts';
import { foreign } from '../api/web.ts';
import { PASSWORD, peopleSite } from './peopleSite.ts';

describe('logging in', () => {
  it('is needed for nothing while nobody has a number', async () => {
    const { ask } = await peopleSite();
    const { status, body } = await ask('GET', '/api/session');
    expect(status).toBe(200);
    expect(body).toMatchObject({ person: null, people: false });
    expect(body.may).toContain('sign');
    expect(body.may).not.toContain('people');
  });

  it('with the code that is printed first makes one admin, once, in any spelling of the code', async () => {
    const { ask, people } = await peopleSite();
    const code = people.firstCode!;
    expect(code).toMatch(/^([0-9A-HJKMNP-TV-Z]{4}-){3}[0-9A-HJKMNP-TV-Z]{4}$/);
    const typed = code.toLowerCase().replaceAll('-', ' ').replaceAll('0', 'o').replaceAll('1', 'l');
    const first = await ask('POST', '/api/session/admin', { code: typed, number: '1', secret: PASSWORD });
    expect(first.status).toBe(201);
    const me = await ask('GET', '/api/session', undefined, { cookie: first.cookie });
    expect(me.body).toMatchObject({ person: { number: '1', name: null, roles: ['admin'], by: 'password' } });
    const again = await ask('POST', '/api/session/admin', { code, number: '2', secret: PASSWORD });
    expect(again.status).toBe(403);
    expect(people.administration.all().map(({ number }) => number)).toEqual(['1']);
  });

  it('with a printed code works for a day, and the one printed later puts an end to the one before', async () => {
    const { ask, people, clock } = await peopleSite();
    const begins = clock.second;
    clock.second = begins + 24 * 3600;
    const body = { number: '1', secret: PASSWORD };
    expect((await ask('POST', '/api/session/admin', { ...body, code: people.firstCode })).status).toBe(403);
    const [earlier, later] = [people.newAdminCode(), people.newAdminCode()];
    expect((await ask('POST', '/api/session/admin', { ...body, code: earlier })).status).toBe(403);
    clock.second += 24 * 3600 - 1;
    expect((await ask('POST', '/api/session/admin', { ...body, code: later })).status).toBe(201);
  });

  it('an admin who lost the password gets in again by another printed code, and older log-ins end', async () => {
    const { ask, admin, people } = await peopleSite();
    const before = await admin();
    const code = people.newAdminCode();
    const { cookie } = await ask('POST', '/api/session/admin', {
      code,
      number: '1',
      secret: 'another horse',
    });
    expect((await ask('GET', '/api/people', undefined, { cookie })).status).toBe(200);
    expect((await ask('GET', '/api/people', undefined, { cookie: before })).status).toBe(403);
    expect((await ask('POST', '/api/session', { number: '1', secret: PASSWORD })).status).toBe(403);
  });

  it('the first admin needs a password that is worth the name', async () => {
    const { ask, people } = await peopleSite();
    for (const secret of ['48021648', 'short', 'aaaaaaaaaaaa', 'abcdefghijkl']) {
      const code = people.firstCode;
      const { status, body } = await ask('POST', '/api/session/admin', { code, number: '1', secret });
      expect(status, secret).toBe(409);
      expect(String(body.mend), secret).toMatch(/Choose/);
    }
  });

  it('puts the session into a cookie that no script and no other site gets at', async () => {
    const { ask, admin } = await peopleSite();
    await admin();
    const body = { number: '1', secret: PASSWORD };
    const plain = await ask('POST', '/api/session', body);
    expect(plain.setCookie).toMatch(/^scoreline_session=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/);
    const spoken = await ask('POST', '/api/session', body, { 'x-forwarded-proto': 'https' });
    expect(spoken.setCookie).not.toMatch(/Secure/);
  });

  it('puts it into a cookie that never goes out in the clear where the proxy says that it came by HTTPS', async () => {
    const entrance = createEntrance({ kind: 'proxy', proxies: [], clearText: false }, undefined);
    const { ask, admin } = await peopleSite({ entrance });
    await admin();
    const body = { number: '1', secret: PASSWORD };
    const proxied = await ask('POST', '/api/session', body, { 'x-forwarded-proto': 'https' });
    expect(proxied.setCookie).toMatch(/; Secure$/);
  });

  it('is kept by no browser and no proxy, and neither is the list of people', async () => {
    const site = await peopleSite();
    const cookie = await site.admin();
    for (const path of ['/api/session', '/api/people', '/api/people/settings'])
      for (const headers of [{ cookie }, {}])
        expect((await site.get(path, headers as Record<string, string>)).headers.get('cache-control')).toBe(
          'no-store',
        );
  });

  it('fails with the same words for a wrong code, an unknown number and one that is shut off', async () => {
    const { ask, admin, person } = await peopleSite();
    await person('17', ['operator']);
    await person('18', ['operator']);
    await ask('PATCH', '/api/people/18', { disabled: true }, { cookie: await admin() });
    const answers = [
      await ask('POST', '/api/session', { number: '17', secret: '480217' }),
      await ask('POST', '/api/session', { number: '99', secret: '480216' }),
      await ask('POST', '/api/session', { number: '18', secret: '480216' }),
      await ask('POST', '/api/session', { number: '17', secret: 'a password of none' }),
    ];
    for (const { status, body, cookie } of answers) {
      expect([status, cookie]).toEqual([403, '']);
      expect(body).toEqual(answers[0]!.body);
    }
  });

  it('gives another token each time, and ends the log-in that this browser had', async () => {
    const { ask, person, people } = await peopleSite();
    const cookie = await person('17', ['operator']);
    const other = await ask('POST', '/api/session', { number: '17', secret: '480216' }, { cookie });
    expect(other.cookie).not.toBe(cookie);
    expect(people.asker(cookie.split('=')[1]!)).toBeUndefined();
    expect(people.asker(other.cookie.split('=')[1]!)?.number).toBe('17');
  });

  it('ends by logging out: the token is nothing any more', async () => {
    const { ask, person } = await peopleSite();
    const cookie = await person('17', ['operator']);
    const out = await ask('DELETE', '/api/session', undefined, { cookie });
    expect(out.setCookie).toMatch(/^scoreline_session=; .*Max-Age=0$/);
    expect((await ask('GET', '/api/session', undefined, { cookie })).body.person).toBeNull();
    expect((await ask('DELETE', '/api/session')).status).toBe(200);
  });

  it('goes on over a restart, and its token is in no file', async () => {
    const data = mkdtempSync(join(tmpdir(), 'scoreline-people-'));
    onTestFinished(() => rmSync(data, { recursive: true }));
    const before = await peopleSite({ data });
    const cookie = await before.person('17', ['operator']);
    before.people.close();
    const after = await peopleSite({ data });
    expect(after.people.firstCode).toBeUndefined();
    const { body } = await after.ask('GET', '/api/session', undefined, { cookie });
    expect(body.person).toMatchObject({ number: '17' });
  });
});

describe('a log-in that goes on', () => {
  it('ends when it is left alone, sooner at a panel, and looking does not keep it', async () => {
    const { ask, person, clock } = await peopleSite();
    await person('17', ['operator']);
    const begins = clock.second;
    const desk = await ask('POST', '/api/session', { number: '17', secret: '480216' });
    const panel = await ask('POST', '/api/session', { number: '17', secret: '480216', place: 'panel' });
    const is = async (cookie: string) =>
      (await ask('GET', '/api/session', undefined, { cookie })).body.person !== null;
    clock.second = begins + 119;
    expect([await is(desk.cookie), await is(panel.cookie)]).toEqual([true, true]);
    clock.second = begins + 120;
    expect([await is(desk.cookie), await is(panel.cookie)]).toEqual([true, false]);
    clock.second = begins + 30 * 60 - 1;
    await ask('GET', '/api/lines', undefined, { cookie: desk.cookie });
    clock.second = begins + 30 * 60;
    expect(await is(desk.cookie)).toBe(false);
  });

  it('is kept by whoever is there, but never beyond its hours', async () => {
    const { ask, person, clock } = await peopleSite();
    const cookie = await person('17', ['operator']);
    const begins = clock.second;
    const here = async () => {
      await ask('POST', '/api/session/here', undefined, { cookie });
      return (await ask('GET', '/api/session', undefined, { cookie })).body.person !== null;
    };
    for (let minute = 20; minute < 600; minute += 20) {
      clock.second = begins + minute * 60;
      expect(await here(), `${minute} min`).toBe(true);
    }
    clock.second = begins + 36_000;
    expect(await here()).toBe(false);
  });

  it('does not outlive a clock that is set back to before it', async () => {
    const { ask, person, clock } = await peopleSite({ second: 10_000 });
    const cookie = await person('17', ['operator']);
    clock.second = 9_000;
    expect((await ask('GET', '/api/session', undefined, { cookie })).body.person).toBeNull();
  });

  it('ends as soon as its number is shut off, and its roles are those that it has now', async () => {
    const { ask, admin, person } = await peopleSite();
    const cookie = await person('17', ['operator', 'maintenance']);
    const me = async () =>
      (await ask('GET', '/api/session', undefined, { cookie })).body.person as { roles: string[] } | null;
    expect((await me())?.roles).toEqual(['operator', 'maintenance']);
    await ask('PATCH', '/api/people/17', { roles: ['viewer'] }, { cookie: await admin() });
    expect((await me())?.roles).toEqual(['viewer']);
    await ask('PATCH', '/api/people/17', { disabled: true }, { cookie: await admin() });
    expect(await me()).toBeNull();
    await ask('PATCH', '/api/people/17', { disabled: false }, { cookie: await admin() });
    expect(await me()).toBeNull();
  });

  it('there are ten of a person at most: the oldest ends', async () => {
    const { ask, person, people, clock } = await peopleSite();
    const oldest = await person('17', ['operator']);
    for (let i = 0; i < 10; i += 1) {
      clock.second += 1;
      await ask('POST', '/api/session', { number: '17', secret: '480216' });
    }
    expect(people.asker(oldest.split('=')[1]!)).toBeUndefined();
    expect(people.administration.all().find(({ number }) => number === '17')?.sessions).toBe(10);
  });
});

describe('a code or password of one’s own', () => {
  it('[AC4] has to be chosen before anything else where somebody else made the first one', async () => {
    const { ask, admin, enter } = await peopleSite();
    const { body } = await ask(
      'POST',
      '/api/people',
      { number: '17', roles: ['safety'] },
      { cookie: await admin() },
    );
    const { cookie } = await ask('POST', '/api/session', { number: '17', secret: body.code });
    const me = await ask('GET', '/api/session', undefined, { cookie });
    expect(me.body.person).toMatchObject({ mustChoose: true, roles: [], allRoles: ['safety'] });
    const tested = { kind: 'tested', device: 'panel', method: 'pressed', person: '17' };
    const refused = await enter(
      { id: 't-1', author: { kind: 'screen', screen: 'desk' }, ...tested },
      { cookie },
    );
    expect(refused.status).toBe(403);
    expect(((await refused.json()) as { trouble: string }).trouble).toMatch(/^Choose/);
    const own = await ask('PUT', '/api/session/secret', { secret: body.code, next: '480216' }, { cookie });
    expect(own.status).toBe(200);
    expect((await ask('GET', '/api/session', undefined, { cookie: own.cookie })).body.person).toMatchObject({
      mustChoose: false,
      roles: ['safety'],
    });
    // the first one is good for nothing any more
    expect((await ask('POST', '/api/session', { number: '17', secret: body.code })).status).toBe(403);
  });

  it('needs the one before, and every other log-in of the person ends', async () => {
    const { ask, person } = await peopleSite();
    const cookie = await person('17', ['operator']);
    const other = (await ask('POST', '/api/session', { number: '17', secret: '480216' })).cookie;
    const change = (secret: string, next: string) =>
      ask('PUT', '/api/session/secret', { secret, next }, { cookie });
    expect((await change('480999', '730164')).status).toBe(403);
    expect((await change('480216', '123456')).status).toBe(409);
    expect((await change('480216', '730164')).status).toBe(200);
    expect((await ask('GET', '/api/session', undefined, { cookie: other })).body.person).toBeNull();
    expect((await ask('POST', '/api/session', { number: '17', secret: '480216' })).status).toBe(403);
    expect((await ask('POST', '/api/session', { number: '17', secret: '730164' })).status).toBe(201);
  });

  it('[AC4] a code leads to no password that there is already, so to nothing that an admin may do', async () => {
    const { ask, admin } = await peopleSite();
    const cookie = await admin();
    const added = await ask('PUT', '/api/session/secret', { secret: PASSWORD, next: '480216' }, { cookie });
    expect(added.status).toBe(200);
    // who came by the password goes on by it
    expect((await ask('GET', '/api/people', undefined, { cookie: added.cookie })).status).toBe(200);
    const byCode = (await ask('POST', '/api/session', { number: '1', secret: '480216' })).cookie;
    expect((await ask('GET', '/api/people', undefined, { cookie: byCode })).status).toBe(403);
    const next = 'a horse of my own';
    const taken = await ask('PUT', '/api/session/secret', { secret: '480216', next }, { cookie: byCode });
    expect(taken.status).toBe(409);
    const byPassword = (await ask('POST', '/api/session', { number: '1', secret: PASSWORD })).cookie;
    expect((await ask('GET', '/api/people', undefined, { cookie: byPassword })).status).toBe(200);
  });

  it('is refused to whoever is not logged in', async () => {
    const { ask } = await peopleSite();
    const { status, body } = await ask('PUT', '/api/session/secret', { secret: 'a', next: 'b' });
    expect(status).toBe(403);
    expect(String(body.trouble)).not.toMatch(foreign);
  });
});
