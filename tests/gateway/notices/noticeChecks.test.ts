import { describe, expect, it } from 'vitest';
import { checkEntry } from '../../../gateway/api/entryChecks.ts';
import { readEntry } from '../../../gateway/api/entrySchema.ts';
import type { Author, Entry, EntryBody } from '../../../model/entries/entries.ts';
import type { Found } from '../../../model/notices/answers.ts';
import { FIRST_SETTINGS, type NoticeSettings } from '../../../model/notices/settings.ts';
import { type EpochMs, epochMs } from '../../../model/units/units.ts';
import { noticeView } from '../../../model/view/noticesView.ts';
import { fitter, Noticed, stops, until } from '../../model/notices/noticeRows.ts';
import { at } from '../../model/smallLine.ts';

const { line } = new Noticed();
const second = { kind: 'person', number: '13' } as const;
const recipients = [{ person: '13', ways: ['mail'], when: { quiet: [] } }];
const settings: NoticeSettings = { ...FIRST_SETTINGS, who: { recipients, rotas: [], plans: [] } };

function raised(): { noticed: Noticed; id: string } {
  const noticed = new Noticed();
  noticed.enter(6, { kind: 'noticeSettings', settings, why: 'first ones' });
  noticed.look(10, [stops('fold')]);
  return { noticed, id: noticed.notices[0]!.id };
}

/** What is refused of it, in the first sentence; undefined where it is taken. */
function refused(
  { noticed }: { noticed: Noticed },
  body: EntryBody,
  author: Author = fitter,
): string | undefined {
  const entry = { id: 'e', at: epochMs(at(20)), author, ...body } as Entry;
  try {
    checkEntry(entry, line, noticed.fold.state);
    return undefined;
  } catch (error) {
    return (error as Error).message;
  }
}

describe('what cannot be done with a notice', () => {
  it('is anything with one that is not there', () => {
    const one = raised();
    expect(refused(one, { kind: 'noticeTaken', notice: 'none' })).toBe('There is no notice none.');
  });

  it('is to take what somebody has taken, or what has ended', () => {
    const one = raised();
    expect(refused(one, { kind: 'noticeTaken', notice: one.id })).toBeUndefined();
    one.noticed.enter(12, { kind: 'noticeTaken', notice: one.id });
    expect(refused(one, { kind: 'noticeTaken', notice: one.id })).toMatch(/^You have this notice already/);
    one.noticed.look(13, []);
    expect(refused(one, { kind: 'noticeTaken', notice: one.id })).toBe('This notice has ended.');
  });

  it('[NS2] is to close it, or correct that, with an answer of another kind of notice', () => {
    const one = raised();
    one.noticed.enter(12, { kind: 'noticeTaken', notice: one.id });
    const closed = { kind: 'noticeClosed', notice: one.id, found: 'part', done: 'partChanged' } as const;
    expect(refused(one, { ...closed, found: 'otherFiles' })).toBe(
      'The answer otherFiles does not fit this notice.',
    );
    expect(refused(one, { ...closed, done: 'roomMade' })).toBe(
      'The answer roomMade does not fit this notice.',
    );
    expect(refused(one, closed)).toBeUndefined();
    // on a tape from before it stays, and is corrected with one that fits
    one.noticed.enter(13, { ...closed, found: 'otherFiles' });
    const { said } = one.noticed.notices[0]!.ended!;
    expect(said).toMatchObject({ found: 'otherFiles', done: 'partChanged' });
    const corrected = (found: Found) =>
      refused(one, {
        ...{ kind: 'correction', of: said!.entry, was: 'noticeClosed', why: 'so' },
        body: { ...closed, found },
      });
    expect(corrected('tooSmall')).toBe('The answer tooSmall does not fit this notice.');
    expect(corrected('dirt')).toBeUndefined();
  });

  it('[NL2] is to take what another one has, unless it is taken over from who is shown to have it', () => {
    const one = raised();
    one.noticed.enter(12, { kind: 'noticeTaken', notice: one.id });
    const taken = (over?: number) =>
      refused(
        one,
        { kind: 'noticeTaken', notice: one.id, ...(over === undefined ? {} : { over }) } as EntryBody,
        second,
      );
    const going = 'Number 12 is going already, since 06:00 on Tue 17 Mar.';
    expect(taken()).toBe(going);
    expect(taken(until(11))).toBe(going);
    expect(taken(until(12))).toBeUndefined();
    one.noticed.enter(
      14,
      { kind: 'noticeTaken', notice: one.id, over: until(12) },
      { kind: 'position', position: 'front' },
    );
    expect(taken(until(12))).toMatch(/is going already/);
  });

  it('[NL10] is to close what somebody closed already: the second is told who did, when and with what', () => {
    const one = raised();
    const closed = {
      kind: 'noticeClosed',
      notice: one.id,
      found: 'part',
      done: 'partChanged',
      words: 'worn',
    } as const;
    one.noticed.enter(12, { kind: 'noticeTaken', notice: one.id });
    one.noticed.enter(13, closed);
    expect(refused(one, { ...closed, found: 'blanks' }, second)).toBe(
      'This notice was closed before you, by number 12 at 06:00 on Tue 17 Mar: found: a part was worn or broken; done: part changed. “worn”',
    );
    expect(one.noticed.notices[0]!.ended!.said).toMatchObject({ found: 'part', by: fitter });
  });

  it('[NL10] is to correct a closing with one of another notice, or one that counts no more', () => {
    const one = raised();
    const closed = { kind: 'noticeClosed', notice: one.id, found: 'part', done: 'partChanged' } as const;
    one.noticed.enter(12, { kind: 'noticeTaken', notice: one.id });
    one.noticed.enter(13, closed);
    const { entry: of } = one.noticed.notices[0]!.ended!.said!;
    const corrected = (body?: typeof closed) =>
      refused(
        one,
        { kind: 'correction', of, was: 'noticeClosed', why: 'so', ...(body ? { body } : {}) },
        second,
      );
    expect(corrected({ ...closed, notice: 'n2' })).toBe('The correction is said of another notice.');
    expect(corrected(closed)).toBeUndefined();
    expect(corrected()).toBeUndefined();
    one.noticed.enter(14, closed, second);
    expect(corrected()).toBe('What that entry said of the notice counts no more.');
    one.noticed.fold.state.notices.length = 0;
    expect(corrected()).toBe(`There is no notice ${one.id}.`);
  });

  it('[NL10] is to correct a closing that somebody else corrected meanwhile: the second is told who did, and with what', () => {
    const one = raised();
    const closed = { kind: 'noticeClosed', notice: one.id, found: 'part', done: 'partChanged' } as const;
    one.noticed.enter(12, { kind: 'noticeTaken', notice: one.id });
    one.noticed.enter(13, closed);
    const shown = () =>
      noticeView(one.noticed.fold.index, one.noticed.fold.state, one.noticed.notices[0]!, { now: at(20) });
    const corrected = (of: string, found: Found) =>
      ({ kind: 'correction', of, was: 'noticeClosed', why: 'so', body: { ...closed, found } }) as const;
    const first = shown().ended!.correctable!;
    one.noticed.enter(14, corrected(first, 'blanks'), second);
    expect(refused(one, corrected(first, 'dirt'))).toMatch(
      /^This was corrected before you, by 13 at 06:00 on Tue 17 Mar; it says now: found: .*blank.*, done: part changed$/,
    );
    expect(one.noticed.notices[0]!.ended!.said).toMatchObject({ found: 'blanks', by: second });
    // by what it says now it is corrected
    expect(refused(one, corrected(shown().ended!.correctable!, 'dirt'))).toBeUndefined();
    one.noticed.enter(15, corrected(shown().ended!.correctable!, 'dirt'));
    expect(one.noticed.notices[0]!.ended).toMatchObject({
      said: { found: 'dirt', by: fitter },
      corrections: [{ before: { found: 'part' } }, { before: { found: 'blanks', by: second } }],
    });
  });

  it('is to close what nobody took; what has ended can be told of at any time', () => {
    const one = raised();
    const closed = { kind: 'noticeClosed', notice: one.id, found: 'part', done: 'partChanged' } as const;
    expect(refused(one, closed)).toBe('Nobody has taken this notice yet.');
    one.noticed.enter(12, { kind: 'noticeTaken', notice: one.id });
    expect(refused(one, closed)).toBeUndefined();
    one.noticed.look(13, []);
    expect(refused(one, closed)).toBeUndefined();
  });

  it('[NL5] is to close what read open while the line ran, without its finding', () => {
    const noticed = new Noticed();
    const facts = { kind: 'ranOn', finding: 'g1', of: 'guard', name: 'guard door 1' } as const;
    noticed.look(10, [stops('fold', { key: 'ranOn/g1', facts })]);
    const { id } = noticed.notices[0]!;
    noticed.enter(12, { kind: 'noticeTaken', notice: id });
    const closed = { kind: 'noticeClosed', notice: id, found: 'sensor', done: 'partChanged' } as const;
    // the list of findings has no room for it any more: it is closed here
    expect(refused({ noticed }, closed)).toBeUndefined();
    noticed.fold.state.open.push({ id: 'g1' } as never);
    expect(refused({ noticed }, closed)).toBe('This notice is closed with its finding.');
  });

  it('is to shelve it without an end, into the past, or for longer than a week', () => {
    const one = raised();
    const shelved = (after: number) =>
      refused(one, { kind: 'noticeShelved', notice: one.id, until: until(after), words: 'later' });
    expect(shelved(10)).toBe('A shelf ends later than now.');
    expect(shelved(11)).toBeUndefined();
    expect(shelved(10 + 7 * 86_400)).toBeUndefined();
    expect(shelved(11 + 7 * 86_400)).toBe('A notice is shelved for a week at most.');
    expect(refused(one, { kind: 'noticeUnshelved', notice: one.id })).toBe('This notice is not shelved.');
  });

  it('[NR1] is to hand it over to somebody who is told of nothing, or whose access has ended', () => {
    const one = raised();
    const handed = (to: string) => refused(one, { kind: 'noticeHanded', notice: one.id, to });
    expect(handed('13')).toBeUndefined();
    expect(handed('99')).toBe('Number 99 is told of no notices.');
    const body = { kind: 'noticeHanded', notice: one.id, to: '13' } as const;
    const entry = { id: 'e', at: epochMs(at(20)), author: fitter, ...body } as Entry;
    const time = { kept: false, now: at(20), shutOff: new Set(['13']) };
    expect(() => checkEntry(entry, line, one.noticed.fold.state, time)).toThrow(
      'The access of number 13 has ended.',
    );
  });

  it('is to set what the line has not', () => {
    const one = raised();
    const set = (more: object) => ({
      kind: 'noticeSettings' as const,
      why: 'test',
      settings: { ...settings, who: { ...settings.who, recipients: [{ ...recipients[0]!, ...more }] } },
    });
    expect(refused(one, set({}))).toBeUndefined();
    expect(refused(one, set({ stations: ['tuck'] }))).toBe('The line has no station tuck.');
    expect(refused(one, set({ when: { shifts: ['noon'], quiet: [] } }))).toBe('The line has no shift noon.');
  });
});

describe('settings as a page sends them', () => {
  const send = (given: unknown) =>
    readEntry(
      {
        line: 'small',
        entry: { id: 's1', author: fitter, kind: 'noticeSettings', settings: given, why: 'too many' },
      },
      0,
    ).entry as Entry & { kind: 'noticeSettings' };

  it('are read as they are', () => {
    expect(send(settings)).toEqual({
      id: 's1',
      at: 0 as EpochMs,
      author: fitter,
      kind: 'noticeSettings',
      settings,
      why: 'too many',
    });
  });

  it.each([
    ['a share above the whole', { rate: { on: true, share: 1.2, minutes: 30 } }],
    ['a budget of no shifts', { stops: { on: true, falseOnceInShifts: 0, graceSeconds: 60 } }],
    ['a level that there is not', { levels: { ...settings.when.levels, stops: 'loud' } }],
    ['a rule that there is not', { stopped: { on: true } }],
    [
      'one stop that repeats itself',
      { stopsCounted: { on: true, stops: 1, within: { kind: 'minutes', minutes: 5 } } },
    ],
  ])('are refused with %s', (_what, more) => {
    expect(() => send({ ...settings, when: { ...settings.when, ...more } })).toThrow();
  });
});
