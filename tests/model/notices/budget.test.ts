import { describe, expect, it } from 'vitest';
import { budgetOf, isStrongEnough, loosest, rejectsFalseOnce } from '../../../model/notices/budget.ts';
import type { NoticeFacts } from '../../../model/notices/notice.ts';
import type { Recipient } from '../../../model/notices/recipients.ts';
import { FIRST_SETTINGS } from '../../../model/notices/settings.ts';

const STATIONS = 11;
const { when } = FIRST_SETTINGS;
const fitter: Recipient = { person: '12', ways: ['mail'], when: { quiet: [] } };
const strength = (onceInShifts: number): NoticeFacts => ({
  kind: 'stops',
  stops: 3,
  cartons: 240,
  from: 0 as never,
  usualCartons: 2400,
  onceInShifts,
});
const rejects: NoticeFacts = {
  kind: 'rejects',
  rule: 'run',
  rejects: 20,
  of: 3000,
  expected: 6,
  onceInShifts: 34,
};

describe('a budget of false calls', () => {
  it('[NB1] is spent by rejects as they were measured, and the rest is left for stops', () => {
    const once = rejectsFalseOnce(STATIONS);
    const { rejects: told, stopsOnceInShifts } = budgetOf(5, STATIONS, true);
    expect(told).toBe(true);
    expect(1 / stopsOnceInShifts + 1 / once).toBeCloseTo(1 / 5, 10);
  });

  it('[NB1] that rejects would take more than half of is spent on stops alone', () => {
    expect(budgetOf(50, STATIONS, true)).toEqual({ rejects: false, stopsOnceInShifts: 50 });
    expect(budgetOf(5, STATIONS, false)).toEqual({ rejects: false, stopsOnceInShifts: 5 });
    expect(isStrongEnough(rejects, { ...fitter, falseOnceInShifts: 50 }, when, STATIONS)).toBe(false);
    expect(isStrongEnough(rejects, fitter, when, STATIONS)).toBe(true);
  });

  it('[NB1] is the person’s: whoever wants rarer ones is told only of stronger evidence', () => {
    const rare = { ...fitter, falseOnceInShifts: 40 };
    expect([10, 39, 40].map((once) => isStrongEnough(strength(once), rare, when, STATIONS))).toEqual([
      false,
      false,
      true,
    ]);
  });

  it('[NB1] is divided over what somebody watches: of one station it reaches as far as of eleven', () => {
    const one = { ...fitter, falseOnceInShifts: 22, stations: ['fold'] };
    // of one station alone once in 22 shifts is as seldom as once in 2 of all eleven
    const own = (once: number) =>
      isStrongEnough(strength(once), one, { ...when, rejects: { on: false } }, STATIONS);
    expect([1.9, 2].map(own)).toEqual([false, true]);
  });

  it('[NB1] what is weaker than the loosest of them is not raised', () => {
    const who = {
      recipients: [fitter, { ...fitter, person: '13', falseOnceInShifts: 2 }],
      rotas: [],
      plans: [],
    };
    const loose = loosest(when, who, STATIONS);
    expect(loose.stopsOnceInShifts).toBeCloseTo(budgetOf(2, STATIONS, true).stopsOnceInShifts, 10);
    expect(loosest(when, FIRST_SETTINGS.who, STATIONS)).toEqual(budgetOf(5, STATIONS, true));
  });

  it('[NB1] what is no judgement is told whatever the budget', () => {
    const facts: NoticeFacts = { kind: 'server', server: 'plc', since: 0 as never };
    expect(isStrongEnough(facts, { ...fitter, falseOnceInShifts: 500 }, when, STATIONS)).toBe(true);
  });
});
