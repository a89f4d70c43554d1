import type { ByteReader } from '../bytes.ts';
import { damagedBlob } from '../damage.ts';

const RAW = 0;
const STEPS = 1;
const FROM_OTHER = 2;

/** Reads so many moments as format 1 wrote them; `beside` is the column that they may be told from. */
export function readMoments(from: ByteReader, count: number, beside?: Float64Array): Float64Array {
  const mode = from.byte();
  if (mode > FROM_OTHER || (mode === FROM_OTHER && !beside)) throw damagedBlob();
  const moments = new Float64Array(count);
  if (mode === RAW) {
    for (let place = 0; place < count; place += 1) moments[place] = from.double();
    return moments;
  }
  if (count === 0) return moments;
  const first = from.signed();
  const unit = from.count();
  moments[0] = mode === STEPS ? first : first + beside![0]!;
  for (let place = 1; place < count; place += 1) {
    moments[place] = from.signed() * unit + (mode === STEPS ? moments[place - 1]! : beside![place]!);
  }
  return moments;
}
