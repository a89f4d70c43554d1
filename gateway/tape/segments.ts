import { deflateSync, inflateSync } from 'node:zlib';
import type { Change } from '../../model/signals/signals.ts';
import { columnsOf, decode, encode } from '../../model/tape/codec.ts';
import type { Columns } from '../../model/tape/columns.ts';
import { isDamage } from '../../model/tape/damage.ts';
import { minutes } from '../../model/units/units.ts';

/** A segment holds what was received in this time, and no more than so many changes. */
export const SEGMENT_SPAN = minutes(10);
export const SEGMENT_MOST = 65_536;

/** Where the tail and what follows it are cut: whole segments, and what stays open after the last of them. */
export interface Division {
  readonly sealed: readonly (readonly Change[])[];
  readonly rest: readonly Change[];
}

/**
 * Cuts a line's changes into segments. Where the cuts lie depends on the changes alone, never on how they were
 * divided into batches, so that every way onto the tape gives the same bytes. No segment is sealed: `rest` is `fresh`.
 */
export function divide(tail: readonly Change[], fresh: readonly Change[]): Division {
  const sealed: Change[][] = [];
  let kept: readonly Change[] = tail;
  let from = 0;
  let began = tail[0]?.received;
  for (let place = 0; place < fresh.length; place += 1) {
    const { received } = fresh[place]!;
    began ??= received;
    const size = kept.length + place - from;
    if (size > 0 && (size >= SEGMENT_MOST || received - began >= SEGMENT_SPAN)) {
      sealed.push(kept.concat(fresh.slice(from, place)));
      kept = [];
      from = place;
      began = received;
    }
  }
  return { sealed, rest: from === 0 ? fresh : fresh.slice(from) };
}

/** A sealed segment's bytes, in the zlib format, which browsers inflate too. */
export function seal(changes: readonly Change[]): Buffer {
  return deflateSync(encode(changes), { level: 6 });
}

/** The changes of a sealed segment; throws where it is damaged. */
export function unseal(bytes: Uint8Array): Change[] {
  return decode(inflateSync(bytes));
}

/** The same, column by column. */
export function unsealColumns(bytes: Uint8Array): Columns {
  return columnsOf(inflateSync(bytes));
}

/** What `open` makes of stored bytes; undefined where they are damaged. A format of a later version is told as such. */
export function opened<Result>(bytes: Uint8Array, open: (bytes: Uint8Array) => Result): Result | undefined {
  try {
    return open(bytes);
  } catch (error) {
    if (isDamage(error) || (error as NodeJS.ErrnoException).code?.startsWith('Z_')) return undefined;
    throw error;
  }
}
