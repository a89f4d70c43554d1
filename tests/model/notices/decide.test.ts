import { describe, expect, it } from 'vitest';
import { noticeState } from '../../../model/notices/notice.ts';
import { epochMs } from '../../../model/units/units.ts';
import { at } from '../smallLine.ts';
import { holds, Noticed, pressed, stops, until } from './noticeRows.ts';

const kinds = (line: Noticed) => line.notices.map(({ kind }) => kind);

describe('what is raised of what holds', () => {
  it('[NL6] a second thing about the same station joins the first, and is no notice of its own', () => {
    const line = new Noticed();
    line.look(10, [stops('fold')]);
    line.look(20, [stops('fold'), stops('fold', { key: 'stopsCounted/fold' })]);
    expect(kinds(line)).toEqual(['stops']);
    expect(line.notices[0]!.joined).toMatchObject([
      { at: at(20), kind: 'stops', station: 'fold', key: 'stopsCounted/fold', facts: { stops: 3 } },
    ]);
    expect(line.look(21, [stops('fold'), stops('fold', { key: 'stopsCounted/fold' })])).toBe(0);
  });

  it('[NL6] a cascade that comes all at once is one notice: the gravest, then the oldest comes first', () => {
    const line = new Noticed();
    const counted = stops('fold', { key: 'stopsCounted/fold', since: at(5) });
    const rate = holds('rate');
    const lostThere = { ...rate, facts: { ...rate.facts, most: 'fold' } as typeof rate.facts };
    line.look(10, [lostThere, counted, stops('fold', { since: at(2) })]);
    expect(line.notices).toHaveLength(1);
    expect(line.notices[0]).toMatchObject({ key: 'stops/fold' });
    expect(line.notices[0]!.joined.map(({ kind }) => kind)).toEqual(['stops', 'rate']);
  });

  it('[NL6] it is back to normal only when nothing that it is about holds any more', () => {
    const line = new Noticed();
    const counted = stops('fold', { key: 'stopsCounted/fold' });
    line.look(10, [stops('fold'), counted]);
    line.look(20, [counted]);
    expect(noticeState(line.notices[0]!)).toBe('raised');
    line.look(30, []);
    expect(noticeState(line.notices[0]!)).toBe('returned');
  });

  it('[NL6] another station is another notice, and what is graver is always one of its own', () => {
    const line = new Noticed();
    line.look(10, [stops('fold', { stop: 's1' })]);
    line.look(11, [stops('fold', { stop: 's1' }), stops('pick'), pressed('p1', { stop: 's1' })]);
    expect(kinds(line)).toEqual(['stops', 'press', 'stops']);
  });

  it('[NL6] time that nobody saw joins the server that is not heard', () => {
    const line = new Noticed();
    line.look(10, [holds('server'), holds('unseen')]);
    expect(kinds(line)).toEqual(['server']);
  });

  it('[NL7] more than ten in ten minutes are one, that holds as long as anything in it does', () => {
    const line = new Noticed();
    const all = Array.from({ length: 14 }, (_, n) => pressed(`p${n}`));
    line.look(10, all);
    expect(kinds(line)).toEqual([...Array.from({ length: 10 }, () => 'press'), 'many']);
    expect(line.notices.at(-1)).toMatchObject({ level: 'urgent' });
    expect(line.notices.at(-1)!.joined).toHaveLength(4);
    expect(line.look(11, all)).toBe(0);
    line.look(20, all.slice(13));
    expect(noticeState(line.notices.at(-1)!)).toBe('raised');
    line.look(30, []);
    expect(line.notices.map(noticeState)).toEqual(Array.from({ length: 11 }, () => 'returned'));
  });

  it('[NL7] what is graver than the one that stands for many is one of its own', () => {
    const line = new Noticed();
    const notes = Array.from({ length: 12 }, (_, n) =>
      stops(`s${n}`, { key: `stops/s${n}`, station: `s${n}`, level: 'note' }),
    );
    line.look(10, notes);
    expect(line.notices.at(-1)).toMatchObject({ kind: 'many', level: 'note' });
    line.look(20, [...notes, pressed('p1')]);
    expect(line.notices.at(-1)).toMatchObject({ kind: 'press', level: 'urgent' });
  });

  it('[NL6] nothing joins what is back to normal, or on a shelf: it would be told as another thing, or to nobody', () => {
    const line = new Noticed();
    const counted = stops('fold', { key: 'stopsCounted/fold' });
    line.look(10, [stops('fold')]);
    line.look(20, []);
    line.look(30, [counted]);
    expect(line.notices.map(noticeState)).toEqual(['returned', 'raised']);
    const shelved = new Noticed();
    shelved.look(10, [stops('fold')]);
    const { id } = shelved.notices[0]!;
    shelved.enter(11, { kind: 'noticeShelved', notice: id, until: until(5000), words: 'part comes' });
    shelved.look(30, [stops('fold'), counted]);
    expect(shelved.notices.map(noticeState)).toEqual(['shelved', 'raised']);
  });

  it('[NL6] another server is another notice, and a rate joins the station alone that lost most', () => {
    const line = new Noticed();
    const other = { kind: 'server', server: 'hmi', since: epochMs(at(0)) } as const;
    line.look(10, [holds('server')]);
    line.look(20, [holds('server'), holds('server', { key: 'server/hmi', facts: other })]);
    expect(kinds(line)).toEqual(['server', 'server']);
    const slow = new Noticed();
    slow.look(10, [stops('fold'), holds('rate')]);
    expect(kinds(slow)).toEqual(['stops', 'rate']);
  });

  it('[NL9] evidence that is as weak as it can be is written once, and not without end', () => {
    const line = new Noticed();
    const weak = stops('fold');
    const none = { ...weak, facts: { ...weak.facts, onceInShifts: 0 } as typeof weak.facts };
    expect(line.look(10, [none])).toBe(1);
    expect(line.look(11, [none])).toBe(0);
  });

  it('[NL7] what only a person may close is never gathered, however many there are', () => {
    const line = new Noticed();
    const presses = Array.from({ length: 12 }, (_, n) => pressed(`p${n}`));
    const facts = { kind: 'ranOn', finding: 'g1', of: 'guard', name: 'guard door 1' } as const;
    const ran = pressed('x', { key: 'ranOn/g1', facts, since: at(2) });
    line.look(10, [...presses, ran]);
    expect(line.notices.filter(({ kind }) => kind === 'ranOn')).toHaveLength(1);
    expect(line.notices.some(({ kind }) => kind === 'many')).toBe(true);
  });

  it('[NL4] what joined from elsewhere is told by itself once the whole was closed, where it holds still', () => {
    const line = new Noticed();
    const b = stops('pick', { stop: 's1' });
    line.look(10, [stops('fold', { stop: 's1' })]);
    line.look(11, [stops('fold', { stop: 's1' }), b]);
    expect(line.notices).toHaveLength(1);
    const { id } = line.notices[0]!;
    line.enter(12, { kind: 'noticeTaken', notice: id });
    line.enter(13, { kind: 'noticeClosed', notice: id, found: 'part', done: 'partChanged' });
    line.look(14, [stops('fold', { stop: 's1' }), b]);
    expect(line.notices.map(({ key }) => key)).toEqual(['stops/fold', 'stops/pick']);
  });

  it('[NL7] ten minutes later each is one again', () => {
    const line = new Noticed();
    line.look(
      10,
      Array.from({ length: 10 }, (_, n) => pressed(`p${n}`)),
    );
    line.look(700, [stops('fold')]);
    expect(kinds(line).at(-1)).toBe('stops');
  });

  it('[NL8] while nobody sees the line nothing returns to normal', () => {
    const line = new Noticed();
    line.look(10, [stops('fold')]);
    expect(line.look(60, [], (key) => key.startsWith('stops'))).toBe(0);
    expect(line.look(70, [])).toBe(1);
  });

  it('[NL9] evidence twice as strong is told on, once, to whoever wants it stronger', () => {
    const line = new Noticed();
    const strong = (onceInShifts: number) => {
      const one = stops('fold');
      return { ...one, facts: { ...one.facts, onceInShifts } as typeof one.facts };
    };
    line.look(10, [strong(19)]);
    expect(line.look(20, [strong(37)])).toBe(0);
    expect(line.look(30, [strong(38)])).toBe(1);
    expect(line.look(31, [strong(38)])).toBe(0);
    expect(line.notices[0]!.facts).toMatchObject({ onceInShifts: 38 });
  });
});
