import { rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { troubleAnswer } from '../../../gateway/api/schemas.ts';
import { at, goods, running } from '../../model/smallLine.ts';
import { msAt } from '../live/shell.ts';
import { foreign, row, sent, siteForTest } from './web.ts';

const author = { kind: 'position', position: 'front' };
const onTape = running().length + goods(1, 20, 1).length;

describe('the interface for programs', () => {
  it('/healthz says how old the data is and how many cartons are good, and when nobody is heard', async () => {
    const { get, clock } = await siteForTest();
    expect(await (await get('/healthz')).json()).toEqual({
      status: 'ok',
      lines: [{ id: 'small', dataAgeMs: 0, goodCartons: 20 }],
    });
    clock.second += 61;
    expect(await (await get('/healthz')).json()).toMatchObject({
      status: 'notHeard',
      lines: [{ dataAgeMs: 61_000 }],
    });
  });

  it('[TP5] tells what of the tape cannot be read: how much in /healthz, and where, when and what to do', async () => {
    const damage = { positions: { from: 600, to: 1200 }, at: { from: at(1), to: at(5) } };
    const { get } = await siteForTest({ through: (tape) => ({ ...tape, damages: () => [damage] }) });
    expect(await (await get('/healthz')).json()).toMatchObject({ status: 'ok', lines: [{ unread: 1 }] });
    const rows = (await (await get('/api/lines/small/unread')).json()) as unknown[];
    expect(rows).toEqual([
      {
        from: 600,
        to: 1200,
        at: { from: msAt(1), to: msAt(5) },
        trouble: {
          what: 'The tape of small is damaged between changes 600 and 1,200.',
          why: expect.any(String) as string,
          mend: expect.stringContaining('the time between is unknown') as string,
        },
      },
    ]);
  });

  it('tells the lines, the view, the orders and the signals', async () => {
    const { get, live } = await siteForTest();
    expect(await (await get('/api/lines')).json()).toEqual([
      { id: 'small', name: 'Small line', product: 'tea sachets' },
    ]);
    const view = (await (await get('/api/lines/small/view')).json()) as { plan: { good: number } };
    expect(view).toEqual(JSON.parse(JSON.stringify(live.view())));
    expect(view.plan.good).toBe(20);
    expect(await (await get('/api/lines/small/orders')).json()).toEqual([]);
    expect(await (await get('/api/lines/small/signals')).json()).toEqual([row]);
    expect(await (await get('/api/lines/small/servers')).json()).toMatchObject([{ id: 'plc', up: false }]);
  });

  it('tells changes of the tape by position, and where it ends', async () => {
    const { get } = await siteForTest();
    const answer = await (await get(`/api/lines/small/changes?from=${onTape - 1}&to=${onTape + 50}`)).json();
    expect(answer).toEqual({
      from: onTape - 1,
      to: onTape,
      end: onTape,
      changes: [{ signal: 'good', at: msAt(20), ticks: at(20), received: msAt(20), status: 0, value: 20 }],
    });
    const beyond = await (await get(`/api/lines/small/changes?from=${onTape + 5}`)).json();
    expect(beyond).toEqual({ from: onTape + 5, to: onTape + 5, end: onTape, changes: [] });
  });

  it.each(['from=-1', 'from=a', 'from=5&to=4', 'from=0&to=10001', 'from=1.5', 'from=1&from=2'])(
    'refuses a stretch of the tape that makes no sense: %s',
    async (query) => {
      const response = await (await siteForTest()).get(`/api/lines/small/changes?${query}`);
      expect(response.status).toBe(400);
      expect(await response.json()).toMatchObject({
        ok: false,
        trouble: 'The question was not understood.',
        why: expect.stringMatching(/./),
        mend: expect.stringMatching(/./),
      });
    },
  );

  it('says what is not there: a line, a path, a page of the dashboard', async () => {
    const { get } = await siteForTest();
    for (const path of ['/api/lines/other/view', '/api/lines/constructor/view', '/api/nothing']) {
      const response = await get(path);
      expect(response.status, path).toBe(404);
      expect(await response.json()).toMatchObject({ ok: false, trouble: expect.stringMatching(/no/i) });
    }
  });

  it('gives the dashboard at every other address, with headers that let nothing foreign in', async () => {
    const { get } = await siteForTest();
    for (const path of ['/', '/wall', '/panel/front']) {
      const response = await get(path);
      expect(response.status, path).toBe(200);
      expect(await response.text()).toContain('<title>Scoreline</title>');
      const policy = response.headers.get('content-security-policy') ?? '';
      expect(policy).toContain("script-src 'self'");
      expect(/script-src[^;]*unsafe/.test(policy)).toBe(false);
      expect(policy).toContain("frame-ancestors 'none'");
      expect(response.headers.get('x-content-type-options')).toBe('nosniff');
      expect(response.headers.get('x-powered-by')).toBeNull();
    }
  });

  it('never gives a file from outside the dashboard’s folder, nor one that begins with a dot', async () => {
    const { address, dashboard } = await siteForTest();
    const beside = `${dashboard}-beside`;
    writeFileSync(beside, 'secret');
    writeFileSync(join(dashboard, '.stamp'), 'secret');
    const name = basename(beside);
    try {
      for (const path of [
        `/../${name}`,
        `/%2e%2e/${name}`,
        `/..%2f${name}`,
        `/..%5c${name}`,
        `/assets/../../${name}`,
        `//${beside}`,
        '/.stamp',
        '/%00',
      ]) {
        expect((await sent(address, 'GET', path)).text, path).not.toContain('secret');
      }
    } finally {
      rmSync(beside);
    }
  });

  it('opens from a folder below one that begins with a dot', async () => {
    const { get } = await siteForTest({ folder: '.hidden' });
    expect(await (await get('/')).text()).toContain('<title>Scoreline</title>');
  });

  it.each([
    ['POST', '/'],
    ['PUT', '/healthz'],
    ['DELETE', '/api/lines'],
    ['GET', '/api/lines/small/entries'],
    ['PATCH', '/api/lines/small/view'],
  ])('has nothing else: %s %s', async (method, path) => {
    const { status, headers, text } = await sent((await siteForTest()).address, method, path);
    expect(status).toBe(404);
    expect(troubleAnswer.safeParse(JSON.parse(text)).success).toBe(true);
    expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
  });

  it.each(['/%ff', '/api/lines/%ff/view', '/api/lines/%E0%A4%A/changes'])(
    'says that an address was not understood, never that an entry was not: %s',
    async (path) => {
      const { status, text } = await sent((await siteForTest()).address, 'GET', path);
      expect(status).toBe(400);
      expect(JSON.parse(text)).toMatchObject({ ok: false, trouble: 'The question was not understood.' });
    },
  );
});

describe('why something is refused', () => {
  it.each([
    ['from=-1', '“from” may not be below 0.'],
    ['from=a', '“from” has to be a number.'],
    ['from=1.5', '“from” has to be a whole number.'],
    ['from=5&to=4', '“to” may not lie before “from”, nor more than 10,000 after it.'],
    ['from=1e300', '“from” may not be above 9007199254740991.'],
  ])('is said in words of our own: %s', async (query, why) => {
    const response = await (await siteForTest()).get(`/api/lines/small/changes?${query}`);
    expect(((await response.json()) as { why: string }).why).toBe(why);
  });

  it.each<[string, unknown, string]>([
    ['no author', { id: 'e', kind: 'crew', people: 2 }, '“entry.author” is missing.'],
    ['no kind', { id: 'e', author }, '“entry.kind” is none of those that are known.'],
    ['an unknown kind', { id: 'e', author, kind: 'reset' }, '“entry.kind” is none of those that are known.'],
    [
      'a word for a number',
      { id: 'e', author, kind: 'crew', people: 'two' },
      '“entry.people” has to be a number.',
    ],
    [
      'half a person',
      { id: 'e', author, kind: 'crew', people: 1.5 },
      '“entry.people” has to be a whole number.',
    ],
    ['too many', { id: 'e', author, kind: 'crew', people: 51 }, '“entry.people” may not be above 50.'],
    ['an empty note', { id: 'e', author, kind: 'note', words: ' ' }, '“entry.words” may not be empty.'],
    [
      'an id with a blank',
      { id: 'e e', author, kind: 'crew', people: 2 },
      '“entry.id” holds characters that cannot stand there, or is too long.',
    ],
    [
      'an author with more to say',
      { id: 'e', author: { ...author, admin: true }, kind: 'crew', people: 2 },
      '“entry.author” has what is not known there: admin.',
    ],
    ['a list', [], '“entry” has to be an object with keys of its own.'],
    ['no JSON', '{', 'It is not JSON.'],
    ['far too much', { words: 'x'.repeat(20_000) }, 'It is larger than anything that can be sent here.'],
  ])('is said in words of our own: %s', async (_what, body, why) => {
    const answer = (await (await (await siteForTest()).enter(body)).json()) as { why: string };
    expect(answer.why).toBe(why);
  });

  it('is said so for a body that is packed or written in an odd way, and an address with a stray %', async () => {
    const { enter, address } = await siteForTest();
    const odd = await enter('{}', { 'content-encoding': 'rot13' });
    expect(odd.status).toBe(415);
    expect(await odd.json()).toMatchObject({ why: expect.stringContaining('send UTF-8') });
    const letters = await enter('{}', { 'content-type': 'application/json; charset=latin1' });
    expect(await letters.json()).toMatchObject({ why: expect.stringContaining('send UTF-8') });
    for (const body of [undefined, '{}']) {
      const { text } = await sent(address, body ? 'POST' : 'GET', '/api/lines/%ff/entries', body);
      expect(JSON.parse(text)).toMatchObject({
        trouble: 'The question was not understood.',
        why: 'The address has a % that does not stand for a character.',
      });
      expect(text).not.toMatch(foreign);
    }
  });
});
