import { shiftAfter, shiftAt } from '../calendar/calendar.ts';
import type { Calendar } from '../line/line.ts';
import type { Instant } from '../units/units.ts';
import { dayAt, daysAfter, momentOn, weekdayOf } from './recipientDays.ts';

/** When somebody may be told. */
export interface Hours {
  /** Only in shifts of these rules of the line's calendar; undefined where any time is right. */
  readonly shifts?: readonly string[];
  /** Never in these, unless it is urgent. */
  readonly quiet: readonly QuietHours[];
}

/** A stretch of the day by the line's clocks; `to` at or before `from` is on the day after. */
export interface QuietHours {
  readonly from: string;
  readonly to: string;
  /** Weekdays on which it begins, 1 is Monday; undefined for every day. */
  readonly days?: readonly number[];
}

/** By whose calendar and clocks. */
export interface Clocks {
  readonly calendar: Calendar;
  readonly zone: string;
}

/** How far ahead it is looked: hours come again every week. Days. */
const DAYS_AHEAD = 8;

/** Whether the hours let somebody be told at a moment. */
export function isReachable(hours: Hours, clocks: Clocks, at: Instant): boolean {
  const quiet = quietStretches(hours, clocks, at, 0).some(({ from, to }) => from <= at && at < to);
  return (
    !quiet &&
    (hours.shifts === undefined || shiftAt(calendarOf(hours, clocks), clocks.zone, at) !== undefined)
  );
}

/** The first moment after this one at which the hours let somebody be told; undefined when there is none in a week. */
export function reachableAfter(hours: Hours, clocks: Clocks, at: Instant): Instant | undefined {
  const ends = quietStretches(hours, clocks, at, DAYS_AHEAD).map(({ to }) => to);
  return [...ends, ...shiftBegins(hours, clocks, at)]
    .filter((moment) => moment > at)
    .sort((a, b) => a - b)
    .find((moment) => isReachable(hours, clocks, moment));
}

interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** Quiet stretches from the day before a moment to some days after it. */
function quietStretches({ quiet }: Hours, { zone }: Clocks, at: Instant, days: number): Stretch[] {
  const today = dayAt(at, zone);
  const stretches: Stretch[] = [];
  for (let offset = -1; offset <= days; offset += 1) {
    const day = daysAfter(today, offset);
    for (const { from, to, days: on } of quiet) {
      if (on !== undefined && !on.includes(weekdayOf(day))) continue;
      const last = to <= from ? daysAfter(day, 1) : day;
      stretches.push({ from: momentOn(day, from, zone), to: momentOn(last, to, zone) });
    }
  }
  return stretches;
}

function shiftBegins(hours: Hours, clocks: Clocks, at: Instant): Instant[] {
  if (hours.shifts === undefined) return [];
  const calendar = calendarOf(hours, clocks);
  const begins: Instant[] = [];
  const end = momentOn(daysAfter(dayAt(at, clocks.zone), DAYS_AHEAD), '00:00', clocks.zone);
  let next = shiftAfter(calendar, clocks.zone, at);
  while (next !== undefined && next.from < end) {
    begins.push(next.from);
    next = shiftAfter(calendar, clocks.zone, next.from);
  }
  return begins;
}

function calendarOf({ shifts }: Hours, { calendar }: Clocks): Calendar {
  return { ...calendar, shifts: calendar.shifts.filter(({ id }) => shifts?.includes(id) ?? true) };
}
