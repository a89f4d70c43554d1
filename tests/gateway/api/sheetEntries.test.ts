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
interface Answer {
  readonly trouble?: string;
  readonly mend?: string;
  readonly aside?: object;
}
const enter = async (to: Site, id: string, body: object) => {
  const answer = await to.enter({ id, author, ...body });
  return { status: answer.status, ...((await answer.json()) as Answer) };
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

  it('[SH10] answers what was kept of a sheet that another replaced meanwhile with what became of it, and records it', async () => {
    const to = await site();
    await enter(to, 'desk', { kind: 'sheetBegun', size: 'sachet-20', in: 'startUp' });
    const before = to.tape.end(line.id);
    const kept = (id: string, body: object) => enter(to, id, { ...body, keptFor: 60_000 });
    const replaced = {
      sheet: {
        ...{ id: 'phone', how: 'replaced', size: { id: 'sachet-48' } },
        by: { kind: 'startUp', size: { id: 'sachet-20' }, author },
      },
    };
    const begun = { kind: 'sheetBegun', size: 'sachet-48', in: 'size' };
    expect((await kept('phone', begun)).aside).toMatchObject(replaced);
    const of: readonly object[] = [
      { ...reading, sheet: 'phone' },
      { ...reading, kind: 'asBook', settings: [{ adjustment: '2.2', value: 26.5 }], sheet: 'phone' },
      { kind: 'sheetHanded', sheet: 'phone', words: '2.2 is stiff' },
    ];
    for (const [i, body] of of.entries()) {
      // once more, as after an answer that was lost
      for (let times = 0; times < 2; times += 1) {
        const answer = await enter(to, `kept-${i}`, { ...body, keptFor: 5_000 });
        expect(answer).toMatchObject({ status: 201, aside: replaced });
      }
    }
    expect(to.tape.end(line.id)).toBe(before + 1 + of.length);
    expect(to.live.fold().state.sheet).toMatchObject({ id: 'desk', done: [], handed: [] });
    expect(to.live.view().sheets.before).toMatchObject([replaced.sheet]);
    const unknown = { kind: 'sheetHanded', sheet: 'none' };
    expect(await kept('unknown', unknown)).toMatchObject({ status: 201, aside: {} });
    // of the open one nothing is aside
    const own = await enter(to, 'own', { ...reading, sheet: 'desk' });
    expect(own).not.toHaveProperty('aside');
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
