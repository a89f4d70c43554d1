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

function raised(): { line: Noticed; id: string; coming: (of?: RecipientSettings) => readonly string[] } {
  const line = new Noticed();
  line.look(10, [stops('fold')]);
  const coming = (of = who) =>
    comingSteps({ ...FIRST_SETTINGS, who: of }, line.notices[0]!, line.line).map(
      ({ at: when, step, tell }) =>
        `${(when - at(0)) / 10_000_000} s, step ${step}: ${tell.map((one) => (one.kind === 'person' ? one.person : one.rota)).join(' ')}`,
    );
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
});
