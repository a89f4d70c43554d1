import { describe, expect, it } from 'vitest';
import { tellingsOf } from '../../../gateway/notices/telling.ts';
import type { NoticeLevel, Recipient, RecipientSettings } from '../../../model/notices/recipients.ts';
import { FIRST_SETTINGS } from '../../../model/notices/settings.ts';
import { Noticed, stops, until } from '../../model/notices/noticeRows.ts';
import { at } from '../../model/smallLine.ts';

const anyTime = { quiet: [] };
const fitter: Recipient = { person: '12', ways: ['page', 'mail'], when: anyTime };
const lead: Recipient = { person: '13', ways: ['mail'], when: anyTime };
const person = (number: string) => ({ kind: 'person' as const, person: number });
const plan = {
  steps: [
    { afterMinutes: 0, tell: [person('12')] },
    { afterMinutes: 4, tell: [person('13')] },
  ],
};

/** What is done for the first notice of a line so many seconds after six: ways out by person, and what is written. */
function done(
  line: Noticed,
  second: number,
  who: Partial<RecipientSettings> = {},
  open: readonly string[] = [],
) {
  const { out, entries } = tellingsOf(line.notices[0]!, {
    line: line.line,
    settings: {
      ...FIRST_SETTINGS,
      who: { recipients: [fitter, lead], rotas: [], plans: [plan], ...who },
    },
    now: at(second),
    isOpenFor: (number) => open.includes(number),
  });
  return {
    out: out.map((one) => `${one.person} ${one.way} ${one.step}`),
    entries: entries.map((entry) =>
      entry.kind === 'noticeTold' ? `told ${entry.person} ${entry.way}` : `${entry.kind}`,
    ),
  };
}

function raised(level: NoticeLevel = 'call'): Noticed {
  const line = new Noticed();
  line.look(10, [stops('fold', { level })]);
  return line;
}

describe('whom a notice is told', () => {
  it('goes out by the ways of whoever the plan names, and by a page only where one is open', () => {
    expect(done(raised(), 11)).toEqual({ out: ['12 mail 0'], entries: [] });
    expect(done(raised(), 11, {}, ['12'])).toEqual({ out: ['12 mail 0'], entries: ['told 12 page'] });
  });

  it('reaches the next step when nobody took it, and says so once on the tape', () => {
    const line = raised();
    line.enter(12, { kind: 'noticeTold', notice: line.notices[0]!.id, ...mailed('12') });
    expect(done(line, 10 + 239)).toEqual({ out: [], entries: [] });
    expect(done(line, 10 + 240)).toEqual({ out: ['13 mail 1'], entries: ['noticeStep'] });
    line.enter(251, { kind: 'noticeStep', notice: line.notices[0]!.id, step: 1 });
    expect(done(line, 252)).toEqual({ out: ['13 mail 1'], entries: [] });
  });

  it('goes on at once to the next where a way has come to nothing', () => {
    const line = raised();
    const failed = { ...mailed('12'), failed: true };
    line.enter(12, { kind: 'noticeTold', notice: line.notices[0]!.id, ...failed });
    expect(done(line, 13)).toEqual({ out: ['13 mail 1'], entries: ['noticeStep'] });
  });

  it('tells nobody any more once it is taken or shelved, and everybody anew in its next round', () => {
    const line = raised();
    const { id } = line.notices[0]!;
    line.enter(12, { kind: 'noticeTold', notice: id, ...mailed('12') });
    line.enter(13, { kind: 'noticeShelved', notice: id, until: until(100), words: 'waits for a part' });
    expect(done(line, 50)).toEqual({ out: [], entries: [] });
    line.look(100, [stops('fold')]);
    expect(done(line, 101)).toEqual({ out: ['12 mail 0'], entries: [] });
    // steps are counted from the beginning of the round
    expect(done(line, 300)).toEqual({ out: ['12 mail 0'], entries: [] });
    line.enter(301, { kind: 'noticeTaken', notice: id });
    expect(done(line, 302)).toEqual({ out: [], entries: [] });
  });

  it('leaves out whoever watches other stations, or wants stronger evidence', () => {
    const other = { recipients: [{ ...fitter, stations: ['pick'] }, lead] };
    expect(done(raised(), 11, other).out).toEqual(['13 mail 1']);
    const rare = { recipients: [{ ...fitter, falseOnceInShifts: 50 }, lead] };
    expect(done(raised(), 11, rare).out).toEqual(['13 mail 1']);
  });

  it('[NL3] what is back to normal and was never taken is still told of', () => {
    const line = raised();
    line.look(20, []);
    expect(done(line, 21).out).toEqual(['12 mail 0']);
  });

  it('[NL3] what is back to normal goes to nobody further down the plan', () => {
    const line = raised();
    line.enter(12, { kind: 'noticeTold', notice: line.notices[0]!.id, ...mailed('12') });
    line.look(20, []);
    expect(done(line, 10 + 240)).toEqual({ out: [], entries: [] });
  });

  it('without anybody who is told it is told by open pages alone, and nothing is written', () => {
    expect(done(raised(), 11, { recipients: [], plans: [] }, ['12'])).toEqual({ out: [], entries: [] });
  });
});

function mailed(to: string) {
  return { person: to, way: 'mail', round: 0, step: 0, failed: false } as const;
}
