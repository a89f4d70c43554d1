import { describe, expect, it } from 'vitest';
import { LineError } from '../../../model/trouble/trouble.ts';
import { goods, running } from '../../model/smallLine.ts';
import { msAt } from '../live/shell.ts';
import { foreign, line, sent, siteForTest } from './web.ts';

const author = { kind: 'position', position: 'front' };
const onTape = running().length + goods(1, 20, 1).length;

describe('entries over the interface', () => {
  it('are answered with their position once they are on the tape, and count once', async () => {
    const { enter, tape, live } = await siteForTest();
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
    ['no carton taken out', { id: 'e', author, kind: 'takenOut', cartons: 0, why: 'sample' }],
    ['fewer than none', { id: 'e', author, kind: 'takenOut', cartons: -2, why: 'sample' }],
    [
      'cartons taken out for nothing that is known',
      { id: 'e', author, kind: 'takenOut', cartons: 2, why: 'lost' },
    ],
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
    const { enter, tape } = await siteForTest();
    const response = await enter(body);
    expect(response.status).toBe(400);
    const answer = (await response.json()) as { why: string };
    expect(answer).toMatchObject({ ok: false, trouble: expect.stringMatching(/\.$/) });
    expect(answer.why).toMatch(/^[A-Z“].*\.$/);
    expect(answer.why).not.toMatch(foreign);
    expect(tape.end(line.id)).toBe(onTape);
  });

  it('keep only what an entry has, and change nothing else, whatever their keys are called', async () => {
    const { address, enter, tape, live } = await siteForTest();
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
    const { address, tape } = await siteForTest();
    const body = JSON.stringify({ id: 'e', author, kind: 'crew', people: 3 });
    const { status } = await sent(address, 'POST', '/api/lines/other/entries', body);
    expect(status).toBe(404);
    expect(tape.end(line.id)).toBe(onTape);
  });

  it('are refused when they are too large, and when they are not sent as JSON', async () => {
    const { enter, tape } = await siteForTest();
    expect((await enter({ id: 'e', author, kind: 'note', words: 'x'.repeat(20_000) })).status).toBe(413);
    const crew = JSON.stringify({ id: 'e', author, kind: 'crew', people: 3 });
    expect((await enter(crew, { 'content-type': 'text/plain' })).status).toBe(400);
    expect(tape.end(line.id)).toBe(onTape);
  });

  it('are refused when there are too many, and taken again after a while', async () => {
    const { enter, clock, tape } = await siteForTest();
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
    const { enter, logged } = await siteForTest({
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
