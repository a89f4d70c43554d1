import {
  EPOCH_2020_MS,
  type Instant,
  instantFromMs,
  minutes,
  type Span,
  TICKS_PER_MS,
} from '../../model/units/units.ts';

/**
 * Shifts and planned pauses of the simulated plant. Written apart from the model's calendar on purpose: the ledger
 * is a witness, and a witness does not copy.
 */
export interface PlantCalendar {
  readonly shifts: readonly {
    readonly id: string;
    readonly from: string;
    readonly to: string;
    /** ISO weekdays on which it begins. */
    readonly days: readonly number[];
  }[];
  readonly pauses: readonly {
    readonly id: string;
    readonly shift: string;
    readonly from: string;
    readonly to: string;
    readonly allowanceMinutes: number;
  }[];
}

/** A stretch of time with a name: one shift, or one pause's window. */
export interface Window {
  readonly rule: string;
  readonly from: Instant;
  readonly to: Instant;
}

export interface PauseWindow extends Window {
  readonly allowance: Span;
}

const DAY_MS = 86_400_000;

/** Shifts that touch `[from, to)`, earliest first. */
export function shiftWindows(calendar: PlantCalendar, zone: string, from: Instant, to: Instant): Window[] {
  return datesAround(from, to)
    .flatMap((day) =>
      calendar.shifts
        .filter(({ days }) => days.includes(new Date(day).getUTCDay() || 7))
        .map((rule) => windowOn(rule.id, rule.from, rule.to, day, zone)),
    )
    .filter((window) => window.to > from && window.from < to)
    .sort((a, b) => a.from - b.from);
}

/** Windows of planned pauses that touch `[from, to)`, earliest first. */
export function pauseWindows(
  calendar: PlantCalendar,
  zone: string,
  from: Instant,
  to: Instant,
): PauseWindow[] {
  return shiftWindows(calendar, zone, (from - 2 * DAY_MS * TICKS_PER_MS) as Instant, to)
    .flatMap((shift) =>
      calendar.pauses
        .filter((pause) => pause.shift === shift.rule)
        .map((pause) => pauseIn(shift, pause, zone)),
    )
    .filter((window) => window.to > from && window.from < to)
    .sort((a, b) => a.from - b.from);
}

function pauseIn(shift: Window, pause: PlantCalendar['pauses'][number], zone: string): PauseWindow {
  const begins = localReading(shift.from, zone);
  const day = begins - (begins % DAY_MS);
  const sameDay = instantOf(day + clockMs(pause.from), zone) >= shift.from;
  const window = windowOn(pause.id, pause.from, pause.to, sameDay ? day : day + DAY_MS, zone);
  return { ...window, allowance: minutes(pause.allowanceMinutes) };
}

function windowOn(rule: string, from: string, to: string, day: number, zone: string): Window {
  const overnight = clockMs(to) <= clockMs(from);
  return {
    rule,
    from: instantOf(day + clockMs(from), zone),
    to: instantOf(day + (overnight ? DAY_MS : 0) + clockMs(to), zone),
  };
}

/** Dates, as UTC midnights of the wall calendar, that may matter to a stretch of time. */
function datesAround(from: Instant, to: Instant): number[] {
  const first = Math.floor((EPOCH_2020_MS + from / TICKS_PER_MS) / DAY_MS) - 2;
  const last = Math.floor((EPOCH_2020_MS + to / TICKS_PER_MS) / DAY_MS) + 2;
  return Array.from({ length: last - first + 1 }, (_, index) => (first + index) * DAY_MS);
}

function clockMs(clock: string): number {
  const [hour = 0, minute = 0] = clock.split(':').map(Number);
  return (hour * 60 + minute) * 60_000;
}

/** First moment at which the zone's clocks show a reading; a reading that they skip is moved on by the jump. */
function instantOf(reading: number, zone: string): Instant {
  const before = zoneOffset(reading - DAY_MS, zone);
  const earliest = reading - Math.max(before, zoneOffset(reading + DAY_MS, zone));
  const latest = reading - Math.min(before, zoneOffset(reading + DAY_MS, zone));
  const shows = (moment: number) => moment + zoneOffset(moment, zone) === reading;
  if (shows(earliest)) return instantFromMs(earliest);
  if (shows(latest)) return instantFromMs(latest);
  return instantFromMs(reading - before);
}

function localReading(at: Instant, zone: string): number {
  const ms = EPOCH_2020_MS + Math.round(at / TICKS_PER_MS);
  return ms + zoneOffset(ms, zone);
}

const formats = new Map<string, Intl.DateTimeFormat>();

/** What a zone's clocks show minus UTC, in milliseconds. */
export function zoneOffset(ms: number, zone: string): number {
  let format = formats.get(zone);
  if (!format) {
    format = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'medium' });
    formats.set(zone, format);
  }
  const whole = Math.floor(ms / 1000) * 1000;
  return Date.parse(`${format.format(whole).replace(' ', 'T')}Z`) - whole;
}
