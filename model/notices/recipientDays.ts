import { wallClock, zoneOffset } from '../calendar/calendar.ts';
import { epochMs, type Instant } from '../units/units.ts';

declare const day: unique symbol;
/** A date of a zone's calendar, as days since 1970-01-01: dates have no hours, so a clock change moves none. */
export type Day = number & { readonly [day]: true };

const DAY_MS = 86_400_000;

/** The date that a zone's clocks show at a moment. */
export function dayAt(at: Instant, zone: string): Day {
  const ms = epochMs(at);
  return Math.floor((ms + zoneOffset(ms, zone)) / DAY_MS) as Day;
}

/** The date written as 2026-03-29. */
export function dayOf(date: string): Day {
  return (Date.parse(`${date}T00:00:00Z`) / DAY_MS) as Day;
}

export function daysAfter(from: Day, days: number): Day {
  return (from + days) as Day;
}

/** 1 is Monday, 7 is Sunday (ISO 8601). */
export function weekdayOf(one: Day): number {
  const fromMonday = (one + 3) % 7;
  return ((fromMonday + 7) % 7) + 1;
}

/** The moment of a date and a clock such as 06:00, by the rules of the calendar for readings that are not or are twice. */
export function momentOn(one: Day, clock: string, zone: string): Instant {
  const date = new Date(one * DAY_MS);
  const parts = { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
  return wallClock(parts, clock, zone);
}

/** The moment of a reading such as 2026-03-29T06:00 of a zone's clocks. */
export function momentOf(reading: string, zone: string): Instant {
  const [date = '', clock = ''] = reading.split('T');
  return momentOn(dayOf(date), clock, zone);
}
