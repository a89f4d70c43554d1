import type { Change, Value } from '../signals/signals.ts';
import type { Instant } from '../units/units.ts';

/** Changes column by column, in their order. */
export interface Columns {
  readonly count: number;
  readonly signal: Float64Array | Uint32Array;
  readonly at: Float64Array;
  readonly received: Float64Array;
  readonly status: Float64Array;
  readonly value: readonly Value[];
}

/** Which of the changes are wanted, and what their signals are called. */
export interface Part {
  /** Places [from, to) among those of the piece; all of them where it is not said. */
  readonly from?: number;
  readonly to?: number;
  /** The signal to give for each of the tape's own numbers; those without one are left out. Not said: the numbers. */
  readonly places?: readonly (number | undefined)[];
}

/** Columns as changes, in one pass. */
export function changesOf(columns: Columns, { from = 0, to = columns.count, places }: Part = {}): Change[] {
  const { signal, at, received, status, value } = columns;
  const changes: Change[] = [];
  for (let place = from; place < to; place += 1) {
    const index = places ? places[signal[place]!] : signal[place]!;
    if (index === undefined) continue;
    changes.push({
      signal: index,
      at: at[place]! as Instant,
      received: received[place]! as Instant,
      status: status[place]!,
      value: value[place]!,
    });
  }
  return changes;
}
