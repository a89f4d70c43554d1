import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shiftAt } from '../../../model/calendar/calendar.ts';
import type { Calendar } from '../../../model/line/line.ts';
import { isSameMoment, reportMoments } from '../../../model/report/reportMoments.ts';
import { reportPeriod } from '../../../model/report/reportPeriod.ts';
import { epochMs, type EpochMs, instantFromMs } from '../../../model/units/units.ts';

const ms = (iso: string) => Date.parse(iso) as EpochMs;
const ZONES = [
  'UTC',
  'Europe/Berlin',
  'America/New_York',
  'Pacific/Auckland',
  'Asia/Kolkata',
  'Pacific/Kiritimati',
];
const everyDay = [1, 2, 3, 4, 5, 6, 7] as const;
/** Three shifts a day, on every day: there is always one that goes on. */
const calendar: Calendar = {
  shifts: [
    { id: 'early', name: 'early', from: '06:00', to: '14:00', days: everyDay },
    { id: 'late', name: 'late', from: '14:00', to: '22:00', days: everyDay },
    { id: 'night', name: 'night', from: '22:00', to: '06:00', days: everyDay },
  ],
  pauses: [],
};

const startOf = (zone: string, moment: number) =>
  epochMs(shiftAt(calendar, zone, instantFromMs(moment))!.from);

/** The local date of a moment, by another way than the code goes: `2026-03-31`. */
const dateIn = (zone: string, moment: number) =>
  new Intl.DateTimeFormat('sv-SE', { timeZone: zone }).format(moment);

/** Monday of the week of a date, and its month, as days since 1970 and a running number. */
const keyOf = (kind: 'week' | 'month', zone: string, moment: number): number => {
  const date = dateIn(zone, moment);
  if (kind === 'month') return Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7));
  const day = new Date(`${date}T00:00Z`);
  return (day.getTime() / 86_400_000 - ((day.getUTCDay() + 6) % 7)) / 7;
};

const moment = fc.integer({ min: ms('2024-01-01T00:00Z'), max: ms('2027-12-31T00:00Z') });
const wish = fc.record({
  kind: fc.constantFrom('week', 'month'),
  zone: fc.constantFrom(...ZONES),
  now: moment,
  earlier: fc.integer({ min: 0, max: 400 * 86_400_000 }),
});

/** The report of a moment is that of its own week or month. */
function hasReport(kind: 'week' | 'month', zone: string, now: number, at: EpochMs): void {
  const asked = { kind, at: instantFromMs(at), now: instantFromMs(now), calendar, zone };
  const period = reportPeriod({ ...asked, order: undefined, size: undefined, orders: [] });
  expect(period && keyOf(kind, zone, epochMs(period.from))).toBe(keyOf(kind, zone, at));
}

describe('weeks and months that a report can be of', () => {
  it('[RE1] follow one another, none twice and none left out, and each has a report', () => {
    fc.assert(
      fc.property(wish, ({ kind, zone, now, earlier }) => {
        const [first, newest] = [startOf(zone, now - earlier), startOf(zone, now)];
        const moments = reportMoments(kind, { now: now as EpochMs, zone, first, newest });
        const last = keyOf(kind, zone, newest);
        const all = Math.min(last - keyOf(kind, zone, first) + 1, kind === 'week' ? 12 : 13);
        expect(moments.map(({ at }) => keyOf(kind, zone, at))).toEqual(
          Array.from({ length: all }, (_, n) => last - n),
        );
        expect(moments.map(({ back }) => back)).toEqual(
          moments.map(({ at }) => keyOf(kind, zone, now) - keyOf(kind, zone, at)),
        );
        hasReport(kind, zone, now, moments[0]!.at);
        hasReport(kind, zone, now, moments.at(-1)!.at);
      }),
      { numRuns: 120 },
    );
  });

  it('[RE1] have March once, where it is April in Berlin and still March in New York', () => {
    const first = ms('2026-01-02T08:00Z');
    const months = (zone: string, now: string) =>
      reportMoments('month', { now: ms(now), zone, first, newest: ms(now) }).map(({ at }) =>
        dateIn(zone, at).slice(0, 7),
      );
    expect(months('Europe/Berlin', '2026-03-31T22:30Z')).toEqual([
      '2026-04',
      '2026-03',
      '2026-02',
      '2026-01',
    ]);
    expect(months('America/New_York', '2026-04-01T00:00Z')).toEqual(['2026-03', '2026-02', '2026-01']);
  });

  it('[RE1] begin with the week of the newest shift: before its first one a week has no report', () => {
    // Monday, 00:30 in Berlin; the last shift began on Friday
    const moments = reportMoments('week', {
      now: ms('2026-05-03T22:30Z'),
      zone: 'Europe/Berlin',
      first: ms('2026-04-20T04:00Z'),
      newest: ms('2026-05-01T12:00Z'),
    });
    expect(moments.map(({ back }) => back)).toEqual([1, 2]);
    expect(dateIn('Europe/Berlin', moments[0]!.at)).toBe('2026-04-30');
  });

  it('are none before anything was seen, and none of orders', () => {
    const now = ms('2026-05-03T22:30Z');
    expect(reportMoments('week', { now, zone: 'UTC', first: undefined, newest: undefined })).toEqual([]);
    expect(reportMoments('order', { now, zone: 'UTC', first: now, newest: now })).toEqual([]);
  });

  it('hold any moment of theirs, by the days of the zone', () => {
    const same = (kind: 'week' | 'month' | 'shift', a: string, b: string) =>
      isSameMoment(kind, 'Europe/Berlin', ms(a), ms(b));
    expect(same('week', '2026-05-03T21:59Z', '2026-04-26T22:00Z')).toBe(true);
    expect(same('week', '2026-05-03T22:00Z', '2026-05-03T21:59Z')).toBe(false);
    expect(same('month', '2026-03-31T22:30Z', '2026-03-31T21:30Z')).toBe(false);
    expect(same('shift', '2026-03-31T22:30Z', '2026-03-31T22:30Z')).toBe(false);
  });
});
