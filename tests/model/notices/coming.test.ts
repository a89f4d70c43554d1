import { describe, expect, it } from 'vitest';
import { comingSteps } from '../../../model/notices/coming.ts';
import type { RecipientSettings } from '../../../model/notices/recipients.ts';
import { FIRST_SETTINGS } from '../../../model/notices/settings.ts';
import { at } from '../smallLine.ts';
import { Noticed, stops, until } from './noticeRows.ts';

const person = (number: string) => ({ kind: 'person' as const, person: number });
const recipients = ['12', '13'].map((number) => ({ person: number, ways: ['mail'], when: { quiet: [] } }));
const who: RecipientSettings = {
  recipients,
  rotas: [],
  plans: [
    {
      steps: [
        { afterMinutes: 0, tell: [person('12')] },
        { afterMinutes: 4, tell: [person('13')] },
      ],
    },
  ],
};

interface Raised {
  readonly line: Noticed;
  readonly id: string;
  readonly coming: (of?: RecipientSettings, shutOff?: readonly string[]) => readonly string[];
}

function raised(): Raised {
  const line = new Noticed();
  line.look(10, [stops('fold')]);
  const coming = (of = who, shutOff: readonly string[] = []) =>
    comingSteps({ ...FIRST_SETTINGS, who: of }, line.notices[0]!, {
      ...{ line: line.line, now: at(20), shutOff: new Set(shutOff) },
    }).map(({ at: when, step, tell, leftOut }) => {
      const names = tell.map((one) => (one.kind === 'person' ? one.person : one.rota)).join(' ');
      const without = leftOut.length === 0 ? '' : `, without ${leftOut.join(' ')}`;
      return `${(when - at(0)) / 10_000_000} s, step ${step}: ${names}${without}`;
    });
  return { line, id: line.notices[0]!.id, coming };
}

const told = { kind: 'noticeTold', person: '12', way: 'mail', round: 0, step: 0, failed: false } as const;

describe('who will be told of a notice', () => {
  it('is everybody whom the plan names, in its steps, until they are told', () => {
    const { line, id, coming } = raised();
    expect(coming()).toEqual(['10 s, step 0: 12', '250 s, step 1: 13']);
    line.enter(11, { ...told, notice: id });
    expect(coming()).toEqual(['250 s, step 1: 13']);
    line.enter(250, { kind: 'noticeStep', notice: id, step: 1 });
    expect(coming()).toEqual([]);
  });

  it('is nobody once it is taken, shelved or ended, and everybody anew when it comes back', () => {
    const { line, id, coming } = raised();
    line.enter(11, { ...told, notice: id });
    line.enter(12, { kind: 'noticeShelved', notice: id, until: until(100), words: 'later' });
    expect(coming()).toEqual([]);
    line.look(100, [stops('fold')]);
    expect(coming()).toEqual(['100 s, step 0: 12', '340 s, step 1: 13']);
    line.enter(101, { kind: 'noticeTaken', notice: id });
    expect(coming()).toEqual([]);
  });

  it('is nobody where nobody is set to be told', () => {
    const { coming } = raised();
    expect(coming({ recipients: [], rotas: [], plans: [] })).toEqual([]);
  });

  it('[NR1] says whom a step names and leaves out, as their access has ended', () => {
    const { coming } = raised();
    expect(coming(who, ['12'])).toEqual(['10 s, step 0: , without 12', '250 s, step 1: 13']);
    // a plan that names nobody else: everybody is told in its place
    const first = { ...who, plans: [{ steps: who.plans[0]!.steps.slice(0, 1) }] };
    expect(coming(first, ['12'])).toEqual(['10 s, step 0: 13, without 12']);
  });
});
