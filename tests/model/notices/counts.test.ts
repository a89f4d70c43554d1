import { describe, expect, it } from 'vitest';
import { countNotices } from '../../../model/notices/counts.ts';
import { epochMs } from '../../../model/units/units.ts';
import { at } from '../smallLine.ts';
import { holds, Noticed, pressed, stops } from './noticeRows.ts';

describe('how many notices there are', () => {
  it('[NS1] open is what has not ended and is on no shelf, whatever its level; untaken what of it nobody has taken', () => {
    const line = new Noticed();
    line.look(10, [stops('fold'), stops('close'), pressed('p1'), holds('server'), holds('rate')]);
    const idOf = (key: string) => line.notices.find((notice) => notice.key === key)!.id;
    const [one, two, three] = [idOf('server'), idOf('stops/fold'), idOf('stops/close')];
    expect(countNotices(line.notices)).toEqual({ open: 5, untaken: 5, shelved: 0 });
    line.enter(11, { kind: 'noticeTaken', notice: one });
    const until = epochMs(at(900));
    line.enter(11, { kind: 'noticeShelved', notice: two, until, words: 'later' });
    line.enter(11, { kind: 'noticeTaken', notice: three });
    line.enter(12, { kind: 'noticeClosed', notice: three, found: 'nothing', done: 'noneNeeded' });
    expect(countNotices(line.notices)).toEqual({ open: 3, untaken: 2, shelved: 1 });
  });
});
