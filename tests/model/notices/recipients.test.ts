import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Calendar } from '../../../model/line/line.ts';
import { reachableAfter } from '../../../model/notices/recipientHours.ts';
import { momentOf } from '../../../model/notices/recipientDays.ts';
import { nextHandOver, onCall, type Rota } from '../../../model/notices/recipientRota.ts';
import {
  type NoticeHead,
  type NoticeLevel,
  NOTICE_LEVELS,
  type Plan,
  type Recipient,
  type RecipientSettings,
  type Step,
  type Told,
  whomToTell,
} from '../../../model/notices/recipients.ts';
import { type Instant, MINUTE } from '../../../model/units/units.ts';

const zone = 'Europe/Berlin';
const weekdays = [1, 2, 3, 4, 5];
const calendar: Calendar = {
  shifts: [
    { id: 'early', name: 'Early', from: '06:00', to: '14:00', days: weekdays },
    { id: 'late', name: 'Late', from: '14:00', to: '22:00', days: weekdays },
    { id: 'night', name: 'Night', from: '22:00', to: '06:00', days: weekdays },
  ],
  pauses: [],
};
const clocks = { calendar, zone };
const local = (reading: string) => momentOf(reading, zone);

const anyTime = { quiet: [] };
const lead: Recipient = { person: '11', ways: ['page', 'mail'], when: { shifts: ['early'], quiet: [] } };
const setter: Recipient = { person: '12', ways: ['mail'], when: { quiet: [{ from: '21:00', to: '06:00' }] } };
const engineer: Recipient = { person: '13', ways: ['pager'], when: anyTime };
const rota: Rota = {
  id: 'weeks',
  first: '2026-03-02',
  clock: '06:00',
  days: 7,
  turns: ['11', '12', '13'],
  substitutes: [],
};
const person = (number: string) => ({ kind: 'person' as const, person: number });
const onRota = { kind: 'rota' as const, rota: 'weeks' };

function notice(reading: string, level: NoticeLevel = 'call'): NoticeHead {
  return { id: 'n1', at: local(reading), level, line: 'line-3', station: 'fold' };
}

function settings(steps: readonly Step[], more: Partial<RecipientSettings> = {}): RecipientSettings {
  return { recipients: [lead, setter, engineer], rotas: [rota], plans: [{ steps }], ...more };
}

/** Who is told by which way, and when it is looked again. */
function decided(from: RecipientSettings, about: NoticeHead, told: readonly Told[], reading: string) {
  const { tell, next } = whomToTell(from, clocks, about, { told, acknowledged: false }, local(reading));
  return { tell: tell.map((one) => `${one.person} ${one.way} ${one.step} ${one.because}`), next };
}

const told = (number: string, way: string, failed = false): Told => ({ person: number, way, failed });
const inSteps: readonly Step[] = [
  { afterMinutes: 0, tell: [person('11')] },
  { afterMinutes: 10, tell: [person('12')] },
  { afterMinutes: 30, tell: [onRota] },
];

describe('who is told of a notice', () => {
  it('tells the first step at once by each way, and says when the next one is due', () => {
    expect(decided(settings(inSteps), notice('2026-03-03T10:00'), [], '2026-03-03T10:00')).toEqual({
      tell: ['11 page 0 step', '11 mail 0 step'],
      next: local('2026-03-03T10:10'),
    });
  });

  it('tells the next step after its minutes when nobody acknowledges, and nothing more once somebody does', () => {
    const first = [told('11', 'page'), told('11', 'mail')];
    const about = notice('2026-03-03T10:00');
    expect(decided(settings(inSteps), about, first, '2026-03-03T10:09')).toEqual({
      tell: [],
      next: local('2026-03-03T10:10'),
    });
    expect(decided(settings(inSteps), about, first, '2026-03-03T10:10').tell).toEqual(['12 mail 1 step']);
    const standing = { told: first, acknowledged: true };
    expect(whomToTell(settings(inSteps), clocks, about, standing, local('2026-03-03T10:10'))).toEqual({
      tell: [],
    });
  });

  it('goes on to the next step at once when nobody of the first is within their hours', () => {
    const decision = decided(settings(inSteps), notice('2026-03-03T15:00'), [], '2026-03-03T15:00');
    expect(decision.tell).toEqual(['12 mail 1 earlier']);
    expect(decision.next).toBe(local('2026-03-03T15:10'));
  });

  it('goes on to the next step at once when every way of the first came to nothing', () => {
    const failed = [told('11', 'page', true), told('11', 'mail', true)];
    expect(decided(settings(inSteps), notice('2026-03-03T10:00'), failed, '2026-03-03T10:01').tell).toEqual([
      '12 mail 1 earlier',
    ]);
  });

  it('tells people outside their hours rather than nobody, the first of the plan first', () => {
    const two = settings(inSteps.slice(0, 2));
    expect(decided(two, notice('2026-03-03T23:00'), [], '2026-03-03T23:00').tell).toEqual([
      '11 page 0 anyway',
      '11 mail 0 anyway',
    ]);
  });

  it('lets a note wait until somebody’s hours begin, and an urgent one for nobody', () => {
    const only = settings([{ afterMinutes: 0, tell: [person('12')] }]);
    const note = notice('2026-03-03T23:00', 'note');
    expect(decided(only, note, [], '2026-03-03T23:00')).toEqual({
      tell: [],
      next: local('2026-03-04T06:00'),
    });
    expect(decided(only, note, [], '2026-03-04T06:00').tell).toEqual(['12 mail 0 step']);
    const urgent = notice('2026-03-03T23:00', 'urgent');
    expect(decided(only, urgent, [], '2026-03-03T23:00').tell).toEqual(['12 mail 0 step']);
  });

  it('tells who takes over what is open: by the rota, and when their shift begins', () => {
    const onlyRota = settings([{ afterMinutes: 0, tell: [onRota] }]);
    const about = notice('2026-03-09T05:50');
    expect(decided(onlyRota, about, [], '2026-03-09T05:50')).toEqual({
      tell: ['11 page 0 step', '11 mail 0 step'],
      next: local('2026-03-09T06:00'),
    });
    const first = [told('11', 'page'), told('11', 'mail')];
    expect(decided(onlyRota, about, first, '2026-03-09T06:00').tell).toEqual(['12 mail 0 step']);
    const both = settings([{ afterMinutes: 0, tell: [person('11'), person('13')] }]);
    const late = notice('2026-03-03T23:00');
    expect(decided(both, late, [], '2026-03-03T23:00')).toEqual({
      tell: ['13 pager 0 step'],
      next: local('2026-03-04T06:00'),
    });
    expect(decided(both, late, [told('13', 'pager')], '2026-03-04T06:00').tell).toHaveLength(2);
  });

  it('calls whoever is on call in their quiet hours too, but brings them no note then', () => {
    const onlyRota = settings([{ afterMinutes: 0, tell: [onRota] }]);
    expect(decided(onlyRota, notice('2026-03-10T23:00'), [], '2026-03-10T23:00').tell).toEqual([
      '12 mail 0 step',
    ]);
    expect(decided(onlyRota, notice('2026-03-10T23:00', 'note'), [], '2026-03-10T23:00').tell).toEqual([]);
  });

  it('takes the first plan that fits, and everybody where none does or none names anybody', () => {
    const plans: readonly Plan[] = [
      { stations: ['load'], steps: [{ afterMinutes: 0, tell: [person('11')] }] },
      { levels: ['urgent'], steps: [{ afterMinutes: 0, tell: [person('99')] }] },
      { lines: ['line-3'], levels: ['call'], steps: [{ afterMinutes: 0, tell: [person('13')] }] },
    ];
    const by = settings([], { plans });
    const at = '2026-03-03T10:00';
    expect(decided(by, notice(at), [], at).tell).toEqual(['13 pager 0 step']);
    const everybody = ['11 page 0 step', '11 mail 0 step', '12 mail 0 step', '13 pager 0 step'];
    expect(decided(by, notice(at, 'urgent'), [], at).tell).toEqual(everybody);
    expect(decided(by, notice(at, 'note'), [], at).tell).toEqual(everybody);
  });

  it('takes a moment before the notice as that of the notice: a clock that was set back silences nobody', () => {
    expect(decided(settings(inSteps), notice('2026-03-03T10:00'), [], '2026-03-02T10:00').tell).toHaveLength(
      2,
    );
  });
});

describe('rota', () => {
  it('hands over at the clock of the line, also in the weeks in which the clock is changed', () => {
    const before = (reading: string) => (local(reading) - MINUTE) as Instant;
    for (const [reading, earlier, later] of [
      ['2026-03-30T06:00', '11', '12'],
      ['2026-10-26T06:00', '11', '12'],
      ['2026-02-23T06:00', '12', '13'],
    ] as const) {
      expect(onCall(rota, zone, before(reading)), reading).toBe(earlier);
      expect(onCall(rota, zone, local(reading)), reading).toBe(later);
      expect(nextHandOver(rota, zone, before(reading)), reading).toBe(local(reading));
    }
  });

  it('hands over on the night itself: a clock that does not exist is moved on, one that exists twice is the first', () => {
    const nightly: Rota = { ...rota, first: '2026-03-28', clock: '02:30', days: 1, turns: ['a', 'b'] };
    expect(nextHandOver(nightly, zone, local('2026-03-28T12:00'))).toBe(local('2026-03-29T03:30'));
    const utc = (text: string) => momentOf(text, 'UTC');
    expect(nextHandOver(nightly, zone, local('2026-10-24T12:00'))).toBe(utc('2026-10-25T00:30'));
    expect(nextHandOver(nightly, zone, utc('2026-10-25T00:30'))).toBe(utc('2026-10-26T01:30'));
  });

  it('lets a substitute stand in for their time, one after another, and two for each other stand where they stood', () => {
    const stands = (of: string, by: string) => ({ of, by, from: '2026-03-03T06:00', to: '2026-03-05T06:00' });
    const at = local('2026-03-04T12:00');
    const by = (...substitutes: Rota['substitutes']) => ({ ...rota, substitutes });
    expect(onCall(by(stands('11', '12')), zone, at)).toBe('12');
    expect(onCall(by(stands('11', '12'), stands('12', '13')), zone, at)).toBe('13');
    expect(onCall(by(stands('11', '12'), stands('12', '11')), zone, at)).toBe('11');
    expect(onCall(by(stands('11', '12')), zone, local('2026-03-05T06:00'))).toBe('11');
    expect(nextHandOver(by(stands('11', '12')), zone, at)).toBe(local('2026-03-05T06:00'));
    expect(onCall({ ...rota, turns: [] }, zone, at)).toBeUndefined();
  });
});

describe('hours', () => {
  it('end with a quiet night that is an hour shorter or longer', () => {
    const quiet = { quiet: [{ from: '22:00', to: '06:00' }] };
    for (const night of ['2026-03-28', '2026-10-24'])
      expect(reachableAfter(quiet, clocks, local(`${night}T23:00`))).toBe(
        local(night === '2026-03-28' ? '2026-03-29T06:00' : '2026-10-25T06:00'),
      );
  });

  it('are never there where no shift of theirs is, or all of the day is quiet', () => {
    const at = local('2026-03-03T10:00');
    expect(reachableAfter({ shifts: ['gone'], quiet: [] }, clocks, at)).toBeUndefined();
    expect(reachableAfter({ quiet: [{ from: '06:00', to: '06:00' }] }, clocks, at)).toBeUndefined();
  });
});

const people = ['1', '2', '3', '4'];
const clock = fc
  .tuple(fc.integer({ min: 0, max: 23 }), fc.constantFrom('00', '15', '30'))
  .map(([hour, minute]) => `${String(hour).padStart(2, '0')}:${minute}`);
const days = fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 1 });
const quietHours = fc.record({ from: clock, to: clock, days }, { requiredKeys: ['from', 'to'] });
const hours = fc.record(
  {
    shifts: fc.uniqueArray(fc.constantFrom('early', 'late', 'night', 'gone')),
    quiet: fc.array(quietHours, { maxLength: 2 }),
  },
  { requiredKeys: ['quiet'] },
);
const ways = fc.array(fc.constantFrom('page', 'mail', 'pager'), { minLength: 1, maxLength: 3 });
const recipients = fc
  .uniqueArray(fc.constantFrom(...people), { minLength: 1 })
  .chain((numbers) =>
    fc.tuple(...numbers.map((number) => fc.record({ person: fc.constant(number), ways, when: hours }))),
  );
const rotaOf = fc.record({
  id: fc.constant('weeks'),
  first: fc.constantFrom('2026-03-23', '2026-10-19', '2027-01-01'),
  clock,
  days: fc.constantFrom(1, 7, 14),
  turns: fc.array(fc.constantFrom(...people)),
  substitutes: fc.array(
    fc.record({
      of: fc.constantFrom(...people),
      by: fc.constantFrom(...people),
      from: fc.constantFrom('2026-03-28T02:30', '2026-10-24T22:00'),
      to: fc.constantFrom('2026-03-29T02:30', '2026-10-25T02:30'),
    }),
    { maxLength: 3 },
  ),
});
const target = fc.oneof(fc.constantFrom(...people).map(person), fc.constant(onRota));
const step = fc.record({
  afterMinutes: fc.integer({ min: 0, max: 90 }),
  tell: fc.array(target, { maxLength: 3 }),
});
const plan = fc.record({ levels: fc.subarray([...NOTICE_LEVELS]), steps: fc.array(step, { maxLength: 4 }) });
const anySettings = fc.record({
  recipients,
  rotas: fc.array(rotaOf, { maxLength: 1 }),
  plans: fc.array(plan, { maxLength: 2 }),
});
/** A week around each of the nights in which the clock is changed, to the minute. */
const moment = fc
  .tuple(fc.constantFrom('2026-03-26T00:00', '2026-10-22T00:00'), fc.integer({ min: 0, max: 7 * 24 * 60 }))
  .map(([reading, minute]) => (local(reading) + minute * MINUTE) as Instant);

/** A notice that nobody acknowledges, looked at whenever it says to look again. Each telling with its moment. */
function life(from: RecipientSettings, about: NoticeHead, looks: number) {
  const gone: Told[] = [];
  const moments: Instant[] = [];
  let at: Instant | undefined = about.at;
  for (let look = 0; look < looks && at !== undefined; look += 1) {
    const { tell, next } = whomToTell(from, clocks, about, { told: gone, acknowledged: false }, at);
    for (const one of tell) {
      gone.push(one);
      moments.push(at);
    }
    if (next !== undefined) expect(next).toBeGreaterThan(at);
    at = next;
  }
  return { gone, moments };
}

describe('of whoever is configured', () => {
  it('always somebody is told: of a call at once, of a note within a week', () => {
    fc.assert(
      fc.property(anySettings, fc.constantFrom(...NOTICE_LEVELS), moment, (from, level, at) => {
        const about: NoticeHead = { id: 'n', at, level, line: 'line-3' };
        const { moments } = life(from, about, 60);
        expect(moments.length).toBeGreaterThan(0);
        const most = level === 'note' ? 7 * 24 * 60 : 0;
        expect((moments[0]! - at) / MINUTE).toBeLessThanOrEqual(most);
      }),
      { numRuns: 300 },
    );
  });

  it('nobody is told twice of the same notice by the same way', () => {
    fc.assert(
      fc.property(anySettings, fc.constantFrom(...NOTICE_LEVELS), moment, (from, level, at) => {
        const { gone } = life(from, { id: 'n', at, level, line: 'line-3' }, 30);
        const keys = gone.map((one) => `${one.person} ${one.way}`);
        expect(new Set(keys).size).toBe(keys.length);
      }),
      { numRuns: 300 },
    );
  });

  it('a call whose ways all come to nothing goes round until everybody was tried', () => {
    fc.assert(
      fc.property(anySettings, moment, (from, at) => {
        const about: NoticeHead = { id: 'n', at, level: 'call', line: 'line-3' };
        const gone: Told[] = [];
        for (let look = 0; look < 20; look += 1) {
          const standing = { told: gone, acknowledged: false };
          for (const one of whomToTell(from, clocks, about, standing, at).tell)
            gone.push({ ...one, failed: true });
        }
        expect(new Set(gone.map((one) => one.person))).toEqual(
          new Set(from.recipients.map((one) => one.person)),
        );
      }),
      { numRuns: 200 },
    );
  });
});
