import type { Value } from '../../signals/signals.ts';
import type { ByteReader } from '../bytes.ts';
import type { Columns } from '../columns.ts';
import { damagedBlob } from '../damage.ts';
import { readSignals } from '../signals.ts';
import { readStatuses } from '../statuses.ts';
import { readMoments } from './moments.ts';
import { readValues } from './values.ts';

/** What format 1 wrote, after its mark. It is not written any more, and read for ever. */
export function readFormat1(from: ByteReader): Columns {
  const count = from.count();
  const { signal, sizes, order } = readSignals(from, count, () => readGroups(from, count));
  const at = readMoments(from, count);
  const received = readMoments(from, count, at);
  const status = readStatuses(from, count);
  const value = new Array<Value>(count).fill(null);
  readValues(from, sizes, (place, one) => {
    value[order[place]!] = one;
  });
  return { count, signal, at, received, status, value };
}

function readGroups(from: ByteReader, count: number): Uint32Array {
  if (count > from.left()) throw damagedBlob();
  const groups = new Uint32Array(count);
  for (let place = 0; place < count; place += 1) groups[place] = from.count();
  return groups;
}
