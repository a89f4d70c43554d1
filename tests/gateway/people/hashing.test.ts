import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { HASH_COST, hashSecret, isOfOtherCost, isSecret } from '../../../gateway/people/hashing.ts';
import { openPeople } from '../../../gateway/people/people.ts';
import { openDatabase, statement } from '../../../gateway/tape/database.ts';
import { CHEAP } from '../api/web.ts';

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'scoreline-people-'));
  onTestFinished(() => rmSync(made, { recursive: true }));
  return made;
}

/** What is kept of a person's password. */
function kept(data: string): string {
  const database = openDatabase(join(data, 'people.sqlite'));
  const hash = statement<[], string>(database, "SELECT hash FROM secret WHERE kind = 'password'")
    .pluck()
    .get();
  database.close();
  return hash!;
}

describe('a hash', () => {
  it('states its parameters, has a salt of its own, and is right for its secret alone', async () => {
    const [one, other] = [await hashSecret('correct horse', CHEAP), await hashSecret('correct horse', CHEAP)];
    expect(one).toMatch(/^scrypt\$16\$1\$1\$[\w-]{22}\$[\w-]{43}$/);
    expect(one).not.toBe(other);
    expect(await isSecret('correct horse', one)).toBe(true);
    expect(await isSecret('correct horsf', one)).toBe(false);
    expect(await isSecret('', one)).toBe(false);
  });

  it('is that of RFC 7914 for its own example', async () => {
    // section 12, the second vector, of which the first 32 of 64 bytes are the same where 32 are asked for
    const salt = Buffer.from('NaCl').toString('base64url');
    const hash = Buffer.from(
      'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162',
      'hex',
    ).toString('base64url');
    expect(await isSecret('password', `scrypt$1024$8$16$${salt}$${hash}`)).toBe(true);
  });

  it('of the same characters put together otherwise is the same', async () => {
    expect(await isSecret('cafe\u0301 au lait', await hashSecret('caf\u00e9 au lait', CHEAP))).toBe(true);
  });

  it('takes 32 MiB and three rounds where nothing else is asked for', () => {
    expect(128 * HASH_COST.cost * HASH_COST.block).toBe(32 * 1024 * 1024);
    expect(HASH_COST.parallel).toBe(3);
  });

  it('of other parameters than those of now is made anew at the next log-in, and is right before and after', async () => {
    const data = folder();
    const before = openPeople(data, { now: () => 0, cost: CHEAP });
    const who = { number: '1', secret: 'correct horse', place: 'screen', address: '127.0.0.1' } as const;
    await before.logIn.asAdmin({ ...who, code: before.firstCode! });
    before.close();
    const dearer = { ...CHEAP, cost: 32 };
    expect(isOfOtherCost(kept(data), dearer)).toBe(true);
    const after = openPeople(data, { now: () => 0, cost: dearer });
    await expect(after.logIn.withSecret({ ...who, secret: 'wrong horses' })).rejects.toThrow();
    after.close();
    expect(isOfOtherCost(kept(data), dearer)).toBe(true);
    const again = openPeople(data, { now: () => 0, cost: dearer });
    await again.logIn.withSecret(who);
    await again.logIn.withSecret(who);
    again.close();
    expect(kept(data)).toMatch(/^scrypt\$32\$/);
  });
});

describe('a log-in', () => {
  it('takes as long for a number that nobody has as for one that somebody has', async () => {
    let moment = 0;
    // each try a day after the one before, so that none is held off
    const now = () => moment;
    const people = openPeople(folder(), { now, cost: { cost: 2 ** 13, block: 8, parallel: 1 } });
    onTestFinished(() => people.close());
    const who = { secret: 'correct horse', place: 'screen', address: '127.0.0.1' } as const;
    await people.logIn.asAdmin({ ...who, number: '1', code: people.firstCode! });
    await people.administration.add({ number: '2', roles: [] });
    people.administration.change('2', { disabled: true });
    const took = async (number: string) => {
      moment += 25 * 3_600_000;
      const began = performance.now();
      await expect(people.logIn.withSecret({ ...who, number, secret: 'wrong horses' })).rejects.toThrow();
      return performance.now() - began;
    };
    const times: Record<string, number[]> = { '1': [], '2': [], '99': [] };
    for (let i = 0; i < 21; i += 1)
      for (const number of Object.keys(times)) times[number]!.push(await took(number));
    const middle = (number: string) => times[number]!.toSorted((a, b) => a - b)[10]!;
    for (const number of ['2', '99']) {
      // without the work that is done for nobody it would be a hundredth
      expect(middle(number) / middle('1')).toBeGreaterThan(0.5);
      expect(middle(number) / middle('1')).toBeLessThan(2);
    }
  });

  it('that many wait for is refused with words beyond a bound, and those that wait come to an answer', async () => {
    const people = openPeople(folder(), { now: () => 0, cost: { cost: 2 ** 12, block: 8, parallel: 1 } });
    onTestFinished(() => people.close());
    const tries = Array.from({ length: 60 }, (_, i) =>
      people.logIn
        .withSecret({ number: `${i}`, secret: 'wrong horses', place: 'screen', address: `10.0.0.${i}` })
        .then(
          () => 'in',
          (error: Error) => error.message,
        ),
    );
    const told = await Promise.all(tries);
    expect(told.filter((one) => one === 'Too many log in at once.')).toHaveLength(28);
    expect(told.filter((one) => one === 'Number and code do not belong together.')).toHaveLength(32);
  });
});
