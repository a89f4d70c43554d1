import { zoneOffset } from '../calendar/calendar.ts';
import type { Calendar } from '../line/line.ts';
import { type FiguresFilter, shiftsWithin } from '../past/figureStretches.ts';
import type { RecordBodies } from '../records/records.ts';
import { epochMs, HOUR, type Instant, instantFromMs, type Span } from '../units/units.ts';

/** What a report is of. A week and a month are those of the shifts that began in it, by the line's own calendar day. */
export type ReportKind = 'shift' | 'week' | 'month' | 'order' | 'size';

export interface ReportPeriod {
  readonly kind: ReportKind;
  readonly from: Instant;
  readonly to: Instant;
  readonly filter: FiguresFilter;
  /** What it is of, by the line's own calendar: the same however its shifts or its moments are amended. */
  readonly key: string;
  /** It ends now, and goes on. */
  readonly goesOn: boolean;
  /** Name of its shift; undefined for what is not one. */
  readonly shift: string | undefined;
}

export interface PeriodAsked {
  readonly kind: ReportKind;
  /** A moment within it; for an order, any. */
  readonly at: Instant;
  readonly now: Instant;
  readonly calendar: Calendar;
  readonly zone: string;
  readonly order: string | undefined;
  readonly size: string | undefined;
  /** When orders began, the oldest first. */
  readonly orders: readonly RecordBodies['order'][];
}

const DAY_MS = 86_400_000;
const DAY = (24 * HOUR) as Span;

/** From when to when; it never ends after now. Undefined where there is none, as between shifts or for an order nobody ran. */
export function reportPeriod(asked: PeriodAsked): ReportPeriod | undefined {
  const { kind, order, size } = asked;
  switch (kind) {
    case 'shift':
      return shiftPeriod(asked);
    case 'week':
    case 'month':
      return daysPeriod(asked, {});
    case 'size':
      return size === undefined ? undefined : daysPeriod(asked, { size });
    case 'order':
      return order === undefined ? undefined : orderPeriod(asked, order);
  }
}

function shiftPeriod({ at, now, calendar, zone }: PeriodAsked): ReportPeriod | undefined {
  const [shift] = shiftsWithin(calendar, zone, { from: at, to: (at + 1) as Instant });
  if (!shift || shift.from > now) return undefined;
  const { from, name, rule } = shift;
  const key = `shift ${dateOf(from, zone)} ${rule}`;
  return { kind: 'shift', key, from, ...until(shift.to, now), filter: {}, shift: name };
}

/** The shifts that began in the week, Monday first (ISO 8601), or in the month of a moment. */
function daysPeriod(asked: PeriodAsked, filter: FiguresFilter): ReportPeriod | undefined {
  const { kind, at, now, calendar, zone } = asked;
  const inIt = sameDays(kind === 'week' ? 'week' : 'month', dayOf(at, zone), zone);
  const around = 32 * DAY;
  const shifts = shiftsWithin(calendar, zone, {
    from: (at - around) as Instant,
    to: (at + around) as Instant,
  });
  const own = shifts.filter(({ from }) => inIt(from));
  const [first, last] = [own[0], own.at(-1)];
  if (!first || !last || first.from > now) return undefined;
  const day = dayOf(at, zone);
  const days = kind === 'week' ? dayText(day - ((day + 3) % 7)) : dayText(day).slice(0, 7);
  const key = [kind, ...(filter.size === undefined ? [] : [filter.size]), days].join(' ');
  return { kind, key, from: first.from, ...until(last.to, now), filter, shift: undefined };
}

function orderPeriod({ orders, now, zone }: PeriodAsked, order: string): ReportPeriod | undefined {
  const first = orders.findIndex((one) => one.order === order);
  const last = orders.findLastIndex((one) => one.order === order);
  if (first < 0) return undefined;
  const end = orders[last + 1]?.at ?? (Infinity as Instant);
  return {
    kind: 'order',
    key: `order ${order} ${dateOf(orders[first]!.at, zone)}`,
    from: orders[first]!.at,
    ...until(end, now),
    filter: { order },
    shift: undefined,
  };
}

/** The local day that a moment lies in, as days since 1970. */
function dayOf(at: Instant, zone: string): number {
  const ms = epochMs(at);
  return Math.floor((ms + zoneOffset(ms, zone)) / DAY_MS);
}

function dateOf(at: Instant, zone: string): string {
  return dayText(dayOf(at, zone));
}

function dayText(days: number): string {
  return new Date(days * DAY_MS).toISOString().slice(0, 10);
}

function sameDays(of: 'week' | 'month', day: number, zone: string): (at: Instant) => boolean {
  // 1970-01-01 was a Thursday
  const key = (days: number) =>
    of === 'week' ? String(Math.floor((days + 3) / 7)) : new Date(days * DAY_MS).toISOString().slice(0, 7);
  return (at) => key(dayOf(at, zone)) === key(day);
}

/** It ends then, or goes on and ends now. */
function until(end: Instant, now: Instant): Pick<ReportPeriod, 'to' | 'goesOn'> {
  return { to: sooner(end, now), goesOn: end > now };
}

function sooner(a: Instant, b: Instant): Instant {
  return a < b ? a : b;
}

/** A moment of an address, milliseconds since 1970; without one, now. */
export function momentOf(ms: number | undefined, now: Instant): Instant {
  return ms === undefined ? now : instantFromMs(ms);
}
