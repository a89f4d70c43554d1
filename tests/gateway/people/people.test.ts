import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openPeople } from '../../../gateway/people/people.ts';
import { openDatabase } from '../../../gateway/tape/database.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { CHEAP } from '../api/web.ts';
import { PASSWORD, peopleSite } from './peopleSite.ts';

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'scoreline-people-'));
  onTestFinished(() => rmSync(made, { recursive: true }));
  return made;
}

/** Files of a folder in which these bytes stand. */
function filesWith(data: string, text: string): string[] {
  return readdirSync(data).filter((file) => readFileSync(join(data, file)).includes(text));
}

describe('an admin', () => {
  it('gives a number with roles and a code that is told once', async () => {
    const { ask, admin } = await peopleSite();
    const cookie = await admin();
    const roles = ['operator', 'maintenance'];
    const given = await ask('POST', '/api/people', { number: '17', roles, name: 'A. Example' }, { cookie });
    expect(given.status).toBe(201);
    expect(given.body.code).toMatch(/^\d{8}$/);
    const { body } = await ask('GET', '/api/people', undefined, { cookie });
    expect(body).toMatchObject([
      { number: '1', name: null, roles: ['admin'], secrets: ['password'], provisional: false, sessions: 1 },
      { number: '17', name: 'A. Example', roles, secrets: ['code'], provisional: true, sessions: 0 },
    ]);
    expect(JSON.stringify(body)).not.toContain(String(given.body.code));
  });

  it('gives no number twice, also not one that is shut off', async () => {
    const { ask, admin, person } = await peopleSite();
    await person('17', ['operator']);
    const cookie = await admin();
    await ask('PATCH', '/api/people/17', { disabled: true }, { cookie });
    const again = await ask('POST', '/api/people', { number: '17', roles: [] }, { cookie });
    expect([again.status, again.body.trouble]).toEqual([409, 'The number 17 is given already.']);
  });

  it('who is the only one stays one, so that somebody can let others in', async () => {
    const { ask, admin, person } = await peopleSite();
    const cookie = await admin();
    // a second one without a password cannot act as one
    await person('17', ['admin']);
    const changes = [{ roles: ['operator'] }, { disabled: true }];
    for (const change of changes)
      expect((await ask('PATCH', '/api/people/1', change, { cookie })).status).toBe(409);
    expect((await ask('POST', '/api/people/1/code', undefined, { cookie })).status).toBe(409);
    const byCode = (await ask('POST', '/api/session', { number: '17', secret: '480216' })).cookie;
    const own = { secret: '480216', next: PASSWORD };
    await ask('PUT', '/api/session/secret', own, { cookie: byCode });
    expect((await ask('PATCH', '/api/people/1', changes[0], { cookie })).status).toBe(200);
    // and is none from then on
    expect((await ask('PATCH', '/api/people/1', changes[1], { cookie })).status).toBe(403);
  });

  it('ends log-ins, and a new code ends them as well', async () => {
    const { ask, admin, person } = await peopleSite();
    const cookie = await admin();
    const first = await person('17', ['operator']);
    const is = async (one: string) =>
      (await ask('GET', '/api/session', undefined, { cookie: one })).body.person !== null;
    expect((await ask('DELETE', '/api/people/17/sessions', undefined, { cookie })).status).toBe(200);
    expect(await is(first)).toBe(false);
    const second = (await ask('POST', '/api/session', { number: '17', secret: '480216' })).cookie;
    expect((await ask('POST', '/api/people/17/code', undefined, { cookie })).status).toBe(201);
    expect(await is(second)).toBe(false);
    expect((await ask('POST', '/api/session', { number: '17', secret: '480216' })).status).toBe(403);
  });

  it('sets how long log-ins last, within bounds', async () => {
    const { ask, admin, person, clock } = await peopleSite();
    const cookie = await admin();
    const set = (change: object) =>
      ask(
        'PUT',
        '/api/people/settings',
        { closed: false, idleMinutes: 30, panelIdleMinutes: 2, hoursMost: 10, namesKeptDays: 90, ...change },
        { cookie },
      );
    expect((await set({ idleMinutes: 0 })).status).toBe(400);
    expect((await set({ hoursMost: 1000 })).status).toBe(400);
    expect((await set({ namesKeptDays: -1 })).status).toBe(400);
    expect((await set({ idleMinutes: 5 })).status).toBe(200);
    expect((await ask('GET', '/api/people/settings', undefined, { cookie })).body.idleMinutes).toBe(5);
    const operator = await person('17', ['operator']);
    clock.second += 5 * 60;
    expect((await ask('GET', '/api/session', undefined, { cookie: operator })).body.person).toBeNull();
  });

  it('is nobody but an admin: everything of people is refused to all others', async () => {
    const { ask, admin, person } = await peopleSite();
    await admin();
    const cookies: (string | undefined)[] = [undefined];
    for (const role of ['viewer', 'operator', 'maintenance', 'engineer', 'safety'])
      cookies.push(await person(`${cookies.length + 20}`, [role]));
    const asked: readonly (readonly [string, string, object?])[] = [
      ['GET', '/api/people'],
      ['POST', '/api/people', { number: '99', roles: ['admin'] }],
      ['GET', '/api/people/settings'],
      ['PUT', '/api/people/settings', {}],
      ['PATCH', '/api/people/1', { disabled: true }],
      ['POST', '/api/people/1/code'],
      ['DELETE', '/api/people/1/name'],
      ['DELETE', '/api/people/1/sessions'],
      ['DELETE', '/api/people/1/held'],
    ];
    for (const cookie of cookies)
      for (const [method, path, body] of asked) {
        const { status } = await ask(method, path, body, cookie === undefined ? {} : { cookie });
        expect(status, `${method} ${path}`).toBe(403);
      }
  });

  it('is told in words where there is no such number', async () => {
    const { ask, admin } = await peopleSite();
    const cookie = await admin();
    for (const [method, path] of [
      ['PATCH', '/api/people/99'],
      ['POST', '/api/people/99/code'],
      ['DELETE', '/api/people/99/name'],
      ['DELETE', '/api/people/99/sessions'],
      ['DELETE', '/api/people/99/held'],
    ] as const) {
      const { status, body } = await ask(method, path, method === 'PATCH' ? {} : undefined, { cookie });
      expect([status, body.trouble], path).toEqual([404, 'Nobody has the number 99 here.']);
    }
  });
});

describe('a name', () => {
  it('is told to an admin and to the person alone', async () => {
    const { ask, admin, person } = await peopleSite();
    const own = await person('17', ['operator']);
    const other = await person('18', ['engineer']);
    await ask('PATCH', '/api/people/17', { name: 'A. Example' }, { cookie: await admin() });
    const me = await ask('GET', '/api/session', undefined, { cookie: own });
    expect(me.body.person).toMatchObject({ number: '17', name: 'A. Example' });
    const theirs = await ask('GET', '/api/session', undefined, { cookie: other });
    expect(JSON.stringify(theirs.body)).not.toContain('Example');
  });

  it('that is erased, or given anew, is in no file of the folder any more, and its number stays', async () => {
    const data = folder();
    const { ask, admin, person, people } = await peopleSite({ data });
    const cookie = await admin();
    await person('17', ['operator']);
    const names = Array.from({ length: 120 }, (_, i) => `Erasable${i}.${'x'.repeat(i % 60)}.Example`);
    for (const [i, name] of names.entries())
      await people.administration.add({ number: `${1000 + i}`, roles: ['viewer'], name });
    await ask('PATCH', '/api/people/17', { name: 'Erasable-of-17' }, { cookie });
    expect(filesWith(data, 'Erasable119.')).toEqual(['people.sqlite']);
    for (let i = 0; i < 120; i += 2) people.administration.eraseName(`${1000 + i}`);
    await ask('PATCH', '/api/people/17', { name: 'Another' }, { cookie });
    for (let i = 0; i < 120; i += 1)
      expect(filesWith(data, `Erasable${i}.`), names[i]).toEqual(i % 2 === 0 ? [] : ['people.sqlite']);
    expect(filesWith(data, 'Erasable-of-17')).toEqual([]);
    expect((await ask('DELETE', '/api/people/17/name', undefined, { cookie })).status).toBe(200);
    expect(filesWith(data, 'Another')).toEqual([]);
    expect(people.administration.all().find(({ number }) => number === '17')).toMatchObject({
      name: null,
      roles: ['operator'],
      secrets: ['code'],
    });
    expect(readdirSync(data).filter((file) => file.startsWith('people'))).toEqual(['people.sqlite']);
  });
});

describe('the file of the people', () => {
  it('holds no secret, no code and no token, and only its user reads it', async () => {
    const data = folder();
    const { person, people } = await peopleSite({ data });
    const code = people.firstCode!;
    const cookie = await person('17', ['operator'], 'a very own password');
    for (const text of [
      'a very own password',
      PASSWORD,
      code,
      code.replaceAll('-', ''),
      cookie.split('=')[1]!,
    ])
      expect(filesWith(data, text)).toEqual([]);
    expect(statSync(join(data, 'people.sqlite')).mode & 0o777).toBe(0o600);
  });

  it('of another program, of a newer version, or damaged, is told in words and left as it is', () => {
    const told = (data: string) => {
      try {
        openPeople(data, { now: () => 0, cost: CHEAP }).close();
        return undefined;
      } catch (error) {
        return error;
      }
    };
    const foreign = folder();
    const other = openDatabase(join(foreign, 'people.sqlite'));
    other.exec('CREATE TABLE t (a)');
    other.close();
    const newer = folder();
    expect(told(newer)).toBeUndefined();
    const later = openDatabase(join(newer, 'people.sqlite'));
    later.exec('PRAGMA user_version = 9');
    later.close();
    const damaged = folder();
    writeFileSync(join(damaged, 'people.sqlite'), 'x'.repeat(10_000));
    const none = join(folder(), 'none');
    mkdirSync(join(none, 'people.sqlite'), { recursive: true });
    for (const data of [foreign, newer, damaged, none]) {
      const error = told(data);
      expect(error, data).toBeInstanceOf(LineError);
      expect((error as LineError).mend).toMatch(/\.$/);
    }
  });

  it('keeps who is shut off, and a setting, over a restart', async () => {
    const data = folder();
    const first = openPeople(data, { now: () => 1000, cost: CHEAP });
    await first.administration.add({ number: '17', roles: ['operator'] });
    first.administration.change('17', { disabled: true });
    expect([...first.shutOff()]).toEqual(['17']);
    first.administration.set({
      closed: true,
      idleMinutes: 7,
      panelIdleMinutes: 3,
      hoursMost: 4,
      namesKeptDays: 0,
    });
    first.close();
    const second = openPeople(data, { now: () => 2000, cost: CHEAP });
    expect(second.administration.all()).toMatchObject([{ number: '17', created: 1000, disabled: 1000 }]);
    expect([...second.shutOff()]).toEqual(['17']);
    expect(second.administration.settings()).toEqual({
      closed: true,
      idleMinutes: 7,
      panelIdleMinutes: 3,
      hoursMost: 4,
      namesKeptDays: 0,
    });
    expect(second.plant()).toEqual({ people: false, closed: true });
    expect(second.firstCode).toBeUndefined();
    second.close();
  });
});
