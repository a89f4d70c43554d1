import { describe, expect, it } from 'vitest';
import type { EntryBody } from '../../../model/entries/entries.ts';
import { noticeState } from '../../../model/notices/notice.ts';
import { noticeView } from '../../../model/view/noticesView.ts';
import { at } from '../smallLine.ts';
import { fitter, holds, Noticed, stops } from './noticeRows.ts';

const second = { kind: 'person', number: '13' } as const;

const closing = (notice: string) =>
  ({ kind: 'noticeClosed', notice, found: 'part', done: 'partChanged', words: 'guide worn' }) as const;

/** Taken at 12 and closed at 20, while what it is about holds. */
function closed(): { line: Noticed; id: string; entry: string } {
  const line = new Noticed();
  line.look(10, [stops('fold')]);
  const { id } = line.notices[0]!;
  line.enter(12, { kind: 'noticeTaken', notice: id });
  line.enter(20, closing(id));
  return { line, id, entry: line.notices[0]!.ended!.said!.entry };
}

const correction = (of: string, body?: EntryBody & { kind: 'noticeClosed' }): EntryBody => ({
  kind: 'correction',
  of,
  was: 'noticeClosed',
  why: 'looked again',
  ...(body ? { body } : {}),
});

describe('what a notice was closed with', () => {
  it('[NL10] is corrected, and what was said before stays beside it', () => {
    const { line, id, entry } = closed();
    line.enter(
      40,
      correction(entry, { kind: 'noticeClosed', notice: id, found: 'nothing', done: 'noneNeeded' }),
      second,
    );
    const before = {
      ...{ at: at(20), by: fitter, entry, found: 'part', done: 'partChanged', words: 'guide worn' },
    };
    expect(line.notices[0]!.ended).toEqual({
      ...{ at: at(20), how: 'closed', by: fitter },
      said: { at: at(20), by: second, entry, found: 'nothing', done: 'noneNeeded', words: null },
      corrections: [{ at: at(40), by: second, why: 'looked again', before }],
    });
    expect(line.story().slice(-2)).toEqual(['closed', 'corrected']);
  });

  it('[NL10] said a second time on an older tape stays beside what was said first', () => {
    const { line, id } = closed();
    line.enter(30, { kind: 'noticeClosed', notice: id, found: 'other', done: 'other' }, second);
    expect(line.notices[0]!.ended).toMatchObject({
      said: { found: 'other', by: second },
      corrections: [{ by: second, why: null, before: { found: 'part', by: fitter } }],
    });
  });

  it('[NL10] withdrawn while it holds still, it is open again for whoever had it', () => {
    const { line, id, entry } = closed();
    line.enter(40, correction(entry));
    expect(line.notices[0]).toMatchObject({ id, ended: null, owner: '12' });
    expect(noticeState(line.notices[0]!)).toBe('taken');
    expect(line.story().slice(-2)).toEqual(['withdrawn', 'reopened']);
    // it is the same one, and nothing is raised beside it
    expect(line.look(50, [stops('fold')])).toBe(0);
    line.look(60, []);
    expect(line.notices[0]!.ended).toMatchObject({ how: 'normal', said: null });
  });

  it('[NL10] withdrawn after it is back to normal it stays ended, and can be said anew', () => {
    const { line, id, entry } = closed();
    line.look(30, []);
    line.enter(40, correction(entry));
    expect(line.notices[0]!.ended).toMatchObject({ how: 'normal', said: null });
    line.enter(50, { ...closing(id), found: 'blanks' });
    expect(line.notices[0]!.ended).toMatchObject({ how: 'normal', said: { found: 'blanks' } });
  });

  it('[NL10] withdrawn where another one is open about the same, it stays ended beside it', () => {
    const line = new Noticed();
    const joined = holds('rate', {
      facts: { ...(holds('rate').facts as { kind: 'rate' } & object), most: 'fold' } as never,
    });
    line.look(10, [stops('fold')]);
    line.look(11, [stops('fold'), joined]);
    const { id } = line.notices[0]!;
    line.enter(12, { kind: 'noticeTaken', notice: id });
    line.enter(20, closing(id));
    const { entry } = line.notices[0]!.ended!.said!;
    line.look(30, []);
    line.look(40, [stops('fold')]);
    expect(line.notices.filter(({ ended }) => ended === null)).toHaveLength(1);
    line.enter(50, correction(entry));
    expect(line.notices[0]!.ended).toMatchObject({ said: null });
    expect(line.notices.filter(({ ended }) => ended === null)).toHaveLength(1);
  });

  it('[NL10] of one that ended by itself it is withdrawn without opening it', () => {
    const line = new Noticed();
    line.look(10, [stops('fold')]);
    const { id } = line.notices[0]!;
    line.enter(12, { kind: 'noticeTaken', notice: id });
    line.look(20, []);
    line.enter(30, closing(id));
    line.enter(40, correction(line.notices[0]!.ended!.said!.entry), second);
    expect(line.notices[0]!.ended).toMatchObject({
      ...{ at: at(20), how: 'normal', said: null },
      corrections: [{ at: at(40), by: second, before: { at: at(30), found: 'part' } }],
    });
  });

  it('[NL10] is shown with the entry by which it is corrected, as long as the line holds that', () => {
    const { line, entry } = closed();
    const { index, state } = line.fold;
    const view = noticeView(index, state, line.notices[0]!, { now: at(50) });
    expect(view.ended).toMatchObject({ correctable: entry, corrections: [] });
    const forgotten = noticeView(index, { ...state, said: [] }, line.notices[0]!, { now: at(50) });
    expect(forgotten.ended!.correctable).toBeUndefined();
  });
});
