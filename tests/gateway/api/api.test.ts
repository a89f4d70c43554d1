import { once } from 'node:events';
import { rmSync, writeFileSync } from 'node:fs';
import { type IncomingMessage, request } from 'node:http';
import { basename, join } from 'node:path';
import { text as textOf } from 'node:stream/consumers';
import { afterEach, describe, expect, it } from 'vitest';
import { troubleAnswer } from '../../../gateway/api/schemas.ts';
import { LineError } from '../../../model/trouble/trouble.ts';
import { at, goods, running } from '../../model/smallLine.ts';
import { msAt } from '../live/shell.ts';
import { line, openSite, row, type Site } from './web.ts';

const sites: Site[] = [];
afterEach(async () => {
  for (const site of sites.splice(0)) await site.close();
});

async function open(wish?: Parameters<typeof openSite>[0]): Promise<Site> {
  const site = await openSite(wish);
  sites.push(site);
  return site;
}

/** As it is written: `fetch` would put an address right before it sends it. */
async function sent(address: string, method: string, path: string, body?: string) {
  const { hostname, port } = new URL(address);
  const headers = { 'content-type': 'application/json' };
  const asked = request({ hostname, port, method, path, headers });
  asked.end(body);
  const [answer] = (await once(asked, 'response')) as [IncomingMessage];
  return { status: answer.statusCode, headers: answer.headers, text: await textOf(answer) };
}

const author = { kind: 'position', position: 'front' };
const onTape = running().length + goods(1, 20, 1).length;

describe('the interface for programs', () => {
  it('/healthz says how old the data is and how many cartons are good, and when nobody is heard', async () => {
    const { get, clock } = await open();
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

  it('tells the lines, the view, the orders and the signals', async () => {
    const { get, live } = await open();
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
    const { get } = await open();
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
      const response = await (await open()).get(`/api/lines/small/changes?${query}`);
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
    const { get } = await open();
    for (const path of ['/api/lines/other/view', '/api/lines/constructor/view', '/api/nothing']) {
      const response = await get(path);
      expect(response.status, path).toBe(404);
      expect(await response.json()).toMatchObject({ ok: false, trouble: expect.stringMatching(/no/i) });
    }
  });

  it('gives the dashboard at every other address, with headers that let nothing foreign in', async () => {
    const { get } = await open();
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
    const { address, dashboard } = await open();
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
    const { get } = await open({ folder: '.hidden' });
    expect(await (await get('/')).text()).toContain('<title>Scoreline</title>');
  });

  it.each([
    ['POST', '/'],
    ['PUT', '/healthz'],
    ['DELETE', '/api/lines'],
    ['GET', '/api/lines/small/entries'],
    ['PATCH', '/api/lines/small/view'],
  ])('has nothing else: %s %s', async (method, path) => {
    const { status, headers, text } = await sent((await open()).address, method, path);
    expect(status).toBe(404);
    expect(troubleAnswer.safeParse(JSON.parse(text)).success).toBe(true);
    expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
  });

  it.each(['/%ff', '/api/lines/%ff/view', '/api/lines/%E0%A4%A/changes'])(
    'says that an address was not understood, never that an entry was not: %s',
    async (path) => {
      const { status, text } = await sent((await open()).address, 'GET', path);
      expect(status).toBe(400);
      expect(JSON.parse(text)).toMatchObject({ ok: false, trouble: 'The question was not understood.' });
    },
  );
});

/** Sentences of libraries, by the words they have and the catalogue does not. */
const foreign = /invalid|expected|received|must|request entity|unexpected|json at|decode param|position \d/i;

describe('why something is refused', () => {
  it.each([
    ['from=-1', '“from” may not be below 0.'],
    ['from=a', '“from” has to be a number.'],
    ['from=1.5', '“from” has to be a whole number.'],
    ['from=5&to=4', '“to” may not lie before “from”, nor more than 10,000 after it.'],
    ['from=1e300', '“from” may not be above 9007199254740991.'],
  ])('is said in words of our own: %s', async (query, why) => {
    const response = await (await open()).get(`/api/lines/small/changes?${query}`);
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
    const answer = (await (await (await open()).enter(body)).json()) as { why: string };
    expect(answer.why).toBe(why);
  });

  it('is said so for a body that is packed or written in an odd way, and an address with a stray %', async () => {
    const { enter, address } = await open();
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

describe('entries over the interface', () => {
  it('are answered with their position once they are on the tape, and count once', async () => {
    const { enter, tape, live } = await open();
    const crew = { id: 'e-1', author, kind: 'crew', people: 3 };
    const first = await enter(crew);
    expect(first.status).toBe(201);
    expect(await first.json()).toEqual({ ok: true, position: onTape + 1 });
    expect((await enter(crew)).status).toBe(201);
    expect(tape.end(line.id)).toBe(onTape + 1);
    expect(live.fold().state.crew).toBe(3);
  });

  it.each<[string, unknown]>([
    ['nothing', {}],
    ['no author', { id: 'e', kind: 'crew', people: 2 }],
    ['an unknown kind', { id: 'e', author, kind: 'reset' }],
    ['a kind that only the gateway writes', { id: 'e', author, kind: 'orderListed', number: '1' }],
    ['a crew that cannot be', { id: 'e', author, kind: 'crew', people: -1 }],
    ['half a person', { id: 'e', author, kind: 'crew', people: 1.5 }],
    ['an empty note', { id: 'e', author, kind: 'note', words: '   ' }],
    ['a note too long', { id: 'e', author, kind: 'note', words: 'x'.repeat(501) }],
    ['an id with what has no place in one', { id: 'e e', author, kind: 'crew', people: 2 }],
    [
      'an author who is a file',
      { id: 'e', author: { kind: 'file', file: 'orders' }, kind: 'crew', people: 2 },
    ],
    ['a name that every object has', { id: 'e', author, kind: 'constructor' }],
    [
      'a person’s number, while nobody logs in',
      { id: 'e', author: { kind: 'person', number: '7' }, kind: 'crew', people: 2 },
    ],
    ['an author with more to say', { id: 'e', author: { ...author, admin: true }, kind: 'crew', people: 2 }],
    ['no JSON', '{'],
    ['a list', []],
  ])('are refused with words, and nothing is recorded: %s', async (_what, body) => {
    const { enter, tape } = await open();
    const response = await enter(body);
    expect(response.status).toBe(400);
    const answer = (await response.json()) as { why: string };
    expect(answer).toMatchObject({ ok: false, trouble: expect.stringMatching(/\.$/) });
    expect(answer.why).toMatch(/^[A-Z“].*\.$/);
    expect(answer.why).not.toMatch(foreign);
    expect(tape.end(line.id)).toBe(onTape);
  });

  it('keep only what an entry has, and change nothing else, whatever their keys are called', async () => {
    const { address, enter, tape, live } = await open();
    const odd = `{"id":"e-1","author":{"kind":"screen","screen":"constructor"},"kind":"crew","people":3,"at":1,
      "__proto__":{"people":9},"constructor":{"prototype":{"people":9}},"line":"other"}`;
    expect((await enter(odd)).status).toBe(201);
    expect(tape.end(line.id)).toBe(onTape + 1);
    expect(live.fold().state.crew).toBe(3);
    expect(({} as Record<string, unknown>).people).toBeUndefined();
    const row = await sent(address, 'GET', `/api/lines/small/changes?from=${onTape}`);
    const { changes } = JSON.parse(row.text) as { changes: { value: string }[] };
    expect(JSON.parse(changes[0]!.value)).toEqual({
      id: 'e-1',
      at: msAt(21),
      author: { kind: 'screen', screen: 'constructor' },
      kind: 'crew',
      people: 3,
    });
  });

  it('are refused for a line that there is not, and nothing is recorded', async () => {
    const { address, tape } = await open();
    const body = JSON.stringify({ id: 'e', author, kind: 'crew', people: 3 });
    const { status } = await sent(address, 'POST', '/api/lines/other/entries', body);
    expect(status).toBe(404);
    expect(tape.end(line.id)).toBe(onTape);
  });

  it('are refused when they are too large, and when they are not sent as JSON', async () => {
    const { enter, tape } = await open();
    expect((await enter({ id: 'e', author, kind: 'note', words: 'x'.repeat(20_000) })).status).toBe(413);
    const crew = JSON.stringify({ id: 'e', author, kind: 'crew', people: 3 });
    expect((await enter(crew, { 'content-type': 'text/plain' })).status).toBe(400);
    expect(tape.end(line.id)).toBe(onTape);
  });

  it('are refused when there are too many, and taken again after a while', async () => {
    const { enter, clock, tape } = await open();
    const statuses: number[] = [];
    for (let n = 0; n < 70; n += 1) {
      statuses.push((await enter({ id: `e-${n}`, author, kind: 'crew', people: 2 })).status);
    }
    expect(statuses.filter((status) => status === 201)).toHaveLength(60);
    expect(statuses.filter((status) => status === 429)).toHaveLength(10);
    expect(tape.end(line.id)).toBe(onTape + 60);
    clock.second += 1;
    expect((await enter({ id: 'later', author, kind: 'crew', people: 2 })).status).toBe(201);
  });

  it('tell a full disk in three sentences, and a mistake of our own without its details', async () => {
    let wrong: Error | undefined;
    const { enter, logged } = await open({
      through: (tape) => ({
        ...tape,
        append: (id, some) => (wrong ? Promise.reject(wrong) : tape.append(id, some)),
      }),
    });
    wrong = new LineError('The disk is full.', { why: 'No space.', mend: 'Make room.' });
    const full = await enter({ id: 'e-1', author, kind: 'crew', people: 2 });
    expect(full.status).toBe(503);
    expect(await full.json()).toEqual({
      ok: false,
      trouble: 'The disk is full.',
      why: 'No space.',
      mend: 'Make room.',
    });
    expect(logged).toEqual([]);
    wrong = new Error('at /secret/place');
    const own = await enter({ id: 'e-2', author, kind: 'crew', people: 2 });
    expect(own.status).toBe(500);
    expect(await own.text()).not.toContain('secret');
    expect(logged).toHaveLength(1);
  });
});
