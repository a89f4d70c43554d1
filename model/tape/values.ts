import type { Value } from '../signals/signals.ts';
import { type ByteReader, ByteWriter } from './bytes.ts';
import { damagedBlob } from './damage.ts';
import { decimalsOf, powers, restore } from './decimals.ts';

/**
 * Kinds of value on the tape. From 16 on: a number with so many decimals, and from 32 on: one that went through 32
 * bits on its way, as PLC reals do. Both are stored as whole numbers.
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
/** Differences from here on are not sure to be exact; such numbers are stored in full. */
const FAR = 2 ** 52;

interface Columns {
  readonly kinds: ByteWriter;
  readonly truths: ByteWriter;
  readonly wholes: ByteWriter;
  readonly reals: ByteWriter;
  readonly texts: ByteWriter;
}

/** Writes values column by column. `groups` are the values of one signal each: they look alike, and follow one another. */
export function writeValues(out: ByteWriter, groups: readonly (readonly Value[])[]): void {
  const columns: Columns = {
    kinds: new ByteWriter(),
    truths: new ByteWriter(),
    wholes: new ByteWriter(),
    reals: new ByteWriter(),
    texts: new ByteWriter(),
  };
  const words = new Map<string, number>();
  let last = -1;
  let run = 0;
  const note = (now: number) => {
    if (now !== last) {
      if (run > 0) endRun(columns.kinds, last, run);
      last = now;
      run = 0;
    }
    run += 1;
  };
  for (const group of groups) writeGroup(columns, group, words, note);
  if (run > 0) endRun(columns.kinds, last, run);
  for (const column of Object.values(columns) as ByteWriter[]) out.part(column);
}

function endRun(kinds: ByteWriter, last: number, run: number): void {
  kinds.byte(last);
  kinds.count(run);
}

function writeGroup(
  columns: Columns,
  group: readonly Value[],
  words: Map<string, number>,
  note: (now: number) => void,
): void {
  const decimals = decimalsOf(group);
  const numberKind = !decimals
    ? kind.whole
    : decimals.rounded
      ? kind.rounded + decimals.places
      : kind.decimal + decimals.places;
  let before = 0;
  for (const value of group) {
    if (typeof value === 'number') {
      const scaled = decimals ? Math.round(value * powers[decimals.places]!) : value;
      const step = scaled - before;
      if (fits(value, scaled, step, decimals)) {
        note(numberKind);
        columns.wholes.signed(step);
        before = scaled;
      } else writeReal(columns.reals, value, note);
    } else if (typeof value === 'boolean') {
      note(kind.truth);
      columns.truths.byte(value ? 1 : 0);
    } else if (typeof value === 'string') {
      note(kind.text);
      writeText(columns.texts, value, words);
    } else note(kind.none);
  }
}

/** Whether the whole number stands for the value to the last bit, and its step is exact. */
function fits(value: number, scaled: number, step: number, decimals: ReturnType<typeof decimalsOf>): boolean {
  if (!Number.isSafeInteger(scaled) || Math.abs(step) >= FAR) return false;
  return Object.is(decimals ? restore(scaled + 0, decimals.places, decimals.rounded) : scaled + 0, value);
}

function writeReal(reals: ByteWriter, value: number, note: (now: number) => void): void {
  if (Object.is(Math.fround(value), value)) {
    note(kind.single);
    reals.single(value);
  } else {
    note(kind.double);
    reals.double(value);
  }
}

/** A text seen before is its number, a new one is the next number and then itself. */
function writeText(texts: ByteWriter, value: string, words: Map<string, number>): void {
  const known = words.get(value);
  texts.count(known ?? words.size);
  if (known !== undefined) return;
  words.set(value, words.size);
  texts.text(value);
}

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
