import { describe, expect, it } from 'vitest';
import { tellingsOf } from '../../../gateway/notices/telling.ts';
import { comingSteps } from '../../../model/notices/coming.ts';
import { FIRST_SETTINGS, type NoticeSettings } from '../../../model/notices/settings.ts';
import { Noticed, pressed, stops } from '../../model/notices/noticeRows.ts';
import { at } from '../../model/smallLine.ts';

const when = { quiet: [] };
const who: NoticeSettings['who'] = {
  recipients: [
    { person: '12', ways: ['mail'], when, stations: ['pick'] },
    { person: '13', ways: ['mail', 'page'], when },
  ],
  rotas: [],
  plans: [],
};
const settings: NoticeSettings = { ...FIRST_SETTINGS, who };

const told = (line: Noticed, isOpen = false, of = settings) => {
  const notice = line.notices[0]!;
  const { out, entries } = tellingsOf(notice, {
    line: line.line,
    settings: of,
    now: at(20),
    isOpenFor: () => isOpen,
  });
  return {
    out: out.map(({ person, way }) => `${person} ${way}`),
    pages: entries.flatMap((one) => (one.kind === 'noticeTold' ? [`${one.person} ${one.way}`] : [])),
  };
};

describe('whom a notice reaches', () => {
  it('[NB1] whoever watches other stations is not told what one is judged to be, and is told what is urgent', () => {
    const judged = new Noticed();
    judged.look(10, [stops('fold')]);
    expect(told(judged).out).toEqual(['13 mail']);
    const press = new Noticed();
    press.look(10, [pressed('p1', { station: 'fold' })]);
    expect(told(press).out).toEqual(['12 mail', '13 mail']);
    // with nobody else there it would have reached nobody
    const alone = { ...settings, who: { ...who, recipients: who.recipients.slice(0, 1) } };
    expect(told(press, false, alone).out).toEqual(['12 mail']);
  });

  it('[NB1] what is shown as coming names nobody whom it will not reach', () => {
    const line = new Noticed();
    line.look(10, [stops('fold')]);
    const [first] = comingSteps(settings, line.notices[0]!, line.line);
    expect(first?.tell).toEqual([{ kind: 'person', person: '13' }]);
  });

  it('[NL2] whoever it is handed to is told once by each way, and nobody else', () => {
    const line = new Noticed();
    line.look(10, [stops('fold')]);
    const { id } = line.notices[0]!;
    line.enter(11, { kind: 'noticeTaken', notice: id });
    expect(told(line).out).toEqual([]);
    line.enter(12, { kind: 'noticeHanded', notice: id, to: '13' });
    expect(told(line, true)).toEqual({ out: ['13 mail'], pages: ['13 page'] });
    line.enter(13, {
      kind: 'noticeTold',
      notice: id,
      person: '13',
      way: 'mail',
      round: 1,
      step: 0,
      failed: false,
    });
    expect(told(line)).toEqual({ out: [], pages: [] });
  });
});
