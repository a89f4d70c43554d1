import type { Calendar } from '../line/line.ts';
import { shiftAfter, shiftAt } from '../calendar/calendar.ts';
import type { Instant, Span } from '../units/units.ts';
import { overlap } from './past.ts';

/** From a moment on, until before another. */
export interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** Shifts looked at between two moments; what is longer apart than so many is none of a changeover's. */
const SHIFTS_MOST = 100;

/** Time within a stretch that belongs to no shift; no more than `most` shifts and pieces between them are looked at. */
export function outsideShifts(
  calendar: Calendar,
  zone: string,
  { from, to }: Stretch,
  most = SHIFTS_MOST,
): readonly Stretch[] {
  const outside: Stretch[] = [];
  let at = from;
  for (let n = 0; n < most && at < to; n += 1) {
    const shift = shiftAt(calendar, zone, at);
    if (shift) {
      at = shift.to;
      continue;
    }
    const next = Math.min(to, shiftAfter(calendar, zone, at)?.from ?? to) as Instant;
    outside.push({ from: at, to: next });
    at = next;
  }
  return outside;
}

/** Stretches that may overlap, as ones that do not, the oldest first; those of no length are left out. */
export function joined(stretches: readonly Stretch[]): readonly Stretch[] {
  const result: Stretch[] = [];
  for (const one of stretches.filter(({ from, to }) => to > from).sort((a, b) => a.from - b.from)) {
    const last = result.at(-1);
    if (last && one.from <= last.to)
      result[result.length - 1] = { from: last.from, to: Math.max(last.to, one.to) as Instant };
    else result.push(one);
  }
  return result;
}

/** What is left of a stretch without others, which must not overlap and stand the oldest first. */
export function without(stretch: Stretch, others: readonly Stretch[]): readonly Stretch[] {
  const left: Stretch[] = [];
  let { from } = stretch;
  for (const other of others) {
    if (other.to <= from || other.from >= stretch.to) continue;
    if (other.from > from) left.push({ from, to: other.from });
    from = other.to;
  }
  if (from < stretch.to) left.push({ from, to: stretch.to });
  return left;
}

/** How long a stretch is without others, which must not overlap. */
export function lengthWithout(stretch: Stretch, others: readonly Stretch[]): Span {
  const covered = others.reduce((sum, other) => sum + overlap(other, stretch), 0);
  return Math.max(0, stretch.to - stretch.from - covered) as Span;
}

/** The moment so long after another, where others do not count as time; they must not overlap and stand the oldest first. */
export function afterWithout(from: Instant, span: Span, others: readonly Stretch[]): Instant {
  let at = from + span;
  for (const other of others) {
    if (other.to <= from) continue;
    if (other.from >= at) break;
    at += other.to - Math.max(from, other.from);
  }
  return at as Instant;
}
