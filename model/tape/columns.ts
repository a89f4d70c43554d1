import type { Change, SignalIndex, Value } from '../signals/signals.ts';
import type { Instant } from '../units/units.ts';

/** Changes column by column, in their order. */
export interface Columns {
  readonly count: number;
  /** Small whole numbers stay such in the changes: read from floats, each would be an object of its own. */
  readonly signal: Uint32Array | Float64Array;
  readonly at: Float64Array;
  readonly received: Float64Array;
  readonly status: Uint32Array;
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
  // made at its length: an array that grows moves its changes, again and again
  const changes = new Array<Change>(Math.max(0, to - from));
  let made = 0;
  for (let place = from; place < to; place += 1) {
    const index = places ? places[signal[place]!] : signal[place]!;
    if (index === undefined) continue;
    changes[made] = new PlainChange(
      index,
      at[place]! as Instant,
      received[place]! as Instant,
      status[place]!,
      value[place]!,
    );
    made += 1;
  }
  changes.length = made;
  return changes;
}

/**
 * Makes a change like any other: a plain object. By a constructor and not as a literal, because the engine watches a literal:
 * where many made at one place outlive the next collection, as those of a piece do, it has them made among the old
 * objects from then on, and reading takes twice as long.
 */
const PlainChange = function (
  this: { -readonly [Key in keyof Change]: Change[Key] },
  signal: SignalIndex,
  at: Instant,
  received: Instant,
  status: number,
  value: Value,
) {
  this.signal = signal;
  this.at = at;
  this.received = received;
  this.status = status;
  this.value = value;
} as unknown as new (
  ...parts: [SignalIndex, Instant, Instant, number, Value]
) => Change;
PlainChange.prototype = Object.prototype;
