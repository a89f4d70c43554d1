import type { LineIndex } from '../fold/lineIndex.ts';
import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs, HOUR, type Instant, type Millis, millis, type Span } from '../units/units.ts';

/** A run: one carton size, from one changeover to the next. */
export interface PastRun {
  readonly size: { readonly id: string; readonly name: string };
  readonly from: EpochMs;
  /** Up to here it can be looked at: its end, but no further than its first day's; of one that goes on that is still ahead. */
  readonly to: EpochMs;
  readonly lasted: Millis;
  readonly goesOn: boolean;
  /** Only its first day is looked at. */
  readonly cut: boolean;
}

/** As much of a run is looked at in one go. */
export const RUN_MOST = (24 * HOUR) as Span;

/** [RP10] Runs by what began them, the oldest first; `sizes` in order, up to the newest of all. */
export function runsPast(
  index: LineIndex,
  sizes: readonly RecordBodies['size'][],
  now: Instant,
): readonly PastRun[] {
  return sizes.flatMap(({ at, size }, place) => {
    const next = sizes[place + 1]?.at;
    const end = next ?? now;
    if (end <= at) return [];
    const most = (at + RUN_MOST) as Instant;
    return [
      {
        size: { id: size, name: index.sizeById.get(size)?.name ?? size },
        from: epochMs(at),
        to: epochMs(Math.min(next ?? most, most) as Instant),
        lasted: millis((end - at) as Span),
        goesOn: next === undefined,
        cut: most < end,
      },
    ];
  });
}
