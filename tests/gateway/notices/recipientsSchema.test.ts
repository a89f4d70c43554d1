import { describe, expect, it } from 'vitest';
import { readAs } from '../../../gateway/api/reading.ts';
import { recipientsSchema } from '../../../gateway/notices/recipientsSchema.ts';

const whole = {
  recipients: [
    {
      person: '012',
      ways: ['page', 'mail'],
      when: { shifts: ['early'], quiet: [{ from: '22:00', to: '06:00' }] },
    },
    { person: 'A-7', ways: ['pager'] },
  ],
  rotas: [
    {
      id: 'weeks',
      first: '2026-03-30',
      clock: '06:00',
      turns: ['012', 'A-7'],
      substitutes: [{ of: '012', by: 'A-7', from: '2026-04-01T06:00', to: '2026-04-02T06:00' }],
    },
  ],
  plans: [
    {
      levels: ['call', 'urgent'],
      steps: [
        { afterMinutes: 0, tell: [{ kind: 'rota', rota: 'weeks' }] },
        { afterMinutes: 10, tell: [{ kind: 'person', person: 'A-7' }] },
      ],
    },
  ],
};

type Change = (settings: typeof whole) => void;

describe('who is told, as it is sent', () => {
  it('is read into what the model takes; what is left out is filled in, or not there', () => {
    const read = readAs(recipientsSchema, whole);
    expect(read).toEqual({
      ok: true,
      data: {
        ...whole,
        recipients: [whole.recipients[0], { ...whole.recipients[1], when: { quiet: [] } }],
        rotas: [{ ...whole.rotas[0], days: 7 }],
      },
    });
    expect(readAs(recipientsSchema, {})).toEqual({
      ok: true,
      data: { recipients: [], rotas: [], plans: [] },
    });
  });

  const changes: readonly (readonly [string, Change])[] = [
    ['a name in place of a number', (one) => (one.recipients[0]!.person = 'somebody')],
    ['somebody without a way', (one) => (one.recipients[0]!.ways = [])],
    ['a time of day that is none', (one) => (one.rotas[0]!.clock = '24:00')],
    ['a date that is none', (one) => (one.rotas[0]!.first = '2026-02-29')],
    ['a reading that is none', (one) => (one.rotas[0]!.substitutes[0]!.to = '2026-04-02')],
    ['a rota without turns', (one) => (one.rotas[0]!.turns = [])],
    ['a turn of nobody', (one) => one.rotas[0]!.turns.push('99')],
    ['a substitute who is nobody', (one) => (one.rotas[0]!.substitutes[0]!.by = '99')],
    [
      'a step that tells nobody who is there',
      (one) => (one.plans[0]!.steps[1]!.tell = [{ kind: 'person', person: '99' }]),
    ],
    [
      'a step that names no rota that is there',
      (one) => (one.plans[0]!.steps[0]!.tell = [{ kind: 'rota', rota: 'none' }]),
    ],
    ['somebody twice', (one) => one.recipients.push({ ...one.recipients[1]! })],
    ['a level that is none', (one) => one.plans[0]!.levels.push('loud')],
    ['what is not known', (one) => Object.assign(one.plans[0]!, { colour: 'red' })],
  ];

  it.each(changes)('is refused for %s, with a sentence', (_name, change) => {
    const other = structuredClone(whole);
    change(other);
    expect(readAs(recipientsSchema, other)).toMatchObject({ ok: false, why: expect.stringMatching(/\.$/) });
  });
});
