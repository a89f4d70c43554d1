import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { delayOf, Guesses, PATIENCE } from '../../../gateway/people/guesses.ts';
import { preparePeople } from '../../../gateway/people/schema.ts';
import { openDatabase } from '../../../gateway/tape/database.ts';
import { peopleSite } from './peopleSite.ts';

describe('wrong guesses', () => {
  it('of a code wait longer than those of a password, each twice as long as the one before', () => {
    const waits = (kind: keyof typeof PATIENCE, upTo: number) =>
      Array.from({ length: upTo }, (_, i) => delayOf(PATIENCE[kind], i + 1) / 1000);
    expect(waits('code', 10)).toEqual([0, 0, 60, 120, 240, 480, 960, 1920, 3600, 3600]);
    expect(waits('password', 9)).toEqual([0, 0, 0, 0, 10, 20, 40, 80, 160]);
    expect(delayOf(PATIENCE.code, 1e9)).toBe(3_600_000);
    expect(delayOf(PATIENCE.address, 1e9)).toBe(30_000);
  });

  it('hold off that number alone, for as long as it says, and the right code is not taken meanwhile', async () => {
    const { ask, person, clock } = await peopleSite();
    await person('17', ['operator']);
    await person('18', ['operator'], '593027');
    const begins = clock.second;
    const logIn = async (number: string, secret: string) => ask('POST', '/api/session', { number, secret });
    for (let i = 0; i < 3; i += 1) expect((await logIn('17', '480000')).status).toBe(403);
    const held = await logIn('17', '480216');
    expect(held.status).toBe(429);
    expect(held.body.trouble).toBe('This number is held off for 1 min 00 s.');
    expect((await logIn('18', '593027')).status).toBe(201);
    clock.second = begins + 59;
    expect((await logIn('17', '480216')).status).toBe(429);
    clock.second = begins + 60;
    expect((await logIn('17', '480001')).status).toBe(403);
    clock.second = begins + 60 + 119;
    expect((await logIn('17', '480216')).status).toBe(429);
    clock.second = begins + 60 + 120;
    expect((await logIn('17', '480216')).status).toBe(201);
    // it was right: what was wrong before is forgotten
    for (let i = 0; i < 2; i += 1) expect((await logIn('17', '480000')).status).toBe(403);
    expect((await logIn('17', '480216')).status).toBe(201);
  });

  it('of a code leave the password alone, so that nobody is locked out by others', async () => {
    const { ask, admin } = await peopleSite();
    await admin();
    for (let i = 0; i < 4; i += 1) await ask('POST', '/api/session', { number: '1', secret: '480000' });
    expect((await ask('POST', '/api/session', { number: '1', secret: '480000' })).status).toBe(429);
    expect((await ask('POST', '/api/session', { number: '1', secret: 'correct horse 9' })).status).toBe(201);
  });

  it('at a number that nobody has are held off in the same way', async () => {
    const { ask, person } = await peopleSite();
    await person('17', ['operator']);
    const statuses = async (number: string) => {
      const all: unknown[] = [];
      for (let i = 0; i < 5; i += 1)
        all.push(
          await ask('POST', '/api/session', { number, secret: '480000' }).then(({ status, body }) => [
            status,
            body,
          ]),
        );
      return all;
    };
    expect(await statuses('99')).toEqual(await statuses('17'));
  });

  it('many at once are not all taken: each counts before it is looked at', async () => {
    const { ask, person } = await peopleSite();
    await person('17', ['operator']);
    const all = await Promise.all(
      Array.from({ length: 12 }, (_, i) =>
        ask('POST', '/api/session', { number: '17', secret: String(480_300 + i) }),
      ),
    );
    expect(all.filter(({ status }) => status === 403)).toHaveLength(3);
    expect(all.filter(({ status }) => status === 429)).toHaveLength(9);
  });

  it('from one address hold it off at last, never for longer than half a minute', async () => {
    const { ask, person, clock } = await peopleSite();
    await person('17', ['operator']);
    for (let i = 0; i < 20; i += 1)
      await ask('POST', '/api/session', { number: String(100 + i), secret: '480000' });
    const held = await ask('POST', '/api/session', { number: '17', secret: '480216' });
    expect([held.status, held.body.trouble]).toEqual([429, 'Log-ins from this screen are held off for 5 s.']);
    clock.second += 5;
    expect((await ask('POST', '/api/session', { number: '17', secret: '480216' })).status).toBe(201);
  });

  it('at a number that is held off do not count against the address', async () => {
    const { ask, person } = await peopleSite();
    await person('17', ['operator']);
    await person('18', ['operator'], '593027');
    for (let i = 0; i < 60; i += 1) await ask('POST', '/api/session', { number: '17', secret: '480000' });
    expect((await ask('POST', '/api/session', { number: '18', secret: '593027' })).status).toBe(201);
  });

  it('are forgotten when an admin releases the number, or gives it another code', async () => {
    const { ask, admin, person, people } = await peopleSite();
    await person('17', ['operator']);
    const cookie = await admin();
    const hold = async () => {
      for (let i = 0; i < 3; i += 1) await ask('POST', '/api/session', { number: '17', secret: '480000' });
      return people.administration.all().find(({ number }) => number === '17')?.heldUntil;
    };
    expect(await hold()).toBeGreaterThan(0);
    expect((await ask('DELETE', '/api/people/17/held', undefined, { cookie })).status).toBe(200);
    expect((await ask('POST', '/api/session', { number: '17', secret: '480216' })).status).toBe(201);
    await hold();
    const { body } = await ask('POST', '/api/people/17/code', undefined, { cookie });
    expect((await ask('POST', '/api/session', { number: '17', secret: body.code })).status).toBe(201);
  });

  it('at the printed code are held off too', async () => {
    const { ask, people } = await peopleSite();
    const guess = (code: string) =>
      ask('POST', '/api/session/admin', { code, number: '1', secret: 'correct horse 9' });
    for (let i = 0; i < 5; i += 1) expect((await guess(`0000-0000-0000-000${i}`)).status).toBe(403);
    expect((await guess(people.firstCode!)).status).toBe(429);
  });
});

describe('the table of guesses', () => {
  function table() {
    const folder = mkdtempSync(join(tmpdir(), 'scoreline-guesses-'));
    const database = openDatabase(join(folder, 'people.sqlite'));
    preparePeople(database);
    database.exec('PRAGMA synchronous = OFF');
    onTestFinished(() => {
      database.close();
      rmSync(folder, { recursive: true });
    });
    return { guesses: new Guesses(database, 'salt'), database };
  }

  it('has room for so many strangers, and never drops a person for them', () => {
    const { guesses, database } = table();
    const person = { kind: 'code', who: '17', known: true } as const;
    const all = database.transaction(() => {
      for (let i = 0; i < 3; i += 1) guesses.begin(person, 0);
      for (let i = 0; i < 5200; i += 1) guesses.begin({ kind: 'code', who: `n${i}`, known: false }, 1 + i);
    });
    all();
    expect(guesses.size()).toBe(5001);
    expect(guesses.heldUntil(person, 1000)).toBe(60_000);
  });

  it('forgets after a day, and holds nobody off because a clock was set back', () => {
    const { guesses } = table();
    const person = { kind: 'code', who: '17', known: true } as const;
    const day = 24 * 3_600_000;
    for (let i = 0; i < 3; i += 1) guesses.begin(person, 10 * day);
    expect(guesses.heldUntil(person, 10 * day)).toBe(10 * day + 60_000);
    expect(guesses.heldUntil(person, 5 * day)).toBeUndefined();
    guesses.begin(person, 11 * day + 1);
    expect(guesses.heldUntil(person, 11 * day + 1)).toBeUndefined();
  });
});
