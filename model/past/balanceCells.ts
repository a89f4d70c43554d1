import { wallClock, zoneOffset } from '../calendar/calendar.ts';
import type { Line } from '../line/line.ts';
import { epochMs, HOUR, type Instant, type Span } from '../units/units.ts';
import { shiftsWithin } from './figureStretches.ts';
import type { Stretch } from './stretches.ts';

/** A part of a stretch of which one point is told. */
export interface Cell extends Stretch {
  /** Of the shift, where parts are shifts. */
  readonly name: string | undefined;
}

export interface Cells {
  readonly step: 'hour' | 'shift' | 'day';
  /** So many days are a part, where parts are days. */
  readonly days: number;
  readonly cells: readonly Cell[];
}

export const CELLS_MOST = 160;
const HOURS_MOST = (48 * HOUR) as Span;
/** Where a shift comes once a week at least, a longer stretch has more parts than are told. */
const SHIFTS_MOST = (7 * 24 * CELLS_MOST * HOUR) as Span;

/** Parts that cover a stretch, 160 at most: whole hours of two days, shifts of some weeks, else whole days. */
export function cellsOf({ calendar, zone }: Line, stretch: Stretch): Cells {
  if (stretch.to - stretch.from <= HOURS_MOST)
    return { step: 'hour', days: 1, cells: between(stretch, hoursIn(stretch)) };
  // what is too long for shifts is not walked shift by shift
  const shifts = stretch.to - stretch.from > SHIFTS_MOST ? [] : shiftsWithin(calendar, zone, stretch);
  const borders = [...new Set(shifts.flatMap(({ from, to }) => [from, to]))];
  const cells = between(stretch, borders, (from) =>
    shifts.findLast((one) => one.from <= from && from < one.to),
  );
  if (shifts.length > 0 && cells.length <= CELLS_MOST) return { step: 'shift', days: 1, cells };
  const days = Math.max(
    1,
    Math.ceil((stretch.to - stretch.from + 25 * HOUR) / (24 * HOUR) / (CELLS_MOST - 1)),
  );
  return { step: 'day', days, cells: between(stretch, midnightsIn(zone, stretch, days)) };
}

function between(
  { from, to }: Stretch,
  borders: readonly Instant[],
  shiftAt: (from: Instant) => { readonly name: string } | undefined = () => undefined,
): readonly Cell[] {
  const inner = borders.filter((at) => at > from && at < to);
  return [from, ...inner].map((begins, place) => ({
    from: begins,
    to: inner[place] ?? to,
    name: shiftAt(begins)?.name,
  }));
}

function hoursIn({ from, to }: Stretch): readonly Instant[] {
  const first = Math.floor(from / HOUR) + 1;
  return Array.from(
    { length: Math.max(0, Math.ceil(to / HOUR) - first) },
    (_, n) => ((first + n) * HOUR) as Instant,
  );
}

/** Every so many days, from the first midnight in a stretch on. */
function midnightsIn(zone: string, { from, to }: Stretch, days: number): readonly Instant[] {
  const ms = epochMs(from);
  const local = new Date(ms + zoneOffset(ms, zone));
  const [year, month, day] = [local.getUTCFullYear(), local.getUTCMonth() + 1, local.getUTCDate()];
  const midnights: Instant[] = [];
  for (let n = 1; ; n += days) {
    const at = wallClock({ year, month, day: day + n }, '00:00', zone);
    if (at >= to) return midnights;
    midnights.push(at);
  }
}
