import type { EpochMs } from '../units/units.ts';
import type { ReportKind } from './reportPeriod.ts';

const DAY_MS = 86_400_000;
/** So many weeks and months back can be chosen. */
const WEEKS = 12;
const MONTHS = 13;

/** A moment in this week or month, and in those before it, the newest first; none where they are not counted so. */
export function reportMoments(kind: ReportKind, now: EpochMs): readonly EpochMs[] {
  if (kind === 'week') return Array.from({ length: WEEKS }, (_, n) => (now - 7 * n * DAY_MS) as EpochMs);
  if (kind !== 'month' && kind !== 'size') return [];
  const [year, month] = [new Date(now).getUTCFullYear(), new Date(now).getUTCMonth()];
  // the middle of a month lies in it whatever the zone
  return Array.from({ length: MONTHS }, (_, n) =>
    n === 0 ? now : (Date.UTC(year, month - n, 15, 12) as EpochMs),
  );
}
