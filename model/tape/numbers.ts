import type { ByteReader, ByteWriter } from './bytes.ts';
import { damagedBlob } from './damage.ts';

/** A number that does not fit its planes costs about so many bytes beside the part that does not. */
const APART_BYTES = 2;
/** Whole numbers to 2^53 have no more bytes. */
const BYTES_MOST = 7;

/**
 * Writes whole numbers from 0 to 2^53, as many as the reader will know of: the lowest byte of each, then the next byte of
 * each, as many planes as most of them need; what is left of the others comes after that with their places. Bytes of
 * one weight look alike, so they pack better beside each other, and they are read without a look at each.
 */
export function writeNumbers(out: ByteWriter, numbers: Float64Array): void {
  const planes = planesFor(numbers);
  out.byte(planes);
  let scale = 1;
  for (let plane = 0; plane < planes; plane += 1, scale *= 256) {
    const bytes = out.take(numbers.length);
    for (let place = 0; place < numbers.length; place += 1)
      bytes[place] = Math.floor(numbers[place]! / scale);
  }
  const apart: number[] = [];
  for (let place = 0; place < numbers.length; place += 1) if (numbers[place]! >= scale) apart.push(place);
  out.count(apart.length);
  let before = 0;
  for (const place of apart) {
    out.count(place - before);
    out.count(Math.floor(numbers[place]! / scale));
    before = place;
  }
}

/** Reads so many numbers. */
export function readNumbers(from: ByteReader, count: number): Float64Array {
  const planes = from.byte();
  if (planes > BYTES_MOST) throw damagedBlob();
  const bytes = from.bytesOf(count * planes);
  const numbers = new Float64Array(count);
  if (planes === 1) for (let place = 0; place < count; place += 1) numbers[place] = bytes[place]!;
  else if (planes === 2)
    for (let place = 0; place < count; place += 1)
      numbers[place] = bytes[place]! | (bytes[count + place]! << 8);
  else if (planes === 3) {
    const third = 2 * count;
    for (let place = 0; place < count; place += 1)
      numbers[place] = bytes[place]! | (bytes[count + place]! << 8) | (bytes[third + place]! << 16);
  } else {
    for (let plane = planes - 1; plane >= 0; plane -= 1)
      for (let place = 0; place < count; place += 1)
        numbers[place] = numbers[place]! * 256 + bytes[plane * count + place]!;
  }
  const scale = 256 ** planes;
  let place = 0;
  for (let left = from.count(); left > 0; left -= 1) {
    place += from.count();
    if (place >= count) throw damagedBlob();
    numbers[place]! += from.count() * scale;
  }
  return numbers;
}

/** Folds whole numbers of either sign onto those from 0 on, small ones onto small ones. Minus zero becomes zero. */
export function folded(numbers: Float64Array): Float64Array {
  return numbers.map((number) => (number < 0 ? -2 * number - 1 : 2 * number));
}

/** What was folded, in place. */
export function unfold(numbers: Float64Array): Float64Array {
  for (let place = 0; place < numbers.length; place += 1) numbers[place] = unfolded(numbers[place]!);
  return numbers;
}

export function unfolded(number: number): number {
  return number < 0x80000000
    ? (number >>> 1) ^ -(number & 1)
    : number % 2 === 0
      ? number / 2
      : -(number + 1) / 2;
}

/** About how many bits they take: what is compared to choose between two ways of telling the same. */
export function bitsOf(foldedNumbers: Float64Array): number {
  let bits = 0;
  for (const number of foldedNumbers) bits += bitLength(number);
  return bits;
}

function bitLength(number: number): number {
  return number < 0x100000000 ? 32 - Math.clz32(number) : 64 - Math.clz32(number / 0x100000000);
}

function planesFor(numbers: Float64Array): number {
  const byBytes = new Float64Array(BYTES_MOST + 1);
  for (const number of numbers) byBytes[(bitLength(number) + 7) >> 3]! += 1;
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let planes = 0; planes <= BYTES_MOST; planes += 1) {
    let bytes = planes * numbers.length;
    for (let more = planes + 1; more <= BYTES_MOST; more += 1)
      bytes += byBytes[more]! * (APART_BYTES + more - planes);
    if (bytes >= least) continue;
    best = planes;
    least = bytes;
  }
  return best;
}
