import { wallClock } from '../../model/calendar/calendar.ts';
import { type EpochMs, epochMs } from '../../model/units/units.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** The gateway refuses longer ones; a minute less, as some time passes until it has it. */
const WEEK_MS = 7 * DAY_MS - 60_000;

export type Until = 'twoHours' | 'shiftEnd' | 'tomorrow' | 'week' | 'chosen';

/** When a shelf ends, for each choice; none where there is no such moment, or it is not said yet. */
export function shelfEnds(
  now: number,
  zone: string,
  shiftEnd: EpochMs | undefined,
  typed: string,
): Readonly<Record<Until, EpochMs | undefined>> {
  return {
    twoHours: Math.round(now + 2 * HOUR_MS) as EpochMs,
    shiftEnd: shiftEnd !== undefined && shiftEnd > now ? shiftEnd : undefined,
    tomorrow: sixTomorrow(now, zone),
    week: Math.round(now + WEEK_MS) as EpochMs,
    chosen: momentOf(typed, zone),
  };
}

/** Why a moment cannot be the end of a shelf. */
export function shelfTrouble(end: EpochMs, now: number): 'past' | 'far' | undefined {
  if (end <= now) return 'past';
  return end > now + WEEK_MS ? 'far' : undefined;
}

/** What a page's field for a date and a time holds, by the clock of the line and not of whoever looks at it. */
export function momentOf(typed: string, zone: string): EpochMs | undefined {
  const parts = /^(\d{4})-(\d\d)-(\d\d)T(\d\d:\d\d)/.exec(typed);
  if (!parts) return undefined;
  const [, year, month, day, clock = ''] = parts;
  return epochMs(wallClock({ year: Number(year), month: Number(month), day: Number(day) }, clock, zone));
}

function sixTomorrow(now: number, zone: string): EpochMs | undefined {
  const today = new Intl.DateTimeFormat('en-CA', { timeZone: zone }).format(now);
  const tomorrow = new Date(Date.parse(today) + DAY_MS).toISOString().slice(0, 10);
  return momentOf(`${tomorrow}T06:00`, zone);
}
