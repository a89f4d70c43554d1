import { describe, expect, it } from 'vitest';
import { tellingsOf } from '../../../gateway/notices/telling.ts';
import { comingSteps } from '../../../model/notices/coming.ts';
import type { Target } from '../../../model/notices/recipients.ts';
import { FIRST_SETTINGS, type NoticeSettings } from '../../../model/notices/settings.ts';
import { NOBODY_SHUT_OFF } from '../../../model/notices/shutOff.ts';
import { noticeView } from '../../../model/view/noticesView.ts';
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

const told = (line: Noticed, isOpen = false, of = settings, shutOff: readonly string[] = []) => {
  const notice = line.notices[0]!;
  const { out, entries } = tellingsOf(notice, {
    line: line.line,
    settings: of,
    now: at(20),
    isOpenFor: () => isOpen,
    shutOff: new Set(shutOff),
  });
  return {
    out: out.map(({ person, way }) => `${person} ${way}`),
    pages: entries.flatMap((one) =>
      one.kind === 'noticeTold' ? [`${one.person} ${one.why ?? one.way}`] : [],
    ),
    entries,
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
    const [first] = comingSteps(settings, line.notices[0]!, {
      ...{ line: line.line, now: at(20), shutOff: NOBODY_SHUT_OFF },
    });
    expect(first?.tell).toEqual([{ kind: 'person', person: '13' }]);
  });

  it('[NL2] whoever it is handed to is told once by each way, and nobody else', () => {
    const line = new Noticed();
    line.look(10, [stops('fold')]);
    const { id } = line.notices[0]!;
    line.enter(11, { kind: 'noticeTaken', notice: id });
    expect(told(line).out).toEqual([]);
    line.enter(12, { kind: 'noticeHanded', notice: id, to: '13' });
    expect(told(line, true)).toMatchObject({ out: ['13 mail'], pages: ['13 page'] });
    line.enter(13, {
      kind: 'noticeTold',
      notice: id,
      person: '13',
      way: 'mail',
      round: 1,
      step: 0,
      failed: false,
    });
    expect(told(line)).toMatchObject({ out: [], pages: [] });
    // and handed on by them, also to whoever took it first
    line.enter(14, { kind: 'noticeHanded', notice: id, to: '12' }, { kind: 'person', number: '13' });
    expect(told(line).out).toEqual(['12 mail']);
    // whoever hands it to themselves is told nothing
    line.enter(15, { kind: 'noticeHanded', notice: id, to: '13' }, { kind: 'person', number: '13' });
    expect(told(line).out).toEqual([]);
  });

  describe('[NR1] whose access has ended is not told', () => {
    const mail = (person: string) => ({ person, ways: ['mail'], when });
    const person = (number: string) => ({ kind: 'person' as const, person: number });
    const rota = {
      ...{ id: 'fitters', first: '2026-03-02', clock: '06:00', days: 7, turns: ['12', '13'] },
      substitutes: [],
    };
    const withPlan = (tell: readonly Target[], more = true): NoticeSettings => ({
      ...FIRST_SETTINGS,
      who: {
        recipients: [mail('12'), mail('13'), mail('14')],
        rotas: [rota],
        plans: [
          {
            steps: [{ afterMinutes: 0, tell }, ...(more ? [{ afterMinutes: 10, tell: [person('14')] }] : [])],
          },
        ],
      },
    });
    const raised = () => {
      const line = new Noticed();
      line.look(10, [stops('fold')]);
      return line;
    };
    const write = (line: Noticed, { entries }: ReturnType<typeof told>) => {
      for (const body of entries) line.enter(21, body);
    };

    it('the next step is, at once, and the notice says who was left out, once', () => {
      const line = raised();
      const first = told(line, false, withPlan([person('12')]), ['12']);
      expect(first).toMatchObject({ out: ['14 mail'], pages: ['12 accessEnded'] });
      write(line, first);
      expect(line.notices[0]).toMatchObject({
        step: 1,
        told: [{ person: '12', failed: true, why: 'accessEnded' }],
      });
      expect(told(line, false, withPlan([person('12')]), ['12']).pages).toEqual([]);
    });

    it('nor is one whose turn it is', () => {
      // it is the third week of that rota
      const turn = told(raised(), false, withPlan([{ kind: 'rota', rota: 'fitters' }]), ['12']);
      expect(turn).toMatchObject({ out: ['14 mail'], pages: ['12 accessEnded'] });
    });

    it('everybody else is, where the plan names nobody besides', () => {
      const all = told(raised(), false, withPlan([person('12')], false), ['12']);
      expect(all).toMatchObject({ out: ['13 mail', '14 mail'], pages: ['12 accessEnded'] });
    });

    it('also not of what was handed over to them before it ended', () => {
      const line = raised();
      line.enter(12, { kind: 'noticeHanded', notice: line.notices[0]!.id, to: '13' });
      const handed = told(line, true, settings, ['13']);
      expect(handed).toMatchObject({ out: [], pages: ['13 accessEnded'] });
      write(line, handed);
      expect(told(line, true, settings, ['13']).entries).toEqual([]);
      const { index, state } = line.fold;
      const known = { now: at(30), shutOff: new Set(['13']) };
      expect(noticeView(index, state, line.notices[0]!, known).ownerShutOff).toBe(true);
    });
  });
});
