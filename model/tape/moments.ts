import type { ByteReader, ByteWriter } from './bytes.ts';
import { damagedBlob } from './damage.ts';
import { bitsOf, folded, readNumbers, unfold, writeNumbers } from './numbers.ts';
import { greatestUnit } from './unit.ts';

/** How the moments of a column are told. */
const RAW = 0;
const STEPS = 1;
const RHYTHM = 2;
/** Steps from here on are not sure to be exact when one is told from another. */
const FAR = 2 ** 51;
/** Steps remembered at most: where there are more pairs of signals, some share one. */
const PAIRS_MOST = 65_536;

/**
 * Line time. A moment is told by its step from the one before, as a multiple of the greatest unit that divides all of
 * them: a PLC that stamps in milliseconds costs no bytes for ticks it does not have. A machine has a rhythm: what
 * comes after what came last time, about as much later. So a step is told by how far it is from the last step between
 * the same two signals, where that is shorter over all. Moments may go backwards.
 *
 * `groups` are the signals by their place among those that occur, `kinds` of them.
 */
export function writeLineTimes(out: ByteWriter, at: Float64Array, groups: Uint32Array, kinds: number): void {
  const steps = exactSteps(at);
  if (!steps) {
    writeRaw(out, at);
    return;
  }
  const unit = greatestUnit(steps);
  for (let place = 0; place < steps.length; place += 1) steps[place]! /= unit;
  const plain = folded(steps);
  const rhythm = folded(fromLast(steps, groups, kinds));
  const shorter = bitsOf(rhythm) < bitsOf(plain);
  out.byte(shorter ? RHYTHM : STEPS);
  out.signed(at[0] ?? 0);
  out.count(unit);
  writeNumbers(out, shorter ? rhythm : plain);
}

export function readLineTimes(
  from: ByteReader,
  count: number,
  groups: Uint32Array,
  kinds: number,
): Float64Array {
  const mode = from.byte();
  if (mode === RAW) return readRaw(from, count);
  if (mode > RHYTHM) throw damagedBlob();
  const first = from.signed();
  const unit = from.count();
  const steps = unfold(readNumbers(from, Math.max(0, count - 1)));
  const at = new Float64Array(count);
  if (count > 0) at[0] = first;
  if (mode === STEPS) {
    for (let place = 1; place < count; place += 1) at[place] = at[place - 1]! + steps[place - 1]! * unit;
    return at;
  }
  const last = new Float64Array(pairsOf(kinds));
  const pairs = last.length;
  let now = first;
  let before = count > 0 ? groups[0]! : 0;
  for (let place = 1; place < count; place += 1) {
    const group = groups[place]!;
    const pair = (before * kinds + group) % pairs;
    const step = last[pair]! + steps[place - 1]!;
    last[pair] = step;
    now += step * unit;
    at[place] = now;
    before = group;
  }
  return at;
}

/** Steps from one to the next; undefined where these would not be exact. */
export function exactSteps(moments: Float64Array): Float64Array | undefined {
  const steps = new Float64Array(Math.max(0, moments.length - 1));
  for (let place = 0; place < moments.length; place += 1) {
    const moment = moments[place]!;
    if (!exact(moment)) return undefined;
    if (place === 0) continue;
    const step = moment - moments[place - 1]!;
    if (Math.abs(step) >= FAR) return undefined;
    steps[place - 1] = step;
  }
  return steps;
}

export function writeRaw(out: ByteWriter, moments: Float64Array): void {
  out.byte(RAW);
  for (const moment of moments) out.double(moment);
}

export function readRaw(from: ByteReader, count: number): Float64Array {
  const moments = new Float64Array(count);
  for (let place = 0; place < count; place += 1) moments[place] = from.double();
  return moments;
}

/** Whole, within what doubles hold exactly and half as much is written, and not minus zero. */
function exact(moment: number): boolean {
  return Number.isSafeInteger(moment) && Math.abs(moment) < FAR * 2 && !Object.is(moment, -0);
}

function fromLast(steps: Float64Array, groups: Uint32Array, kinds: number): Float64Array {
  const last = new Float64Array(pairsOf(kinds));
  return steps.map((step, place) => {
    const pair = (groups[place]! * kinds + groups[place + 1]!) % last.length;
    const off = step - last[pair]!;
    last[pair] = step;
    return off;
  });
}

function pairsOf(kinds: number): number {
  return Math.max(1, Math.min(kinds * kinds, PAIRS_MOST));
}
