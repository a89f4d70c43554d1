import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foreign } from '../api/web.ts';
import { peopleSite } from './peopleSite.ts';

const keys = [
  'number',
  'secret',
  'next',
  'code',
  'place',
  'roles',
  'name',
  'disabled',
  'closed',
  'idleMinutes',
];
const value = fc.oneof(
  fc.constantFrom('1', '17', '480216', 'correct horse 9', 'screen', 'panel', 'admin', '', ' ', '\0', '🙂7'),
  fc.jsonValue({ maxDepth: 2 }),
  fc.array(fc.constantFrom('admin', 'operator', 'god', '__proto__'), { maxLength: 8 }),
);
const shaped = fc.dictionary(fc.constantFrom(...keys, '__proto__', 'constructor', 'extra'), value, {
  maxKeys: 5,
});
const text = fc.oneof(
  { weight: 6, arbitrary: shaped.map((body) => JSON.stringify(body)) },
  { weight: 2, arbitrary: fc.jsonValue().map((body) => JSON.stringify(body)) },
  { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: 60 }) },
);
const number = fc.oneof(fc.constantFrom('17', '99', '%00', 'a b', '__proto__', 'settings'), fc.string());
const place = fc.oneof(
  fc.constantFrom(
    ['POST', '/api/session'],
    ['POST', '/api/session/admin'],
    ['PUT', '/api/session/secret'],
    ['POST', '/api/session/here'],
    ['POST', '/api/people'],
    ['PUT', '/api/people/settings'],
  ),
  fc
    .tuple(
      fc.constantFrom('PATCH', 'POST', 'DELETE'),
      number,
      fc.constantFrom('', '/code', '/held', '/sessions'),
    )
    .map(([method, of, what]) => [method, `/api/people/${encodeURIComponent(of)}${what}`]),
);
const cookie = fc.oneof(
  fc.constant('admin'),
  fc.string({ unit: 'grapheme-ascii', maxLength: 60 }).map((said) => `scoreline_session=${said.trim()}`),
);

describe('whatever is sent', () => {
  it('is answered: 10,000 bodies crash nothing, change nobody’s roles by accident, and tell no words of a library', async () => {
    const { ask, admin, person, logged, people } = await peopleSite();
    await person('17', ['operator']);
    const own = await admin();
    const one = fc.tuple(place, text, cookie);
    for (const batch of chunks(fc.sample(one, { numRuns: 10_000, seed: 3 }), 20)) {
      const answers = await Promise.all(
        batch.map(([[method, path], body, sent]) =>
          ask(method!, path!, body === '' ? undefined : body, { cookie: sent === 'admin' ? own : sent }),
        ),
      );
      for (const [i, { status, body }] of answers.entries()) {
        expect(status, JSON.stringify(batch[i])).toBeLessThan(500);
        if (status >= 400) expect(`${body.trouble} ${body.mend}`).not.toMatch(foreign);
      }
    }
    expect(logged).toEqual([]);
    const rows = people.administration.all();
    expect(rows.find((row) => row.number === '1')?.roles).toContain('admin');
    expect(({} as Record<string, unknown>).roles).toBeUndefined();
  });
});

function chunks<Item>(items: readonly Item[], size: number): Item[][] {
  return Array.from({ length: Math.ceil(items.length / size) }, (_, i) =>
    items.slice(i * size, (i + 1) * size),
  );
}
