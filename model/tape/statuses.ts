import type { Change } from '../signals/signals.ts';
import { assert } from '../trouble/trouble.ts';
import type { ByteReader, ByteWriter } from './bytes.ts';
import { damagedBlob } from './damage.ts';

/** Most changes are good, and bad ones come in a row: runs of the same status. */
export function writeStatuses(out: ByteWriter, changes: readonly Change[]): void {
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

export function readStatuses(from: ByteReader, count: number): Uint32Array {
  const statuses = new Uint32Array(count);
  for (let place = 0; place < count; ) {
    const end = place + from.count();
    if (end > count || end === place) throw damagedBlob();
    statuses.fill(from.count(), place, end);
    place = end;
  }
  return statuses;
}
