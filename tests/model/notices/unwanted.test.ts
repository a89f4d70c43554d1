import { describe, expect, it } from 'vitest';
import { NOBODY_SHUT_OFF } from '../../../model/notices/shutOff.ts';
import { unwanted } from '../../../model/notices/unwanted.ts';
import { at } from '../smallLine.ts';
import { fitter, Noticed, stops, until } from './noticeRows.ts';

function raised(): { line: Noticed; id: string; of: (person?: string, round?: number) => unknown } {
  const line = new Noticed();
  line.look(10, [stops('fold')]);
  const of = (person = '13', round = 0) => unwanted(line.notices[0]!, { person, round }, NOBODY_SHUT_OFF);
  return { line, id: line.notices[0]!.id, of };
}

describe('a message that waits', () => {
  it('[NR3] is wanted as long as nobody has taken its notice, also back to normal', () => {
    const { line, of } = raised();
    expect(of()).toBeUndefined();
    line.look(20, []);
    expect(of()).toBeUndefined();
  });

  it('[NR3] is wanted no more once it is taken, closed or shelved, or has ended: by whom, and when', () => {
    const { line, id, of } = raised();
    line.enter(20, { kind: 'noticeShelved', notice: id, until: until(100), words: 'later' });
    expect(of()).toEqual({ why: 'shelved', by: fitter, at: at(20) });
    line.enter(30, { kind: 'noticeTaken', notice: id });
    expect(of()).toEqual({ why: 'taken', by: fitter, at: at(30) });
    line.enter(40, { kind: 'noticeClosed', notice: id, found: 'part', done: 'partChanged' });
    expect(of()).toEqual({ why: 'closed', by: fitter, at: at(40) });
    const other = raised();
    other.line.enter(30, { kind: 'noticeTaken', notice: other.id });
    other.line.look(50, []);
    expect(other.of()).toEqual({ why: 'ended', by: null, at: at(50) });
  });

  it('[NR3] is wanted by whoever it was handed to since, and by nobody else', () => {
    const { line, id, of } = raised();
    line.enter(30, { kind: 'noticeHanded', notice: id, to: '13' });
    expect(of('13', 1)).toBeUndefined();
    // what was to tell the same person before that
    expect(of('13', 0)).toMatchObject({ why: 'taken' });
    expect(of('14', 0)).toMatchObject({ why: 'taken' });
    // handed back to whoever had taken it
    const back = raised();
    const [one, other] = ['13', '14'].map((number) => ({ kind: 'person', number }) as const);
    back.line.enter(30, { kind: 'noticeTaken', notice: back.id }, one);
    back.line.enter(31, { kind: 'noticeHanded', notice: back.id, to: '14' }, one);
    back.line.enter(32, { kind: 'noticeHanded', notice: back.id, to: '13' }, other);
    expect(back.of('13', 2)).toBeUndefined();
    expect(back.of('14', 1)).toEqual({ why: 'handedOn', by: other, at: at(32) });
    // taken over, it has to be told to nobody
    line.enter(40, { kind: 'noticeTaken', notice: id, over: until(30) }, { kind: 'person', number: '13' });
    expect(of('13', 1)).toMatchObject({ why: 'taken' });
  });

  it('[NR3] of an earlier round is told anew in the next', () => {
    const { line, of } = raised();
    line.look(20, []);
    line.look(700, [stops('fold')]);
    expect(of('13', 0)).toEqual({ why: 'again', by: null, at: at(700) });
    expect(of('13', 1)).toBeUndefined();
  });

  it('[NR1] to somebody whose access has ended is not wanted', () => {
    const { line } = raised();
    const gone = unwanted(line.notices[0]!, { person: '13', round: 0 }, new Set(['13']));
    expect(gone).toEqual({ why: 'accessEnded', by: null, at: null });
  });
});
