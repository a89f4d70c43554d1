import type { Value } from '../../signals/signals.ts';
import type { ByteReader } from '../bytes.ts';
import { damagedBlob } from '../damage.ts';
import { restore } from '../decimals.ts';

/**
 * Kinds of value in format 1. From 16 on: a number with so many decimals, and from 32 on: one that went through 32 bits on
 * its way, as PLC reals do. Both are stored as whole numbers.
 */
const kind = {
  none: 0,
  truth: 1,
  whole: 2,
  single: 3,
  double: 4,
  text: 5,
  decimal: 16,
  rounded: 32,
} as const;

/** Reads values back, `sizes[n]` of the n-th group. `keep` gets each with its place over all groups. */
export function readValues(
  from: ByteReader,
  sizes: readonly number[],
  keep: (place: number, value: Value) => void,
): void {
  const kinds = from.part();
  const truths = from.part();
  const wholes = from.part();
  const reals = from.part();
  const texts = from.part();
  const words: string[] = [];
  let now = 0;
  let run = 0;
  let place = 0;
  for (const size of sizes) {
    let before = 0;
    for (const end = place + size; place < end; place += 1) {
      while (run === 0) {
        now = kinds.byte();
        run = kinds.count();
      }
      run -= 1;
      if (now === kind.whole || now >= kind.decimal) {
        before += wholes.signed();
        keep(place, now === kind.whole ? before : readDecimal(now, before));
      } else if (now === kind.none) keep(place, null);
      else if (now === kind.truth) keep(place, truths.byte() === 1);
      else if (now === kind.single) keep(place, reals.single());
      else if (now === kind.double) keep(place, reals.double());
      else if (now === kind.text) keep(place, readText(texts, words));
      else throw damagedBlob();
    }
  }
}

function readDecimal(now: number, scaled: number): number {
  const rounded = now >= kind.rounded;
  return restore(scaled, now - (rounded ? kind.rounded : kind.decimal), rounded);
}

function readText(texts: ByteReader, words: string[]): string {
  const number = texts.count();
  if (number > words.length) throw damagedBlob();
  if (number === words.length) words.push(texts.text());
  return words[number]!;
}
