import type { ByteReader, ByteWriter } from './bytes.ts';
import { damagedBlob } from './damage.ts';

/** How far two neighbouring moments may lie apart to be told by their difference: half of what is exact. */
const FAR = 2 ** 52;
const RAW = 0;
const STEPS = 1;
const FROM_OTHER = 2;

/**
 * Writes moments by their differences, as multiples of the greatest unit that divides them all: a PLC that stamps in
 * milliseconds costs no bytes for ticks it does not have. Moments may go backwards. `beside` is another column of
 * the same length; where moments lie closer to it than to each other, they are told from it.
 */
export function writeMoments(out: ByteWriter, moments: Float64Array, beside?: Float64Array): void {
  const steps = stepsOf(moments);
  if (!steps) {
    out.byte(RAW);
    for (const moment of moments) out.double(moment);
    return;
  }
  const offsets = beside && offsetsOf(moments, beside);
  const shorter = offsets && changesIn(offsets) <= changesIn(steps) ? offsets : steps;
  out.byte(shorter === steps ? STEPS : FROM_OTHER);
  writeMultiples(out, shorter);
}

/** Reads so many moments. */
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

/** The first moment and each one's distance to the one before; undefined where these would not be exact. */
function stepsOf(moments: Float64Array): Float64Array | undefined {
  const steps = new Float64Array(moments.length);
  let before = 0;
  for (let place = 0; place < moments.length; place += 1) {
    const moment = moments[place]!;
    const step = moment - before;
    if (!exact(moment) || Math.abs(step) >= FAR) return undefined;
    steps[place] = step;
    before = moment;
  }
  return steps;
}

function offsetsOf(moments: Float64Array, beside: Float64Array): Float64Array | undefined {
  const offsets = new Float64Array(moments.length);
  for (let place = 0; place < moments.length; place += 1) {
    const offset = moments[place]! - beside[place]!;
    if (!exact(beside[place]!) || Math.abs(offset) >= FAR) return undefined;
    offsets[place] = offset;
  }
  return offsets;
}

/** Whole, within what doubles hold exactly, and not minus zero. */
function exact(moment: number): boolean {
  return Number.isSafeInteger(moment) && !Object.is(moment, -0);
}

/** How many numbers after the first take more than the shortest byte. */
function changesIn(numbers: Float64Array): number {
  let changes = 0;
  for (let place = 1; place < numbers.length; place += 1) if (numbers[place] !== 0) changes += 1;
  return changes;
}

function writeMultiples(out: ByteWriter, numbers: Float64Array): void {
  if (numbers.length === 0) return;
  const unit = unitOf(numbers);
  out.signed(numbers[0]!);
  out.count(unit);
  for (let place = 1; place < numbers.length; place += 1) out.signed(numbers[place]! / unit);
}

/** Greatest common divisor of all but the first; 1 where they are all zero. */
function unitOf(numbers: Float64Array): number {
  let unit = 0;
  for (let place = 1; place < numbers.length && unit !== 1; place += 1) {
    let rest = Math.abs(numbers[place]!);
    while (rest !== 0) {
      const less = unit % rest;
      unit = rest;
      rest = less;
    }
  }
  return unit === 0 ? 1 : unit;
}
