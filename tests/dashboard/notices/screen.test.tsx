import { describe, expect, it } from 'vitest';
import type { Millis } from '../../../model/units/units.ts';
import type { LookFirst } from '../../../model/notices/notice.ts';
import type { Matter } from '../../../model/view/matter.ts';
import type { NoticeView } from '../../../model/view/noticesView.ts';
import { drawn, viewWith } from './drawn.tsx';
import { at, noticeView, told } from './views.ts';

const screen = (open: readonly NoticeView[], ended: readonly NoticeView[] = [], of?: string) =>
  drawn({ kind: 'notices', ...(of === undefined ? {} : { of }) }, viewWith(open, {}, ended));
const article = (page: string) => /<article[\s\S]*<\/article>/.exec(page)![0];
const times = (text: string, part: string | RegExp) => text.split(part).length - 1;

const by = { kind: 'screen', screen: 'phone' } as const;
const person = { kind: 'person', number: '4021' } as const;
const takenOne = noticeView({ id: 'n2', state: 'taken', taken: { at: at(44), by } });
const shelved = noticeView({
  ...{ id: 'n3', state: 'shelved' },
  shelved: { at: at(44), until: at(164), by: person, words: 'part is ordered' },
});
const look: LookFirst = {
  kind: 'offBook',
  ...{ adjustment: '5.3', name: 'main plough, infeed', reads: 36.5, book: 34, unit: 'mm', decimals: 1 },
};
const endedWith = (said: NonNullable<NoticeView['ended']>['said'], how: 'closed' | 'never' = 'closed') =>
  noticeView({
    id: 'n4',
    state: 'ended',
    ended: { at: at(50), how, by: undefined, said, corrections: [], correctable: undefined },
  });

describe('the Notices screen', () => {
  it('lists notices by where they stand, and counts on the strip of screens those that are not put aside', () => {
    const page = screen([noticeView(), takenOne, shelved], [endedWith(undefined, 'never')]);
    const groups = ['Not taken, 1', 'Taken, 1', 'Shelved, 1', 'Ended, 1'].map((group) => page.indexOf(group));
    expect(groups).not.toContain(-1);
    expect(groups).toEqual(groups.toSorted((a, b) => a - b));
    expect(page).toContain('Notices\u00a02</a>');
    expect(page).toContain('part is ordered');
    expect(page).toContain('Never taken; back to normal by itself');
  });

  it('folds earlier ones of a state away where there are many, and never the one that is shown', () => {
    const many = Array.from({ length: 20 }, (_, n) => ({ ...endedWith(undefined, 'never'), id: `e${n}` }));
    expect(screen([], many)).toContain('<details><summary>5 earlier</summary>');
    expect(screen([], many, 'e19')).toContain('<details open=""><summary>5 earlier</summary>');
  });

  it('folds out the first one, or the one that the address names, with one thing to press', () => {
    const first = article(screen([noticeView({ look: [look] }), takenOne]));
    expect(times(first, 'I’m going')).toBe(1);
    expect(first).toContain('st-bottom-major-off');
    expect(first).toContain('A false notice as strong as this comes about every 19 shifts.');
    const second = article(screen([noticeView(), takenOne], [], 'n2'));
    expect(second).not.toContain('I’m going');
    expect(second).toContain('Somebody at a phone has it since');
  });

  it('says the caution before what to look at first', () => {
    const page = article(screen([noticeView({ look: [look] })]));
    expect(page.indexOf('class="caution"')).toBeGreaterThan(0);
    expect(page.indexOf('class="caution"')).toBeLessThan(page.indexOf('Look first'));
    expect(page).toContain('reads 36.5 mm, the book says 34.0');
    expect(page).toContain('That does not prove that it made the trouble.');
  });

  it('tells who was told of this round, and who will be, by number', () => {
    const notice = noticeView({
      ...{ round: 1, told: [told('4021'), told('4022', 1)] },
      coming: [{ at: at(600), step: 1, tell: [{ kind: 'rota', rota: 'maintenance' }], leftOut: ['4023'] }],
    });
    const page = article(screen([notice]));
    expect(page).toContain('number 4022 by an open page');
    expect(page).not.toContain('number 4021');
    expect(page).toMatch(/<li class="coming">.*whoever is on call \(maintenance\)/);
    expect(page).toContain('number 4023 not told: the access of that number has ended');
  });

  it('asks what was found and what was done, and closes nothing before somebody has taken it and both are said', () => {
    const page = article(screen([noticeView()]));
    expect(page).toContain('What was found?');
    expect(page).toContain('And what was done?');
    expect(page).toMatch(/<button type="submit" class="btn plain" disabled="">Close it</);
    expect(page).toContain('“Nothing” marks it as false');
  });

  it('still asks what was found of one that ended by itself, and then shows what was said', () => {
    expect(article(screen([], [endedWith(undefined, 'never')]))).toContain(
      'What was found can still be said.',
    );
    const said = { at: at(50), by: person, found: 'nothing', done: 'noneNeeded', words: 'ran dry' } as const;
    const page = article(screen([], [endedWith(said)]));
    expect(page).toContain('Found: nothing. Done: nothing was needed.');
    expect(page).toContain('It counts as false.');
    expect(page).toContain('ran dry');
    expect(page).toContain('Said by number 4021');
    expect(page).not.toContain('What was found?');
    // an ended one is folded as it should be
    expect(page).not.toContain('st-bottom-major-off');
  });

  it('asks nothing of a press of a stop device', () => {
    const notice = noticeView({
      ...{ kind: 'press', station: undefined, level: 'urgent' },
      facts: { kind: 'press', press: 'p-1', device: 'loading back', role: 'caused', candidates: [] },
    });
    const page = article(screen([notice]));
    expect(page).toContain('Nobody has to say why it was pressed.');
    expect(page).not.toContain('What was found?');
    expect(page).not.toMatch(/fault|cause\b/);
  });

  it('closes what ran on with a guard open by its finding, under the caution', () => {
    const notice = noticeView({
      ...{ kind: 'ranOn', station: undefined, level: 'urgent' },
      facts: { kind: 'ranOn', finding: 'g-1', of: 'guard', name: 'guard door 2' },
    });
    const page = article(screen([notice]));
    expect(page).toContain('Guard door 2 read open while the line ran');
    expect(page).toContain('What was found? It may stay empty.');
    expect(page).not.toContain('And what was done?');
    expect(page.indexOf('class="caution"')).toBeLessThan(page.indexOf('It may stay empty.'));
  });
});

describe('notices on the Line screen', () => {
  const abnormal: Matter = {
    kind: 'stationAbnormal',
    ...{ station: 'bottom-major', since: at(21), inLast: 23, of: 1000, normal: 4 },
  };
  const rejects = noticeView({
    kind: 'rejects',
    facts: { kind: 'rejects', rule: 'run', rejects: 23, of: 1000, expected: 4, onceInShifts: 30 },
  });

  it.each(['wall', 'desk', 'phone'] as const)(
    'show on the %s what wants somebody, and not what is put aside or only to be known',
    (layout) => {
      const page = drawn(
        { kind: 'line', layout },
        viewWith([
          noticeView(),
          shelved,
          noticeView({
            id: 'n5',
            level: 'note',
            facts: { kind: 'disk', freeBytes: 1e9, leastBytes: 2e9 },
            kind: 'disk',
            station: undefined,
          }),
        ]),
      );
      expect(page).toContain('Bottom major flap stops far above its own normal');
      expect(page).toContain('since 10:21, told 10:40, nobody is going yet');
      expect(page).not.toContain('The disk is getting full');
      expect(page).not.toContain('part is ordered');
    },
  );

  it('leave the wall without anything to press and without a person’s number', () => {
    const page = drawn(
      { kind: 'line', layout: 'wall' },
      viewWith([{ ...takenOne, taken: { at: at(44), by: person }, owner: '4021' }]),
    );
    expect(page).toContain('somebody has it since 10:44');
    expect(page).not.toContain('4021');
    expect(page).not.toMatch(/<button|<a /);
  });

  it('stand for the row of the station that says the same, and not for a stop or a finding that is told already', () => {
    const wall = (open: readonly NoticeView[], matters: Parameters<typeof viewWith>[1]) =>
      drawn({ kind: 'line', layout: 'wall' }, viewWith(open, matters));
    const one = wall([rejects], { matters: [abnormal] });
    expect(one).toContain('Bottom major flap rejects above its own normal');
    expect(one).not.toContain('Bottom major flap is far above its own normal');
    expect(wall([noticeView()], { matters: [abnormal] })).toContain(
      'Bottom major flap is far above its own normal',
    );
    const guard = {
      kind: 'guardOpenRunning',
      guard: 'guard door 2',
      at: at(21),
      lasted: 4000 as Millis,
      id: 'g-1',
    } as const;
    const ranOn = noticeView({
      ...{ kind: 'ranOn', station: undefined, level: 'urgent' },
      facts: { kind: 'ranOn', finding: 'g-1', of: 'guard', name: 'guard door 2' },
    });
    const both = wall([ranOn], { matters: [guard] });
    expect(both).toContain('Guard door 2 read open while it ran');
    expect(both).not.toContain('Guard door 2 read open while the line ran');
  });

  it.each(['wall', 'desk', 'phone'] as const)(
    'bring the caution to the %s with what may bring somebody to a guard or a stop device',
    (layout) => {
      const ranOn = noticeView({
        ...{ kind: 'ranOn', station: undefined, level: 'urgent' },
        facts: { kind: 'ranOn', finding: 'g-1', of: 'guard', name: 'guard door 2' },
      });
      const page = drawn({ kind: 'line', layout }, viewWith([ranOn]));
      // in the list, and not only across the top of the page
      const row = page.lastIndexOf('Guard door 2 read open while the line ran');
      const caution = page.indexOf('class="caution"');
      expect(caution).toBeGreaterThan(0);
      expect(caution).toBeLessThan(row);
      expect(drawn({ kind: 'line', layout }, viewWith([noticeView()]))).not.toContain('class="caution"');
    },
  );

  it('change nothing where there are none', () => {
    expect(drawn({ kind: 'line', layout: 'wall' }, viewWith([]))).toContain('Notices: none open');
  });
});
