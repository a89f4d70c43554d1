import { describe, expect, it } from 'vitest';
import { dueDevices, type NoticeRecord, noticeState } from '../../../model/notices/notice.ts';
import { due, Noticed } from './noticeRows.ts';

function listOf({ facts }: Readonly<NoticeRecord>): readonly string[] {
  return facts.kind === 'test' ? dueDevices(facts).map(({ device }) => device) : [];
}

describe('devices that are due a test', () => {
  it('[NC7] are one notice, off whose list each recorded test is taken, and which has ended with the last', () => {
    const line = new Noticed();
    line.look(10, [due('front', 'back', 'door')]);
    expect(line.notices.map(listOf)).toEqual([['front', 'back', 'door']]);
    line.enter(11, { kind: 'noticeTaken', notice: line.notices[0]!.id });
    expect(line.look(20, [due('front', 'door')])).toBe(1);
    expect(listOf(line.notices[0]!)).toEqual(['front', 'door']);
    // the same list is no news
    expect(line.look(21, [due('front', 'door')])).toBe(0);
    // what comes due later joins it, and nobody is told anew
    line.look(30, [due('front', 'door', 'panel')]);
    expect(line.notices).toHaveLength(1);
    expect(line.notices[0]).toMatchObject({ round: 0, taken: { by: { number: '12' } } });
    expect(listOf(line.notices[0]!)).toEqual(['front', 'door', 'panel']);
    line.look(40, []);
    expect(line.notices[0]!.ended).toMatchObject({ how: 'normal' });
  });

  it('[NC7] are told once more when another comes due after it was closed, and not before', () => {
    const line = new Noticed();
    line.look(10, [due('front', 'back')]);
    const { id } = line.notices[0]!;
    line.enter(11, { kind: 'noticeTaken', notice: id });
    line.enter(12, { kind: 'noticeClosed', notice: id, found: 'noTime', done: 'planned' });
    expect(line.look(20, [due('front', 'back')])).toBe(0);
    expect(line.look(21, [due('back')])).toBe(0);
    line.look(30, [due('back', 'door')]);
    expect(line.notices.map(noticeState)).toEqual(['ended', 'raised']);
    expect(listOf(line.notices[1]!)).toEqual(['back', 'door']);
    // what was closed keeps what it said
    expect(listOf(line.notices[0]!)).toEqual(['front', 'back']);
    expect(line.look(31, [due('back', 'door')])).toBe(0);
  });
});
