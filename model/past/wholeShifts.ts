import type { Shift } from '../calendar/calendar.ts';
import type { Instant } from '../units/units.ts';
import type { PastAsked } from './past.ts';

/**
 * A stretch widened to whole shifts, of which accounts of lost cartons are kept: one that begins or ends inside a shift
 * begins or ends with it, and never after now. `shifts`: those that have a part in it.
 */
export function wholeShifts<Asked extends PastAsked>(
  asked: Asked,
  shifts: readonly Pick<Shift, 'from' | 'to'>[],
  now: Instant,
): Asked {
  const from = Math.min(asked.from, ...shifts.map((shift) => shift.from)) as Instant;
  const to = Math.min(now, Math.max(asked.to, ...shifts.map((shift) => shift.to))) as Instant;
  return { ...asked, from, to };
}
