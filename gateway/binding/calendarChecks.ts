import { wordsIn } from '../../model/words/words.ts';
import { fault, type Row, rowsOf } from './rows.ts';
import { durationMs } from './durations.ts';
import type { Fault } from './faults.ts';
import type { Source } from './source.ts';

const words = wordsIn('en').gateway.binding;
const DAY = 1440;
const WEEK = 7 * DAY;

/** Shifts that overlap, and pauses that do not fit into theirs. Wall-clock minutes: clock changes move both alike. */
export function calendarFaults(source: Source): readonly Fault[] {
  const shifts = rowsOf(source, 'calendar', 'shifts');
  return [
    ...shifts.flatMap((shift) => dayFaults(source, shift)),
    ...shifts.flatMap((shift, place) => overlapFaults(source, shift, shifts.slice(0, place))),
    ...rowsOf(source, 'calendar', 'pauses').flatMap((pause) => pauseFaults(source, pause, shifts)),
  ];
}

function dayFaults(source: Source, { path, value }: Row): Fault[] {
  const days = Array.isArray(value.days) ? (value.days as unknown[]) : [];
  return days.flatMap((day, place) =>
    typeof day === 'number' && days.indexOf(day) < place
      ? [fault(source, [...path, 'days', place], words.dayTwice(day))]
      : [],
  );
}

function overlapFaults(source: Source, shift: Row, before: readonly Row[]): Fault[] {
  const other = before.find((candidate) => overlap(shift, candidate));
  if (!other) return [];
  return [fault(source, shift.path, words.shiftsOverlap(String(shift.value.id), String(other.value.id)))];
}

function overlap(a: Row, b: Row): boolean {
  const [length, otherLength] = [lengthOf(a), lengthOf(b)];
  if (length === undefined || otherLength === undefined) return false;
  return startsOf(a).some((start) =>
    startsOf(b).some((other) => {
      const ahead = (((other - start) % WEEK) + WEEK) % WEEK;
      return ahead < length || WEEK - ahead < otherLength;
    }),
  );
}

/** Minutes from Monday 00:00 at which a shift begins. */
function startsOf({ value }: Row): readonly number[] {
  const from = minuteOf(value.from) ?? 0;
  const days: readonly unknown[] = Array.isArray(value.days) ? value.days : [1, 2, 3, 4, 5, 6, 7];
  return days.flatMap((day) => (typeof day === 'number' ? [(day - 1) * DAY + from] : []));
}

/** Minutes from `from` to `to`; an end not after its start belongs to the next day. Undefined when either is no time. */
function lengthOf({ value }: Row): number | undefined {
  const [from, to] = [minuteOf(value.from), minuteOf(value.to)];
  return from === undefined || to === undefined ? undefined : ((to - from + DAY - 1) % DAY) + 1;
}

function pauseFaults(source: Source, pause: Row, shifts: readonly Row[]): Fault[] {
  const shift = shifts.find(({ value }) => value.id === pause.value.shift);
  const window = lengthOf(pause);
  const shiftLength = shift && lengthOf(shift);
  if (!shift || window === undefined || shiftLength === undefined) return [];
  const begins = (minuteOf(pause.value.from)! - minuteOf(shift.value.from)! + DAY) % DAY;
  const name = String(pause.value.id);
  if (begins + window > shiftLength)
    return [fault(source, [...pause.path, 'from'], words.pauseOutside(name, String(shift.value.id)))];
  const allowance = typeof pause.value.allowance === 'string' ? durationMs(pause.value.allowance) : undefined;
  if (allowance === undefined || allowance <= window * 60_000) return [];
  return [fault(source, [...pause.path, 'allowance'], words.pauseTooLong(name))];
}

function minuteOf(clock: unknown): number | undefined {
  if (typeof clock !== 'string' || !/^([01]\d|2[0-3]):[0-5]\d$/.test(clock)) return undefined;
  return Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
}
