import { wallClock, zoneOffset } from '../calendar/calendar.ts';
import { type EpochMs, epochMs } from '../units/units.ts';

/** `2026-03-16T06:00:00`: a moment by the clock of a zone, as fields of forms and names of files have it. */
export function clockText(ms: number, zone: string): string {
  return new Date(ms + zoneOffset(ms, zone)).toISOString().slice(0, 19);
}

/** The moment of a date, or of a date and time of day, by the clock of a zone; undefined where it is neither. */
export function clockMoment(text: string, zone: string): EpochMs | undefined {
  const found = /^(\d{4})-(\d{2})-(\d{2})(?:T(\d{2}:\d{2})(?::(\d{2}))?)?$/.exec(text);
  if (!found || Number.isNaN(Date.parse(`${text.slice(0, 10)}T00:00:00Z`))) return undefined;
  const [, year, month, day, clock = '00:00', second = '0'] = found;
  if (clock > '23:59' || Number(second) > 59) return undefined;
  const date = { year: Number(year), month: Number(month), day: Number(day) };
  return (epochMs(wallClock(date, clock, zone)) + Number(second) * 1000) as EpochMs;
}
