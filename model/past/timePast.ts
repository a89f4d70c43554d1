import type { StopRecord } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import type { Instant, Span } from '../units/units.ts';
import { type ClassGap, classStretches, noTime, type TimeClass } from '../view/classes.ts';
import { overlap, type PastAsked } from './past.ts';
import { outsideShifts, without } from './stretches.ts';

/** What the time of a stretch was used for. Ticks; the classes add up to `inShifts`. */
export interface TimePast {
  /** Time in shifts, by the calendar, from instants: planned operation time. */
  readonly inShifts: Span;
  readonly outside: Span;
  readonly classes: Readonly<Record<TimeClass, Span>>;
}

export interface TimeAsked extends PastAsked {
  readonly stops: readonly StopRecord[];
  readonly gaps: readonly RecordBodies['gap'][];
  /** From when on there are records at all: time before it is not known. */
  readonly begun: Instant;
}

/** Shifts and pieces between them that are looked at: three a day for fifteen years. A period is never longer. */
export const SHIFTS_MOST = 40_000;

/** [CL1] Time in shifts by its classes; what lies between shifts is neither gained nor lost. */
export function timePast({ index, from, to, stops, gaps, begun }: TimeAsked): TimePast {
  const { calendar, zone } = index.line;
  const between = outsideShifts(calendar, zone, { from, to }, SHIFTS_MOST);
  const shifts = without({ from, to }, between);
  const unseen: ClassGap[] = begun > from ? [{ from, to: begun, kind: 'unknown' }, ...gaps] : [...gaps];
  const sums = noTime();
  let place = 0;
  for (const stretch of classStretches({ from, to }, stops, unseen)) {
    while (place < shifts.length && shifts[place]!.to <= stretch.from) place += 1;
    for (let next = place; next < shifts.length && shifts[next]!.from < stretch.to; next += 1)
      sums[stretch.class] += overlap(shifts[next]!, stretch);
  }
  const inShifts = shifts.reduce((sum, shift) => sum + shift.to - shift.from, 0);
  return {
    inShifts: inShifts as Span,
    outside: (to - from - inShifts) as Span,
    classes: sums as Record<TimeClass, Span>,
  };
}
