import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs, HOUR, type Instant, type Span } from '../units/units.ts';
import { overlap } from './past.ts';

/** One cell of a stretch of time that is drawn in equal cells. */
export interface TimeCell {
  readonly from: EpochMs;
  readonly to: EpochMs;
  /** Nobody was looking for more than half of it. */
  readonly unseen: boolean;
  /** A few of them, evenly spaced, bear their time. */
  readonly dated: boolean;
}

const CELLS_MOST = 31;
const STEPS = [1, 2, 6, 24, 7 * 24].map((hours) => (hours * HOUR) as Span);
const DATED = 5;
/** What is left after the last whole cell belongs to it where it is no more than this share of one. */
const LAST_LEAST = 0.1;

/** The beginnings of equal cells that cover [from, to), 31 at most; the last of them may be shorter or a little longer. */
export function cellStarts(from: Instant, to: Instant): readonly Instant[] {
  const long = to - from;
  const step = STEPS.find((one) => long <= one * CELLS_MOST) ?? Math.ceil(long / CELLS_MOST);
  return Array.from(
    { length: Math.max(1, Math.ceil(long / step - LAST_LEAST)) },
    (_, place) => (from + place * step) as Instant,
  );
}

/** `begun`: from when on there are records at all. */
export function timeCells(
  starts: readonly Instant[],
  to: Instant,
  gaps: readonly RecordBodies['gap'][],
  begun: Instant,
): readonly TimeCell[] {
  const every = Math.max(1, Math.ceil(starts.length / DATED));
  return starts.map((from, place) => {
    const until = starts[place + 1] ?? to;
    const cell = { from, to: until };
    const missed = gaps
      .filter(({ kind }) => kind === 'unknown')
      .reduce<number>((sum, gap) => sum + overlap(gap, cell), overlap({ from, to: begun }, cell));
    return {
      from: epochMs(from),
      to: epochMs(until),
      unseen: missed > (until - from) / 2,
      dated: place % every === 0,
    };
  });
}

/** Place of the cell that a moment lies in; −1 before the first. */
export function cellAt(starts: readonly Instant[], at: Instant): number {
  return starts.findLastIndex((start) => start <= at);
}
