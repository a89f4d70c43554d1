import type { ByteReader, ByteWriter } from './bytes.ts';
import { damagedBlob } from './damage.ts';
import { exactSteps, readRaw, writeRaw } from './moments.ts';
import { bitsOf, folded, readNumbers, unfold, writeNumbers } from './numbers.ts';
import { greatestUnit } from './unit.ts';

/** How the moments of receipt are told; 0 is in full. */
const RAW = 0;
const BATCHES = 1;
const BESIDE = 2;
/** A batch costs about so many bits. */
const BATCH_BITS = 12;

/**
 * Moments of receipt. What a publish brought was received at one moment, and publishes come at an interval: told is how many
 * changes each brought, how many intervals after the one before it came, and how far off. Where changes have hardly a
 * moment in common, as in a history that nobody received, each is told by its distance from line time.
 */
export function writeReceipts(out: ByteWriter, received: Float64Array, at: Float64Array): void {
  const { moments, sizes } = batchesOf(received);
  const steps = exactSteps(moments);
  const offsets = steps && offsetsOf(received, at);
  if (!steps) {
    writeRaw(out, received);
  } else if (offsets && offsets.bits < moments.length * BATCH_BITS) {
    out.byte(BESIDE);
    out.count(offsets.unit);
    writeNumbers(out, offsets.numbers);
  } else {
    out.byte(BATCHES);
    writeBatches(out, moments, sizes, steps);
  }
}

export function readReceipts(from: ByteReader, count: number, at: Float64Array): Float64Array {
  const mode = from.byte();
  if (mode === RAW) return readRaw(from, count);
  if (mode === BATCHES) return readBatches(from, count);
  if (mode !== BESIDE) throw damagedBlob();
  const unit = from.count();
  const received = unfold(readNumbers(from, count));
  for (let place = 0; place < count; place += 1) received[place] = at[place]! + received[place]! * unit;
  return received;
}

function writeBatches(
  out: ByteWriter,
  moments: Float64Array,
  sizes: Float64Array,
  steps: Float64Array,
): void {
  const unit = greatestUnit(steps);
  for (let place = 0; place < steps.length; place += 1) steps[place]! /= unit;
  const interval = mostCommon(steps);
  const whole = steps.map((step) => (interval === 0 ? 0 : Math.round(step / interval)));
  const off = steps.map((step, place) => step - whole[place]! * interval);
  out.count(moments.length);
  out.signed(moments[0] ?? 0);
  out.count(unit);
  out.signed(interval);
  writeNumbers(out, sizes);
  writeNumbers(out, folded(whole));
  writeNumbers(out, folded(off));
}

function readBatches(from: ByteReader, count: number): Float64Array {
  const batches = from.count();
  if (batches > count) throw damagedBlob();
  let moment = from.signed();
  const unit = from.count();
  const interval = from.signed();
  const sizes = readNumbers(from, batches);
  const whole = unfold(readNumbers(from, Math.max(0, batches - 1)));
  const off = unfold(readNumbers(from, Math.max(0, batches - 1)));
  const received = new Float64Array(count);
  let place = 0;
  for (let batch = 0; batch < batches; batch += 1) {
    if (batch > 0) moment += (whole[batch - 1]! * interval + off[batch - 1]!) * unit;
    const end = place + sizes[batch]!;
    if (end > count) throw damagedBlob();
    for (; place < end; place += 1) received[place] = moment;
  }
  if (place !== count) throw damagedBlob();
  return received;
}

function batchesOf(received: Float64Array): { readonly moments: Float64Array; readonly sizes: Float64Array } {
  const moments: number[] = [];
  const sizes: number[] = [];
  for (let place = 0; place < received.length; place += 1) {
    if (place === 0 || !Object.is(received[place], received[place - 1])) {
      moments.push(received[place]!);
      sizes.push(0);
    }
    sizes[sizes.length - 1]! += 1;
  }
  return { moments: Float64Array.from(moments), sizes: Float64Array.from(sizes) };
}

/** Distances from line time and what they cost; undefined where they would not be exact. */
function offsetsOf(
  received: Float64Array,
  at: Float64Array,
): { readonly numbers: Float64Array; readonly unit: number; readonly bits: number } | undefined {
  const offsets = received.map((moment, place) => moment - at[place]!);
  for (let place = 0; place < offsets.length; place += 1) {
    const offset = offsets[place]!;
    if (!Number.isSafeInteger(at[place]) || Object.is(at[place], -0) || Math.abs(offset) >= 2 ** 51)
      return undefined;
  }
  const unit = greatestUnit(offsets);
  const numbers = folded(offsets.map((offset) => offset / unit));
  return { numbers, unit, bits: bitsOf(numbers) };
}

/** 0 where there are none; the smaller of two that are as common. */
function mostCommon(steps: Float64Array): number {
  const times = new Map<number, number>();
  for (const step of steps) times.set(step, (times.get(step) ?? 0) + 1);
  let common = 0;
  let most = 0;
  for (const [step, count] of times)
    if (count > most || (count === most && step < common)) {
      common = step;
      most = count;
    }
  return common;
}
