import { zoneOffset } from '../calendar/calendar.ts';
import type { EpochMs } from '../units/units.ts';
import type { ReportKind } from './reportPeriod.ts';

const DAY_MS = 86_400_000;
/** So many weeks and months back can be chosen. */
const MOST = { week: 12, month: 13 } as const;

/** A week or a month that can be chosen. */
export interface ReportMoment {
  /** Noon of a day in it, the same whenever it is asked for. */
  readonly at: EpochMs;
  /** So many before that of now. */
  readonly back: number;
}

export interface MomentsAsked {
  readonly now: EpochMs;
  readonly zone: string;
  /** When the first shift that was seen began, and the newest that has begun; undefined where there is none. */
  readonly first: EpochMs | undefined;
  readonly newest: EpochMs | undefined;
}

/**
 * The weeks or months that there is a report of, the newest first: from that in which the newest shift began, back to that of
 * the first one. By the days of the line's own clock, so that none is left out and none is there twice; none where they are
 * not counted so.
 */
export function reportMoments(
  kind: ReportKind,
  { now, zone, first, newest }: MomentsAsked,
): readonly ReportMoment[] {
  const count = countOf(kind);
  if (!count || first === undefined || newest === undefined) return [];
  const [last, current] = [count(newest, zone), count(now, zone)];
  const there = Math.min(last - count(first, zone) + 1, MOST[kind === 'week' ? 'week' : 'month']);
  return Array.from({ length: Math.max(0, there) }, (_, n) => ({
    at: noonOf(kind === 'week' ? mondayOf(last - n) + 3 : dayInMonth(last - n), zone),
    back: current - last + n,
  }));
}

/** Whether two moments lie in the same week or month, by the line's own days. */
export function isSameMoment(kind: ReportKind, zone: string, a: number, b: number): boolean {
  const count = countOf(kind);
  return count !== undefined && count(a, zone) === count(b, zone);
}

/** Weeks or months are counted on, one after another without end; undefined for what has none. */
function countOf(kind: ReportKind): ((ms: number, zone: string) => number) | undefined {
  if (kind === 'week') return weekOf;
  return kind === 'month' || kind === 'size' ? monthOf : undefined;
}

/** Local days since 1970. */
function dayOf(ms: number, zone: string): number {
  return Math.floor((ms + zoneOffset(ms, zone)) / DAY_MS);
}

/** 1970-01-01 was a Thursday, and lies in week 0. */
function weekOf(ms: number, zone: string): number {
  return Math.floor((dayOf(ms, zone) + 3) / 7);
}

function mondayOf(week: number): number {
  return week * 7 - 3;
}

function monthOf(ms: number, zone: string): number {
  const day = new Date(dayOf(ms, zone) * DAY_MS);
  return day.getUTCFullYear() * 12 + day.getUTCMonth();
}

function dayInMonth(month: number): number {
  return Math.floor(Date.UTC(Math.floor(month / 12), month % 12, 15) / DAY_MS);
}

/** Noon by the local clock, or an hour beside it: that lies in the same day. */
function noonOf(day: number, zone: string): EpochMs {
  const noon = (day + 0.5) * DAY_MS;
  return (noon - zoneOffset(noon, zone)) as EpochMs;
}
