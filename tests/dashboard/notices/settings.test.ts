import { describe, expect, it } from 'vitest';
import { keepDraft, readDraft } from '../../../dashboard/notices/settingsDraft.ts';
import { numberOf } from '../../../dashboard/notices/settingsFields.tsx';
import { troublesOf } from '../../../dashboard/notices/settingsTroubles.ts';
import type { RecipientSettings } from '../../../model/notices/recipients.ts';
import { FIRST_SETTINGS, type NoticeRules, type NoticeSettings } from '../../../model/notices/settings.ts';
import { settings } from '../../browser/noticeSettingsAnswers.ts';

function store() {
  const rows = new Map<string, string>();
  return {
    getItem: (key: string) => rows.get(key) ?? null,
    setItem: (key: string, value: string) => void rows.set(key, value),
    removeItem: (key: string) => void rows.delete(key),
  };
}

const ruled = (when: Partial<NoticeRules>): NoticeSettings => ({
  ...settings,
  when: { ...settings.when, ...when },
});
const told = (who: Partial<RecipientSettings>): NoticeSettings => ({
  ...settings,
  who: { ...settings.who, ...who },
});
const [first, second] = settings.who.recipients;
const [rota] = settings.who.rotas;
const [plan] = settings.who.plans;

describe('what keeps settings of notices from being saved', () => {
  it('is nothing in those that Scoreline comes with, and in whole ones', () => {
    expect(troublesOf(FIRST_SETTINGS)).toEqual([]);
    expect(troublesOf(settings)).toEqual([]);
  });

  it.each([
    ['a number half typed', { changeover: { on: true, times: Number.NaN, minutes: 60 } }],
    ['a number out of its bounds', { rate: { on: true, share: 1.2, minutes: 30 } }],
    ['parts of a stop', { stopsCounted: { ...settings.when.stopsCounted, stops: 2.5 } }],
    [
      'no cartons to count within',
      { stopsCounted: { ...settings.when.stopsCounted, within: { kind: 'cartons', cartons: 0 } as const } },
    ],
    ['no hours', { returnedHours: 0 }],
  ])('is %s in a rule', (_what, when) => {
    expect(troublesOf(ruled(when))).toHaveLength(1);
  });

  it.each([
    [
      'a name in place of a number',
      { recipients: [{ ...first!, person: 'Fitter' }, second!], rotas: [], plans: [] },
    ],
    ['nobody typed yet', { recipients: [...settings.who.recipients, { ...first!, person: '' }] }],
    ['somebody told by no way', { recipients: [{ ...first!, ways: [] }, second!] }],
    ['somebody twice', { recipients: [...settings.who.recipients, first!] }],
    ['stations none of which is chosen', { recipients: [{ ...first!, stations: [] }, second!] }],
    [
      'shifts none of which is chosen',
      { recipients: [{ ...first!, when: { shifts: [], quiet: [] } }, second!] },
    ],
    [
      'quiet hours without an end',
      { recipients: [{ ...first!, when: { quiet: [{ from: '22:00', to: '' }] } }, second!] },
    ],
    ['a rota with a space in its name', { rotas: [{ ...rota!, id: 'night fitters' }], plans: [] }],
    ['a rota that begins on no day', { rotas: [{ ...rota!, first: '' }] }],
    ['a rota without turns', { rotas: [{ ...rota!, turns: [] }] }],
    ['a turn of somebody who is not told', { rotas: [{ ...rota!, turns: ['4711', '9'] }] }],
    [
      'somebody who stands in until before it begins',
      { rotas: [{ ...rota!, substitutes: [{ ...rota!.substitutes[0]!, to: '2026-03-17T06:00' }] }] },
    ],
    ['a plan without steps', { plans: [{ ...plan!, steps: [] }] }],
    ['a step that tells nobody', { plans: [{ ...plan!, steps: [{ afterMinutes: 0, tell: [] }] }] }],
    ['a plan that names a rota that is not there', { rotas: [] }],
    ['a plan for no level', { plans: [{ ...plan!, levels: [] }] }],
  ])('is %s', (_what, who) => {
    expect(troublesOf(told(who))).toHaveLength(1);
  });
});

describe('a number that is typed', () => {
  it('has a point or a comma, and is none while it is half typed', () => {
    expect(['1.25', '1,25', ' 60 ', '.5'].map(numberOf)).toEqual([1.25, 1.25, 60, 0.5]);
    for (const text of ['', 'x', '1.2.3', '-1', '1e3', ',']) expect(numberOf(text)).toBeNaN();
  });
});

describe('what was changed and not saved', () => {
  it('is read again as it was, a number that was half typed as none', () => {
    const kept = store();
    const changed = ruled({ changeover: { on: true, times: Number.NaN, minutes: 60 } });
    keepDraft(kept, 'k', { settings: changed, why: 'too late', from: settings });
    expect(readDraft(kept, 'k')).toEqual({ settings: changed, why: 'too late', from: settings });
    keepDraft(kept, 'k', undefined);
    expect(readDraft(kept, 'k')).toBeUndefined();
  });

  it('is nothing where something else stands in its place, and is lost without harm where nothing is kept', () => {
    for (const text of ['{', '3', '{"settings":{}}'])
      expect(readDraft({ getItem: () => text }, 'k')).toBeUndefined();
    const full = {
      ...store(),
      setItem: () => {
        throw new Error('no room');
      },
    };
    expect(() => keepDraft(full, 'k', { settings, why: '', from: settings })).not.toThrow();
  });
});
