import { afterEach, describe, expect, it } from 'vitest';
import { at, changes } from '../../model/smallLine.ts';
import { line, openSite, type Site } from './web.ts';

const opened: Site[] = [];
afterEach(async () => {
  for (const one of opened.splice(0)) await one.close();
});

async function site(): Promise<Site> {
  // the newest heard is a second old when it is heard: line time is that much behind
  const made = await openSite({ second: 100 });
  opened.push(made);
  await made.live.offer(changes(line, [[99, 'heartbeat', 1]]));
  return made;
}

const author = { kind: 'position', position: 'front' };
const reading = { kind: 'reading', station: 'fold', adjustment: '2.2', value: 26.5, how: 'typed' };
const enter = async (to: Site, id: string, body: object) => {
  const answer = await to.enter({ id, author, ...body });
  return { status: answer.status, ...((await answer.json()) as { trouble?: string; mend?: string }) };
};

describe('entries of a setter', () => {
  const wrong: [string, object, RegExp][] = [
    ['a number off its scale', { ...reading, value: 265 }, /265 is not on the scale of 2\.2/],
    ['an adjustment of another station', { ...reading, station: 'pick' }, /no adjustment “2\.2”/],
    ['an adjustment that is not there', { ...reading, adjustment: '9.9' }, /no adjustment “9\.9”/],
    [
      'one number of a station confirmed that is off its scale',
      { kind: 'asBook', station: 'fold', settings: [{ adjustment: '2.2', value: -1 }] },
      /-1 is not on the scale/,
    ],
    ['a size that is not there', { kind: 'sheetBegun', size: 'none', in: 'size' }, /no size “none”/],
    [
      'a step of no open sheet',
      { kind: 'stepDone', sheet: 's1', step: 'cups', well: true },
      /no open changeover sheet “s1”/,
    ],
    [
      'a part that the line’s file does not ask for',
      { kind: 'fitted', what: 'parts', name: 'K2', step: 'none' },
      /none/,
    ],
    [
      'a lot at the step of another part',
      { kind: 'fitted', what: 'lot', name: 'L114', step: 'cups' },
      /cups/,
    ],
    [
      'how cartons look where no station is',
      { kind: 'looked', station: 'none', symptom: 'crushed' },
      /no station “none”/,
    ],
  ];
  it.each(wrong)('refuses %s, and nothing is recorded', async (_what, body, trouble) => {
    const to = await site();
    const before = to.tape.end(line.id);
    const answer = await enter(to, 'wrong', body);
    expect(answer.status).toBe(400);
    expect(answer.trouble).toMatch(trouble);
    expect(answer.mend).not.toBe('');
    expect(to.tape.end(line.id)).toBe(before);
  });

  it('[SH6] what a screen kept stands where it was made, and sent twice it counts once', async () => {
    const to = await site();
    const kept = { ...reading, keptFor: 40_000 };
    expect((await enter(to, 'kept', kept)).status).toBe(201);
    expect((await enter(to, 'kept', kept)).status).toBe(201);
    const { settings } = to.live.fold().state;
    expect(settings).toHaveLength(1);
    expect(settings[0]?.at).toBe(at(59));
    // one that was made later takes its place, one that was made before does not
    expect((await enter(to, 'newer', { ...reading, value: 27, keptFor: 20_000 })).status).toBe(201);
    expect((await enter(to, 'older', { ...reading, value: 25, keptFor: 60_000 })).status).toBe(201);
    expect(to.live.fold().state.settings).toMatchObject([{ value: 27 }]);
  });

  it('[SH6] a step that was kept counts for the sheet that was open when it was made', async () => {
    const to = await site();
    expect(
      (await enter(to, 'begun', { kind: 'sheetBegun', size: 'sachet-48', in: 'size', keptFor: 60_000 }))
        .status,
    ).toBe(201);
    expect((await enter(to, 'ended', { kind: 'sheetEnded', sheet: 'begun', why: 'on paper' })).status).toBe(
      201,
    );
    const late = { ...reading, sheet: 'begun', keptFor: 30_000 };
    expect((await enter(to, 'late', late)).status).toBe(201);
    expect(to.live.fold().state.sheet).toMatchObject({ id: 'begun', done: [{ step: '2.2', value: 26.5 }] });
  });

  it('[SH6] what was kept for more than two days is refused in words, and an entry about now stands now', async () => {
    const to = await site();
    const answer = await enter(to, 'old', { ...reading, keptFor: 3 * 86_400_000 });
    expect(answer.status).toBe(400);
    expect(answer.trouble).toMatch(/more than two days/);
    expect((await enter(to, 'note', { kind: 'note', words: 'stiff', keptFor: 40_000 })).status).toBe(201);
    expect(to.live.fold().state.notes[0]?.at).toBe(at(99));
  });
});
