import type { Change } from '../signals/signals.ts';
import { assert } from '../trouble/trouble.ts';
import { ByteReader, ByteWriter } from './bytes.ts';
import { type Columns, changesOf, type Part } from './columns.ts';
import { crc32 } from './crc32.ts';
import { damagedBlob, newerBlob } from './damage.ts';
import { readFormat1 } from './format1/format1.ts';
import { readLineTimes, writeLineTimes } from './moments.ts';
import { readNumbers } from './numbers.ts';
import { readReceipts, writeReceipts } from './receipt.ts';
import { bySignal, readSignals, writeSignals } from './signals.ts';
import { readStatuses, writeStatuses } from './statuses.ts';
import { readValues, writeValues } from './values.ts';

/** "SLT" and the number of the format. */
const MARK = [0x53, 0x4c, 0x54] as const;
const FORMAT = 2;
const CHECKSUM_BYTES = 4;
/** More changes than this no blob holds: a number that says so is damage, not a reason to run out of memory. */
const CHANGES_MOST = 2 ** 20;

/**
 * Changes as bytes, column by column: signals, line time, received, status, values (README.md has the format). Nothing is
 * lost, whatever the order of the changes; the same changes always give the same bytes. The last four bytes are a checksum.
 */
export function encode(changes: readonly Change[]): Uint8Array {
  assert(changes.length <= CHANGES_MOST, `${changes.length} changes in one piece of the tape`);
  const out = new ByteWriter();
  for (const byte of MARK) out.byte(byte);
  out.byte(FORMAT);
  out.count(changes.length);
  const { numbers, groups, members } = bySignal(changes);
  writeSignals(out, numbers, groups);
  const at = new Float64Array(changes.length);
  const received = new Float64Array(changes.length);
  for (let place = 0; place < changes.length; place += 1) {
    at[place] = changes[place]!.at;
    received[place] = changes[place]!.received;
  }
  writeLineTimes(out, at, groups, numbers.length);
  writeReceipts(out, received, at);
  writeStatuses(out, changes);
  writeValues(out, members);
  out.fixed32(crc32(out.written()));
  return out.written().slice();
}

/**
 * The changes of a blob, of any format so far, or a part of them. A damaged one, or one of a later format, is refused with a
 * `LineError`.
 */
export function decode(bytes: Uint8Array, part?: Part): Change[] {
  return changesOf(columnsOf(bytes), part);
}

/** The same, column by column. */
export function columnsOf(bytes: Uint8Array): Columns {
  const { format, from } = verified(bytes);
  if (format === 1) return readFormat1(from);
  const count = from.count();
  if (count > CHANGES_MOST) throw damagedBlob();
  const { signal, groups, sizes, order } = readSignals(
    from,
    count,
    () => new Uint32Array(readNumbers(from, count)),
  );
  const at = readLineTimes(from, count, groups, sizes.length);
  const received = readReceipts(from, count, at);
  const status = readStatuses(from, count);
  const value = readValues(from, sizes, order);
  return { count, signal, at, received, status, value };
}

function verified(bytes: Uint8Array): { readonly format: number; readonly from: ByteReader } {
  const body = bytes.subarray(0, Math.max(0, bytes.length - CHECKSUM_BYTES));
  const end = new ByteReader(bytes.subarray(body.length));
  if (body.length < MARK.length + 1 || end.fixed32() !== crc32(body)) throw damagedBlob();
  const from = new ByteReader(body);
  for (const byte of MARK) if (from.byte() !== byte) throw damagedBlob();
  const format = from.byte();
  if (format > FORMAT) throw newerBlob(format);
  if (format === 0) throw damagedBlob();
  return { format, from };
}
