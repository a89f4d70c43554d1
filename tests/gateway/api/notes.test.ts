import { describe, expect, it } from 'vitest';
import type { Course } from '../../../model/past/course.ts';
import { epochMs } from '../../../model/units/units.ts';
import { at, changes, goods, smallLine } from '../../model/smallLine.ts';
import { type Site, siteForTest } from './web.ts';

const line = smallLine();
const author = { kind: 'screen', screen: 'desk' };
const other = { kind: 'screen', screen: 'phone' };
const ms = (second: number) => epochMs(at(second));
const DAY = 86_400;

/** A line that has run for so long; every second of it was heard. */
async function ran(until: number): Promise<Site> {
  const site = await siteForTest();
  site.clock.second = until;
  await site.live.offer(changes(line, [...goods(21, 99, 21), [until, 'heartbeat', 1]]));
  return site;
}

async function course(site: Site, from: number, to: number, more = ''): Promise<Course> {
  const response = await site.get(`/api/lines/small/past/course?from=${ms(from)}&to=${ms(to)}${more}`);
  expect(response.status).toBe(200);
  return (await response.json()) as Course;
}

const note = (id: string, more: object) => ({ id, author, kind: 'note', words: 'tuck looks bent', ...more });

describe('a note about a moment', () => {
  it('[RP21] stands at the moment that it is about, whatever day it was written', async () => {
    const site = await ran(3 * DAY);
    expect((await site.enter(note('n-1', { about: ms(50) }))).status).toBe(201);
    const { notes } = await course(site, 0, 100);
    expect(notes).toEqual([
      expect.objectContaining({
        id: 'n-1',
        at: ms(50),
        words: 'tuck looks bent',
        later: true,
        withdrawn: false,
      }),
    ]);
    expect(notes[0]?.said).toMatchObject({ at: ms(3 * DAY), by: author, correctable: true });
    // where it was written it is about nothing
    expect((await course(site, 3 * DAY - 50, 3 * DAY + 50)).notes).toEqual([]);
    expect((await course(site, 51, 100)).notes).toEqual([]);
  });

  it('[RP21] without a moment of its own is about when it was entered', async () => {
    const site = await ran(200);
    await site.enter(note('n-1', {}));
    site.clock.second = 300;
    const [first] = (await course(site, 0, 300)).notes;
    expect(first).toMatchObject({ at: ms(200), later: false });
  });

  it('[RP21] may say nothing where it marks a moment: a bookmark', async () => {
    const site = await ran(200);
    expect((await site.enter(note('n-1', { words: '  ', about: ms(60) }))).status).toBe(201);
    expect((await course(site, 0, 200)).notes).toMatchObject([{ at: ms(60), words: '' }]);
    const refused = await site.enter(note('n-2', { words: ' ' }));
    expect(refused.status).toBe(400);
    expect(await refused.text()).toContain('“entry.words” may not be empty.');
  });

  it('[RP21] is refused in words where it lies ahead, or before all that is recorded', async () => {
    const site = await ran(200);
    const ahead = await site.enter(note('n-1', { about: ms(201) }));
    expect([ahead.status, await ahead.text()]).toEqual([
      400,
      expect.stringMatching(
        /Nothing can be noted of .* yet\..*A note is about a moment that the line has seen/,
      ),
    ]);
    const before = await site.enter(note('n-2', { about: ms(-5) }));
    expect([before.status, await before.text()]).toEqual([
      400,
      expect.stringMatching(/nothing is recorded of it\..*begins at/),
    ]);
    expect((await site.enter(note('n-3', { about: ms(200) }))).status).toBe(201);
    expect((await site.enter(note('n-4', { about: ms(0) }))).status).toBe(201);
    expect((await site.enter(note('n-5', { about: 1.5 }))).status).toBe(400);
    const correction = { id: 'c-1', author: other, kind: 'correction', of: 'n-3', was: 'note', why: 'slip' };
    const body = { kind: 'note', words: 'x', about: ms(900) };
    expect((await site.enter({ ...correction, body })).status).toBe(400);
    expect((await course(site, -100, 200)).notes.map(({ id }) => id)).toEqual(['n-4']);
  });

  it('[RP21] is corrected and withdrawn as all entries are, and what was said first stays', async () => {
    const site = await ran(2 * DAY);
    await site.enter(note('n-1', { about: ms(50) }));
    const correction = { author: other, kind: 'correction', was: 'note', why: 'slip' };
    const body = { kind: 'note', words: 'tuck is bent', about: ms(60) };
    expect((await site.enter({ ...correction, id: 'c-1', of: 'n-1', body })).status).toBe(201);
    const corrected = await course(site, 0, 100);
    expect(corrected.notes).toMatchObject([
      { id: 'n-1', at: ms(60), words: 'tuck is bent', said: { first: { words: 'tuck looks bent' } } },
    ]);
    expect((await site.enter({ ...correction, id: 'c-2', of: 'c-1' })).status).toBe(201);
    const [gone, ...rest] = (await course(site, 0, 100)).notes;
    expect(gone).toMatchObject({ at: ms(60), words: 'tuck is bent', withdrawn: true });
    expect(gone?.said.corrections.map(({ body: now }) => now)).toEqual([body, null]);
    expect(rest).toEqual([]);
  });

  it('[RP21] as the past was known before it was written, is not there', async () => {
    const site = await ran(DAY);
    const position = site.live.position();
    await site.enter(note('n-1', { about: ms(50) }));
    expect((await course(site, 0, 100, `&asOf=${position}`)).notes).toEqual([]);
    expect((await course(site, 0, 100, `&asOf=${site.live.position()}`)).notes).toHaveLength(1);
  });
});
