import type { Change, Value } from '../signals/signals.ts';
import { assert } from '../trouble/trouble.ts';
import type { Instant } from '../units/units.ts';
import { ByteReader, ByteWriter } from './bytes.ts';
import { crc32 } from './crc32.ts';
import { damagedBlob, newerBlob } from './damage.ts';
import { readMoments, writeMoments } from './moments.ts';
import { readValues, writeValues } from './values.ts';

/** "SLT" and the number of the format. */
const MARK = [0x53, 0x4c, 0x54] as const;
const FORMAT = 1;
const CHECKSUM_BYTES = 4;

/**
 * Changes as bytes, column by column: signals, line time, received, status, values. Nothing is lost, whatever the
 * order of the changes; the same changes always give the same bytes. The last four bytes are a checksum.
 */
export function encode(changes: readonly Change[]): Uint8Array {
  const out = new ByteWriter();
  for (const byte of MARK) out.byte(byte);
  out.byte(FORMAT);
  out.count(changes.length);
  const { numbers, groups, members } = bySignal(changes);
  writeSignals(out, numbers, groups);
  const at = Float64Array.from(changes, (change) => change.at);
  writeMoments(out, at);
  writeMoments(
    out,
    Float64Array.from(changes, (change) => change.received),
    at,
  );
  writeStatuses(out, changes);
  writeValues(out, members);
  out.fixed32(crc32(out.written()));
  return out.written().slice();
}

/** The changes of a blob. A damaged one, or one of a later format, is refused with a `LineError`. */
export function decode(bytes: Uint8Array): Change[] {
  const from = verified(bytes);
  const count = from.count();
  const { signals, sizes, order } = readSignals(from, count);
  const at = readMoments(from, count);
  const received = readMoments(from, count, at);
  const statuses = readStatuses(from, count);
  const values = new Array<Value>(count);
  readValues(from, sizes, (place, value) => {
    values[order[place]!] = value;
  });
  const changes = new Array<Change>(count);
  for (let place = 0; place < count; place += 1) {
    changes[place] = {
      signal: signals[place]!,
      at: at[place]! as Instant,
      received: received[place]! as Instant,
      status: statuses[place]!,
      value: values[place]!,
    };
  }
  return changes;
}

function verified(bytes: Uint8Array): ByteReader {
  const body = bytes.subarray(0, Math.max(0, bytes.length - CHECKSUM_BYTES));
  const end = new ByteReader(bytes.subarray(body.length));
  if (body.length < MARK.length + 1 || end.fixed32() !== crc32(body)) throw damagedBlob();
  const from = new ByteReader(body);
  for (const byte of MARK) if (from.byte() !== byte) throw damagedBlob();
  const format = from.byte();
  if (format > FORMAT) throw newerBlob(format);
  return from;
}

interface Grouped {
  /** Signal numbers that occur, ascending. */
  readonly numbers: readonly number[];
  /** For each change, the place of its signal in `numbers`. */
  readonly groups: Uint32Array;
  /** Values by place in `numbers`. */
  readonly members: readonly Value[][];
}

function bySignal(changes: readonly Change[]): Grouped {
  const numbers = [...new Set(changes.map((change) => change.signal))].sort((a, b) => a - b);
  const places = new Map(numbers.map((signal, place) => [signal, place]));
  const members = numbers.map((): Value[] => []);
  const groups = Uint32Array.from(changes, ({ signal, value }) => {
    const place = places.get(signal)!;
    members[place]!.push(value);
    return place;
  });
  return { numbers, groups, members };
}

function writeSignals(out: ByteWriter, numbers: readonly number[], groups: Uint32Array): void {
  out.count(numbers.length);
  let before = 0;
  for (const signal of numbers) {
    assert(Number.isSafeInteger(signal) && signal >= 0, `signal ${signal} on the tape`);
    out.count(signal - before);
    before = signal;
  }
  for (const group of groups) out.count(group);
}

/** Signals by change, the size of each group, and for each place over all groups the change it belongs to. */
function readSignals(
  from: ByteReader,
  count: number,
): { readonly signals: Float64Array; readonly sizes: readonly number[]; readonly order: Uint32Array } {
  const numbers: number[] = [];
  for (let left = from.count(); left > 0; left -= 1) numbers.push((numbers.at(-1) ?? 0) + from.count());
  if (count > from.left()) throw damagedBlob();
  const groups = new Uint32Array(count);
  const sizes = numbers.map(() => 0);
  const signals = new Float64Array(count);
  for (let place = 0; place < count; place += 1) {
    const group = from.count();
    if (group >= numbers.length) throw damagedBlob();
    groups[place] = group;
    sizes[group]! += 1;
    signals[place] = numbers[group]!;
  }
  const next: number[] = [];
  let start = 0;
  for (const size of sizes) {
    next.push(start);
    start += size;
  }
  const order = new Uint32Array(count);
  for (let place = 0; place < count; place += 1) order[next[groups[place]!]!++] = place;
  return { signals, sizes, order };
}

/** Most changes are good, and bad ones come in a row: runs of the same status. */
function writeStatuses(out: ByteWriter, changes: readonly Change[]): void {
  for (let place = 0; place < changes.length; ) {
    const { status } = changes[place]!;
    assert(Number.isInteger(status) && status >= 0 && status < 2 ** 32, `status ${status} on the tape`);
    let end = place + 1;
    while (end < changes.length && changes[end]!.status === status) end += 1;
    out.count(end - place);
    out.count(status);
    place = end;
  }
}

function readStatuses(from: ByteReader, count: number): Float64Array {
  const statuses = new Float64Array(count);
  for (let place = 0; place < count; ) {
    const end = place + from.count();
    if (end > count || end === place) throw damagedBlob();
    statuses.fill(from.count(), place, end);
    place = end;
  }
  return statuses;
}
