import { describe, expect, it } from 'vitest';
import { pausesOf, shiftAfter, shiftAt, wallClock } from '../../model/calendar/calendar.ts';
import type { Calendar } from '../../model/line/line.ts';
import { between, epochMs, HOUR, instantFromMs, minutes } from '../../model/units/units.ts';

const everyDay = [1, 2, 3, 4, 5, 6, 7];
const calendar: Calendar = {
  shifts: [
    { id: 'early', name: 'early', from: '06:00', to: '14:00', days: everyDay },
    { id: 'late', name: 'late', from: '14:00', to: '22:00', days: everyDay },
    { id: 'night', name: 'night', from: '22:00', to: '06:00', days: everyDay },
  ],
  pauses: [
    { id: 'night-break', name: 'break', shift: 'night', from: '01:00', to: '02:30', allowanceMinutes: 20 },
  ],
};

function moment(iso: string) {
  return instantFromMs(Date.parse(iso));
}

describe('calendar', () => {
  it('[TI5] a night shift is 9 hours when the clock goes back and 7 when it goes forward', () => {
    const autumn = shiftAt(calendar, 'Europe/Berlin', moment('2025-10-26T00:30:00Z'))!;
    expect([epochMs(autumn.from), epochMs(autumn.to)].map((at) => new Date(at).toISOString())).toEqual([
      '2025-10-25T20:00:00.000Z',
      '2025-10-26T05:00:00.000Z',
    ]);
    expect(between(autumn.from, autumn.to)).toBe(9 * HOUR);
    const spring = shiftAt(calendar, 'Europe/Berlin', moment('2026-03-29T01:30:00Z'))!;
    expect(between(spring.from, spring.to)).toBe(7 * HOUR);
  });

  it('[TI5] a wall-clock time that does not exist is moved on, and one that exists twice means the first', () => {
    const missing = wallClock({ year: 2026, month: 3, day: 29 }, '02:30', 'Europe/Berlin');
    expect(new Date(epochMs(missing)).toISOString()).toBe('2026-03-29T01:30:00.000Z');
    const twice = wallClock({ year: 2025, month: 10, day: 26 }, '02:30', 'Europe/Berlin');
    expect(new Date(epochMs(twice)).toISOString()).toBe('2025-10-26T00:30:00.000Z');
  });

  it('[TI5] shifts follow one another without a hole or an overlap all year', () => {
    let at = moment('2026-01-01T05:00:00Z');
    for (let n = 0; n < 366 * 3; n += 1) {
      const shift = shiftAt(calendar, 'Europe/Berlin', at)!;
      const next = shiftAt(calendar, 'Europe/Berlin', shift.to)!;
      expect(next.from).toBe(shift.to);
      at = shift.to;
    }
  });

  it('finds the next shift over a weekend, and none in an empty calendar', () => {
    const weekdays = {
      ...calendar,
      shifts: calendar.shifts.slice(0, 1).map((rule) => ({ ...rule, days: [1, 2, 3, 4, 5] })),
    };
    const friday = moment('2026-03-20T18:00:00Z');
    expect(shiftAt(weekdays, 'Europe/Berlin', friday)).toBeUndefined();
    expect(new Date(epochMs(shiftAfter(weekdays, 'Europe/Berlin', friday)!.from)).toISOString()).toBe(
      '2026-03-23T05:00:00.000Z',
    );
    expect(shiftAfter({ shifts: [], pauses: [] }, 'Europe/Berlin', friday)).toBeUndefined();
  });

  it('puts a night shift’s pause on the day after it began', () => {
    const night = shiftAt(calendar, 'Europe/Berlin', moment('2026-03-17T22:00:00Z'))!;
    const [pause] = pausesOf(calendar, 'Europe/Berlin', night);
    expect(new Date(epochMs(pause!.from)).toISOString()).toBe('2026-03-18T00:00:00.000Z');
    expect(pause!.allowance).toBe(minutes(20));
  });
});
