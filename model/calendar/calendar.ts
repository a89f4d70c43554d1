import type { Calendar, PauseRule, ShiftRule } from '../line/line.ts';
import { epochMs, type Instant, instantFromMs, minutes, type Span } from '../units/units.ts';

/** One shift that really happens: a rule of the calendar at a date. */
export interface Shift {
  readonly rule: string;
  readonly name: string;
  readonly from: Instant;
  readonly to: Instant;
}

/** The window of a planned pause in one shift. */
export interface PauseWindow {
  readonly rule: string;
  readonly name: string;
  readonly from: Instant;
  readonly to: Instant;
  readonly allowance: Span;
}

interface LocalDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const DAY_MS = 86_400_000;
const formats = new Map<string, Intl.DateTimeFormat>();

/** The shift that contains a moment; undefined between shifts. */
export function shiftAt(calendar: Calendar, zone: string, at: Instant): Shift | undefined {
  return shiftsAround(calendar, zone, at).find((shift) => shift.from <= at && at < shift.to);
}

/** The next shift that begins after a moment; undefined when the calendar has none within eight days. */
export function shiftAfter(calendar: Calendar, zone: string, at: Instant): Shift | undefined {
  for (let days = 0; days <= 8; days += 1) {
    const later = (at + minutes(days * 24 * 60)) as Instant;
    const next = shiftsAround(calendar, zone, later).find((shift) => shift.from > at);
    if (next) return next;
  }
  return undefined;
}

/** Planned pauses of a shift, earliest first. */
export function pausesOf(calendar: Calendar, zone: string, shift: Shift): readonly PauseWindow[] {
  return calendar.pauses
    .filter((rule) => rule.shift === shift.rule)
    .map((rule) => pauseWindow(rule, zone, shift))
    .sort((a, b) => a.from - b.from);
}

/**
 * The moment of a wall-clock reading in a zone. A reading that does not exist is moved on by the clock's jump;
 * one that exists twice means the first.
 */
export function wallClock(date: LocalDate, clock: string, zone: string): Instant {
  const [hour = 0, minute = 0] = clock.split(':').map(Number);
  const naive = Date.UTC(date.year, date.month - 1, date.day, hour, minute);
  const before = zoneOffset(naive - DAY_MS, zone);
  const after = zoneOffset(naive + DAY_MS, zone);
  const candidates = [naive - before, naive - after].filter((ms) => ms + zoneOffset(ms, zone) === naive);
  return instantFromMs(candidates.length > 0 ? Math.min(...candidates) : naive - before);
}

/** Local time minus UTC at a moment, in milliseconds. */
export function zoneOffset(ms: number, zone: string): number {
  const quarter = Math.floor(ms / QUARTER_MS);
  const key = `${zone} ${quarter}`;
  const known = offsets.get(key);
  if (known !== undefined) return known;
  if (offsets.size >= OFFSETS_MOST) offsets.clear();
  const offset = offsetAt(quarter * QUARTER_MS, zone);
  offsets.set(key, offset);
  return offset;
}

/** Zones change at whole quarters of an hour, and the same few moments are asked for each second. */
const QUARTER_MS = 900_000;
const OFFSETS_MOST = 2000;
const offsets = new Map<string, number>();

function offsetAt(ms: number, zone: string): number {
  const part: Record<string, number> = {};
  for (const { type, value } of formatFor(zone).formatToParts(ms)) part[type] = Number(value);
  const local = Date.UTC(
    part.year ?? 0,
    (part.month ?? 1) - 1,
    part.day ?? 1,
    part.hour ?? 0,
    part.minute ?? 0,
    part.second ?? 0,
  );
  return local - Math.floor(ms / 1000) * 1000;
}

function shiftsAround(calendar: Calendar, zone: string, at: Instant): Shift[] {
  const today = localDate(epochMs(at), zone);
  return [-1, 0, 1]
    .flatMap((days) => calendar.shifts.map((rule) => shiftOn(rule, addDays(today, days), zone)))
    .filter((shift) => shift !== undefined)
    .sort((a, b) => a.from - b.from);
}

function shiftOn(rule: ShiftRule, date: LocalDate, zone: string): Shift | undefined {
  if (!rule.days.includes(isoWeekday(date))) return undefined;
  const overnight = rule.to <= rule.from;
  return {
    rule: rule.id,
    name: rule.name,
    from: wallClock(date, rule.from, zone),
    to: wallClock(overnight ? addDays(date, 1) : date, rule.to, zone),
  };
}

function pauseWindow(rule: PauseRule, zone: string, shift: Shift): PauseWindow {
  const first = localDate(epochMs(shift.from), zone);
  const fits = (date: LocalDate) => wallClock(date, rule.from, zone) >= shift.from;
  const date = fits(first) ? first : addDays(first, 1);
  const overnight = rule.to <= rule.from;
  return {
    rule: rule.id,
    name: rule.name,
    from: wallClock(date, rule.from, zone),
    to: wallClock(overnight ? addDays(date, 1) : date, rule.to, zone),
    allowance: minutes(rule.allowanceMinutes),
  };
}

function localDate(ms: number, zone: string): LocalDate {
  const local = new Date(ms + zoneOffset(ms, zone));
  return { year: local.getUTCFullYear(), month: local.getUTCMonth() + 1, day: local.getUTCDate() };
}

function addDays(date: LocalDate, days: number): LocalDate {
  const moved = new Date(Date.UTC(date.year, date.month - 1, date.day + days));
  return { year: moved.getUTCFullYear(), month: moved.getUTCMonth() + 1, day: moved.getUTCDate() };
}

function isoWeekday(date: LocalDate): number {
  return new Date(Date.UTC(date.year, date.month - 1, date.day)).getUTCDay() || 7;
}

function formatFor(zone: string): Intl.DateTimeFormat {
  let format = formats.get(zone);
  if (!format) {
    format = new Intl.DateTimeFormat('en-US', {
      timeZone: zone,
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
    });
    formats.set(zone, format);
  }
  return format;
}
