import { type Shift, shiftAfter, shiftAt } from '../calendar/calendar.ts';
import type { Calendar } from '../line/line.ts';
import type { RecordBodies } from '../records/records.ts';
import type { Instant } from '../units/units.ts';
import type { Stretch } from './stretches.ts';
import { SHIFTS_MOST } from './timePast.ts';

/** Of which part of a period figures are wanted: by its carton size, its order, the rule of its shifts. */
export interface FiguresFilter {
  readonly size?: string | undefined;
  readonly order?: string | undefined;
  readonly shift?: string | undefined;
}

/** From a moment on one size, or one order, until the next of its list. */
interface Began {
  readonly at: Instant;
}

/** The shifts that have a part in a period, the oldest first. */
export function shiftsWithin(calendar: Calendar, zone: string, { from, to }: Stretch): readonly Shift[] {
  const shifts: Shift[] = [];
  let next = shiftAt(calendar, zone, from) ?? shiftAfter(calendar, zone, from);
  while (next && next.from < to && shifts.length < SHIFTS_MOST) {
    shifts.push(next);
    next = shiftAt(calendar, zone, next.to) ?? shiftAfter(calendar, zone, next.to);
  }
  return shifts;
}

/** The parts of a period that are wanted, the oldest first; none overlaps another. */
export function figureStretches(
  period: Stretch,
  filter: FiguresFilter,
  known: {
    readonly shifts: readonly Shift[];
    readonly sizes: readonly RecordBodies['size'][];
    readonly orders: readonly RecordBodies['order'][];
  },
): readonly Stretch[] {
  const { size, order, shift } = filter;
  return [
    ...(shift === undefined ? [] : [known.shifts.filter(({ rule }) => rule === shift)]),
    ...(size === undefined ? [] : [lasting(known.sizes, period.to, (one) => one.size === size)]),
    ...(order === undefined ? [] : [lasting(known.orders, period.to, (one) => one.order === order)]),
  ].reduce(bothOf, [period]);
}

/** Stretches of one size each, and before any was known of none. */
export function bySize(
  stretch: Stretch,
  sizes: readonly RecordBodies['size'][],
): readonly (Stretch & { readonly size: string | undefined })[] {
  const runs = sizes.map(({ at, size }, place) => ({
    from: at,
    to: sizes[place + 1]?.at ?? stretch.to,
    size,
  }));
  const first = runs[0]?.from ?? stretch.to;
  return [{ from: stretch.from, to: first, size: undefined }, ...runs].flatMap(({ from, to, size }) => {
    const cut = { from: later(from, stretch.from), to: sooner(to, stretch.to) };
    return cut.to > cut.from ? [{ ...cut, size }] : [];
  });
}

function lasting<One extends Began>(
  list: readonly One[],
  end: Instant,
  wanted: (one: One) => boolean,
): readonly Stretch[] {
  return list.flatMap((one, place) =>
    wanted(one) ? [{ from: one.at, to: list[place + 1]?.at ?? end }] : [],
  );
}

/** What lies in both; each list the oldest first and without overlap. */
function bothOf(one: readonly Stretch[], other: readonly Stretch[]): readonly Stretch[] {
  const both: Stretch[] = [];
  let [a, b] = [0, 0];
  while (a < one.length && b < other.length) {
    const [left, right] = [one[a]!, other[b]!];
    const cut = { from: later(left.from, right.from), to: sooner(left.to, right.to) };
    if (cut.to > cut.from) both.push(cut);
    if (left.to < right.to) a += 1;
    else b += 1;
  }
  return both;
}

function later(a: Instant, b: Instant): Instant {
  return a > b ? a : b;
}

function sooner(a: Instant, b: Instant): Instant {
  return a < b ? a : b;
}
