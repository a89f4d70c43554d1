import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EntryBody } from '../../../model/entries/entries.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { noticeState } from '../../../model/notices/notice.ts';
import { noticesView } from '../../../model/view/noticesView.ts';
import { at, changes, smallLine } from '../smallLine.ts';
import { fitter, holds, Noticed, pressed, stops, until } from './noticeRows.ts';

const closed = (notice: string): EntryBody => ({
  kind: 'noticeClosed',
  notice,
  found: 'adjustment',
  done: 'toBook',
});

function raised(): { line: Noticed; id: string } {
  const line = new Noticed();
  line.look(10, [stops('fold')]);
  return { line, id: line.notices[0]!.id };
}

const second = { kind: 'person', number: '13' } as const;

const stateOf = (line: Noticed, place = 0) => noticeState(line.notices[place]!);

describe('the life of a notice', () => {
  it('[NL1] is raised once as long as what it is about holds', () => {
    const { line } = raised();
    expect(line.look(11, [stops('fold')])).toBe(0);
    expect(line.look(500, [stops('fold')])).toBe(0);
    expect(line.notices).toHaveLength(1);
    expect(stateOf(line)).toBe('raised');
    expect(line.notices[0]).toMatchObject({ at: at(10), station: 'fold', kind: 'stops', level: 'call' });
  });

  it('[NL2] is taken once, and belongs to whoever took it first', () => {
    const { line, id } = raised();
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.enter(21, { kind: 'noticeTaken', notice: id }, { kind: 'person', number: '13' });
    expect(stateOf(line)).toBe('taken');
    expect(line.notices[0]).toMatchObject({ taken: { at: at(20), by: fitter }, owner: '12' });
  });

  it('[NL2] is taken over from whoever is shown to have it, and from nobody else', () => {
    const { line, id } = raised();
    const third = { kind: 'person', number: '14' } as const;
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.enter(25, { kind: 'noticeTaken', notice: id, over: until(20) }, second);
    expect(line.notices[0]).toMatchObject({ taken: { at: at(25), by: second }, hasAt: at(25), owner: '13' });
    // the third one saw the first, who has it no more
    line.enter(26, { kind: 'noticeTaken', notice: id, over: until(20) }, third);
    expect(line.notices[0]).toMatchObject({ owner: '13' });
    expect(line.story()).toEqual(['raised', 'taken', 'takenOver']);
    line.enter(30, { kind: 'noticeHanded', notice: id, to: '14' });
    expect(line.notices[0]).toMatchObject({ hasAt: at(30), owner: '14' });
  });

  it('[NL2] is handed over to somebody, by whoever thereby took it', () => {
    const { line, id } = raised();
    line.enter(20, { kind: 'noticeHanded', notice: id, to: '13' });
    expect(line.notices[0]).toMatchObject({ taken: { by: fitter }, owner: '13' });
    expect(line.story()).toEqual(['raised', 'taken', 'handed']);
  });

  it('[NL3] taken and back to normal it has ended; what was found can be said later', () => {
    const { line, id } = raised();
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.look(30, []);
    expect(line.notices[0]!.ended).toMatchObject({ how: 'normal', at: at(30), said: null });
    line.enter(40, closed(id));
    expect(line.notices[0]!.ended).toMatchObject({
      how: 'normal',
      at: at(30),
      said: { at: at(40), by: fitter, found: 'adjustment', done: 'toBook', words: null },
    });
  });

  it('[NL3] back to normal and never taken it stays, and ends with being taken', () => {
    const { line, id } = raised();
    line.look(30, []);
    expect(stateOf(line)).toBe('returned');
    line.enter(40, { kind: 'noticeTaken', notice: id });
    expect(line.notices[0]!.ended).toMatchObject({ how: 'normal', by: fitter });
  });

  it('[NL3] back to normal and left alone for hours it ends as never taken', () => {
    const { line } = raised();
    line.look(30, []);
    line.look(30 + 8 * 3600 - 1, []);
    expect(stateOf(line)).toBe('returned');
    line.look(30 + 8 * 3600, []);
    expect(line.notices[0]!.ended).toMatchObject({ how: 'never', by: null });
  });

  it('[NL3] holding again before anybody took it, it is the same notice in a new round of telling', () => {
    const { line } = raised();
    line.look(30, []);
    line.look(700, [stops('fold', { since: at(650) })]);
    expect(line.notices).toHaveLength(1);
    expect(line.notices[0]).toMatchObject({ round: 1, normalAt: null, since: at(650) });
    expect(stateOf(line)).toBe('raised');
  });

  it('[NL3] what comes and goes is not told each time: no new round begins within ten minutes of the one before', () => {
    const { line } = raised();
    for (let second = 30; second < 500; second += 20) {
      line.look(second, []);
      line.look(second + 10, [stops('fold')]);
    }
    expect(line.notices).toHaveLength(1);
    expect(line.notices[0]).toMatchObject({ round: 0, normalAt: null });
  });

  it('[NL3] at the end of its shelf nothing is told anew of what is back to normal by then', () => {
    const { line, id } = raised();
    line.enter(21, { kind: 'noticeShelved', notice: id, until: until(100), words: 'later' });
    line.look(50, []);
    line.look(101, []);
    expect(line.notices[0]).toMatchObject({ round: 0, shelved: null });
    expect(stateOf(line)).toBe('returned');
  });

  it('[NL2] handing it over begins a round for whoever has it now', () => {
    const { line, id } = raised();
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.enter(21, { kind: 'noticeHanded', notice: id, to: '13' });
    expect(line.notices[0]).toMatchObject({ round: 1, owner: '13' });
  });

  it('[NL3] holding again after it ended it is another one', () => {
    const { line, id } = raised();
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.look(30, []);
    line.look(60, [stops('fold')]);
    expect(line.notices.map(noticeState)).toEqual(['ended', 'raised']);
  });

  it('[NL3] shelved it comes back by itself at the end of its time, and nobody has it then', () => {
    const { line, id } = raised();
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.enter(21, { kind: 'noticeShelved', notice: id, until: until(100), words: 'part comes at ten' });
    line.look(99, [stops('fold')]);
    expect(stateOf(line)).toBe('shelved');
    line.look(100, [stops('fold')]);
    expect(stateOf(line)).toBe('raised');
    expect(line.notices[0]).toMatchObject({ round: 1, taken: null, owner: null, shelved: null });
  });

  it('[NL4] closed while it still holds, nothing is raised until it has been back to normal', () => {
    const { line, id } = raised();
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.enter(25, closed(id));
    expect(line.notices[0]!.ended).toMatchObject({
      how: 'closed',
      by: fitter,
      said: { found: 'adjustment' },
    });
    expect(line.look(26, [stops('fold')])).toBe(0);
    line.look(27, []);
    line.look(28, [stops('fold')]);
    expect(line.notices.map(noticeState)).toEqual(['ended', 'raised']);
  });

  it('[NL5] what read open while the line ran ends with its finding, and not by itself', () => {
    const line = new Noticed();
    const facts = { kind: 'ranOn', finding: 'g1', of: 'guard', name: 'guard door 1' } as const;
    line.look(10, [stops('fold', { key: 'ranOn/g1', level: 'urgent', facts })]);
    const { id } = line.notices[0]!;
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.enter(30, { kind: 'closed', finding: 'g1', words: 'switch changed' });
    expect(line.notices[0]!.ended).toMatchObject({ how: 'closed', by: fitter });
  });

  it('[NL1] an entry that names a notice that is not there, or is done twice, changes nothing', () => {
    const { line, id } = raised();
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.enter(21, closed(id));
    const before = JSON.stringify(line.notices);
    for (const body of [
      { kind: 'noticeTaken', notice: 'none' },
      { kind: 'noticeTaken', notice: id },
      { kind: 'noticeHanded', notice: id, to: '13' },
      { kind: 'noticeShelved', notice: id, until: until(900), words: 'later' },
      { kind: 'noticeUnshelved', notice: id },
    ] as const)
      line.enter(30, body);
    expect(JSON.stringify(line.notices)).toBe(before);
  });

  it('[NL1] of many that have ended the newest are kept, and none that is open is dropped for them', () => {
    const line = new Noticed();
    line.rules = { ...line.rules, many: { notices: 1000, minutes: 10 } };
    line.look(10, [stops('pick')]);
    for (let n = 0; n < 220; n += 1) {
      line.look(20 + 10 * n, [stops('pick'), pressed(`p${n}`)]);
      const { id } = line.notices.at(-1)!;
      line.enter(22 + 10 * n, { kind: 'noticeTaken', notice: id });
      line.look(24 + 10 * n, [stops('pick')]);
    }
    expect(line.notices).toHaveLength(200);
    expect(line.notices[0]).toMatchObject({ station: 'pick', ended: null });
  });

  it('[TI3] what was told in any chunks, or late, or gone on from a saved state gives the same notices', () => {
    const line = new Noticed();
    line.look(10, [stops('fold'), pressed('p1'), holds('rate')]);
    const [first, second] = line.notices.map(({ id }) => id);
    line.enter(20, { kind: 'noticeTaken', notice: first! });
    line.enter(25, { kind: 'noticeShelved', notice: second!, until: until(90), words: 'later' });
    line.look(40, [stops('fold')]);
    line.look(95, [stops('pick')]);
    line.enter(99, closed(first!));
    const all = changes(line.line, line.rows);
    const whole = new LineFold(smallLine());
    whole.take(all);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 1, max: all.length }),
        (chunk, saved) => {
          const begun = new LineFold(smallLine());
          begun.take(all.slice(0, saved));
          const fold = new LineFold(smallLine(), JSON.parse(JSON.stringify(begun.save())));
          for (let from = saved; from < all.length; from += chunk) fold.take(all.slice(from, from + chunk));
          expect(fold.text()).toBe(whole.text());
        },
      ),
      { numRuns: 40 },
    );
  });

  it('[NL1] the view shows those not taken first, the gravest first, then what ended', () => {
    const line = new Noticed();
    line.look(10, [stops('fold'), pressed('p1'), holds('unseen')]);
    const id = line.notices.find(({ kind }) => kind === 'stops')!.id;
    line.enter(20, { kind: 'noticeTaken', notice: id });
    line.look(30, [stops('fold'), holds('unseen')]);
    const { open, ended } = noticesView(line.fold.index, line.fold.state, { now: at(30) });
    expect(open.map(({ kind, state }) => [kind, state])).toEqual([
      ['unseen', 'raised'],
      ['press', 'returned'],
      ['stops', 'taken'],
    ]);
    expect(ended).toEqual([]);
  });
});
