import type { Change, Value } from '../signals/signals.ts';
import { assert } from '../trouble/trouble.ts';
import type { ByteReader, ByteWriter } from './bytes.ts';
import { damagedBlob } from './damage.ts';
import { writeNumbers } from './numbers.ts';

export interface Grouped {
  /** Signal numbers that occur, ascending. */
  readonly numbers: readonly number[];
  /** For each change, the place of its signal in `numbers`. */
  readonly groups: Uint32Array;
  /** Values by place in `numbers`. */
  readonly members: readonly Value[][];
}

/** Changes by their signals. */
export function bySignal(changes: readonly Change[]): Grouped {
  const seen = new Map<number, Value[]>();
  for (const { signal, value } of changes) {
    const values = seen.get(signal);
    if (values) values.push(value);
    else seen.set(signal, [value]);
  }
  const numbers = [...seen.keys()].sort((a, b) => a - b);
  const places = new Map(numbers.map((signal, place) => [signal, place]));
  const groups = new Uint32Array(changes.length);
  for (let place = 0; place < changes.length; place += 1) groups[place] = places.get(changes[place]!.signal)!;
  return { numbers, groups, members: numbers.map((signal) => seen.get(signal)!) };
}

/** Which signals occur, and for each change which of them it is. */
export function writeSignals(out: ByteWriter, numbers: readonly number[], groups: Uint32Array): void {
  out.count(numbers.length);
  let before = 0;
  for (const signal of numbers) {
    assert(Number.isSafeInteger(signal) && signal >= 0, `signal ${signal} on the tape`);
    out.count(signal - before);
    before = signal;
  }
  writeNumbers(out, new Float64Array(groups));
}

export interface Signals {
  /** By change. */
  readonly signal: Uint32Array | Float64Array;
  readonly groups: Uint32Array;
  /** Changes of each group. */
  readonly sizes: readonly number[];
  /** For each place over all groups, the change it belongs to. */
  readonly order: Uint32Array;
}

/** `readGroups` reads the column of places, which each format writes in its own way. */
export function readSignals(from: ByteReader, count: number, readGroups: () => Uint32Array): Signals {
  const numbers: number[] = [];
  for (let left = from.count(); left > 0; left -= 1) numbers.push((numbers.at(-1) ?? 0) + from.count());
  if (count > 0 && numbers.length === 0) throw damagedBlob();
  const groups = readGroups();
  const sizes = numbers.map(() => 0);
  const signal = (numbers.at(-1) ?? 0) < 2 ** 32 ? new Uint32Array(count) : new Float64Array(count);
  for (let place = 0; place < count; place += 1) {
    const group = groups[place]!;
    if (group >= numbers.length) throw damagedBlob();
    sizes[group]! += 1;
    signal[place] = numbers[group]!;
  }
  const next: number[] = [];
  let start = 0;
  for (const size of sizes) {
    next.push(start);
    start += size;
  }
  const order = new Uint32Array(count);
  for (let place = 0; place < count; place += 1) order[next[groups[place]!]!++] = place;
  return { signal, groups, sizes, order };
}
