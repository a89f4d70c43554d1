import type { Value } from '../signals/signals.ts';
import type { ByteReader, ByteWriter } from './bytes.ts';
import { damagedBlob } from './damage.ts';
import { decimalsOf, PLACES_MOST, restore, scaledBy } from './decimals.ts';
import { bitsOf, folded, readNumbers, unfold, unfolded, writeNumbers } from './numbers.ts';

/**
 * Kinds of value. From 16 on: a number with so many decimals, and from 32 on: one that went through 32 bits on its way, as
 * PLC reals do. Both are stored as whole numbers.
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
/** How the steps of whole numbers are told. */
const EACH = 0;
const RUNS = 1;
/** A run of equal steps costs about so many bits. */
const RUN_BITS = 20;

/** Values of one signal that are of one kind and follow one another. */
interface Run {
  readonly kind: number;
  count: number;
}

/** What the values of one signal are stored as, each kind apart. */
interface Sorted {
  readonly runs: Run[];
  readonly wholes: number[];
  readonly truths: boolean[];
  readonly singles: number[];
  readonly doubles: number[];
  readonly texts: string[];
}

/**
 * Writes values, those of one signal after those of another: they look alike. First of which kinds they are, which is one as
 * a rule; then those of each kind. Whole numbers are told by their steps, and where these are the same again and
 * again, as a counter's, by how often. A text seen before is a number.
 */
export function writeValues(out: ByteWriter, groups: readonly (readonly Value[])[]): void {
  const words = new Map<string, number>();
  for (const group of groups) {
    const sorted = sortedByKind(group);
    out.count(sorted.runs.length);
    for (const run of sorted.runs) {
      out.byte(run.kind);
      out.count(run.count);
    }
    if (sorted.wholes.length > 0) writeWholes(out, sorted.wholes);
    for (const truth of sorted.truths) out.byte(truth ? 1 : 0);
    for (const single of sorted.singles) out.single(single);
    for (const double of sorted.doubles) out.double(double);
    for (const text of sorted.texts) writeText(out, text, words);
  }
}

/** Reads the values of groups of these sizes; `order` says which change each one belongs to, over all groups. */
export function readValues(from: ByteReader, sizes: readonly number[], order: Uint32Array): Value[] {
  const values = new Array<Value>(order.length).fill(null);
  const words: string[] = [];
  let place = 0;
  for (const size of sizes) {
    const runs = readRuns(from, size);
    const wholes = runs.some(isWhole) ? readWholes(from, sum(runs.filter(isWhole))) : undefined;
    const [only] = runs;
    if (wholes && runs.length === 1) scatter(values, order, place, wholes, only!.kind);
    else
      readMixed(from, { runs, wholes, words, keep: (off, value) => (values[order[place + off]!] = value) });
    place += size;
  }
  return values;
}

function sortedByKind(group: readonly Value[]): Sorted {
  const sorted: Sorted = { runs: [], wholes: [], truths: [], singles: [], doubles: [], texts: [] };
  const decimals = decimalsOf(group);
  const numberKind = !decimals
    ? kind.whole
    : (decimals.rounded ? kind.rounded : kind.decimal) + decimals.places;
  let before = 0;
  const note = (now: number) => {
    const last = sorted.runs.at(-1);
    if (last?.kind === now) last.count += 1;
    else sorted.runs.push({ kind: now, count: 1 });
  };
  for (const value of group) {
    if (typeof value === 'number') {
      const scaled = decimals ? scaledBy(value, decimals.places) : value;
      if (fits(value, scaled, before, decimals)) {
        note(numberKind);
        sorted.wholes.push(scaled);
        before = scaled;
      } else if (Object.is(Math.fround(value), value)) {
        note(kind.single);
        sorted.singles.push(value);
      } else {
        note(kind.double);
        sorted.doubles.push(value);
      }
    } else if (typeof value === 'boolean') {
      note(kind.truth);
      sorted.truths.push(value);
    } else if (typeof value === 'string') {
      note(kind.text);
      sorted.texts.push(value);
    } else note(kind.none);
  }
  return sorted;
}

/** Whether the whole number stands for the value to the last bit, and its step is exact. */
function fits(
  value: number,
  scaled: number,
  before: number,
  decimals: ReturnType<typeof decimalsOf>,
): boolean {
  if (!Number.isSafeInteger(scaled) || Math.abs(scaled - before) >= FAR) return false;
  return Object.is(decimals ? restore(scaled + 0, decimals.places, decimals.rounded) : scaled + 0, value);
}

function writeWholes(out: ByteWriter, wholes: readonly number[]): void {
  const steps = new Float64Array(wholes);
  for (let place = steps.length - 1; place > 0; place -= 1) steps[place]! -= steps[place - 1]!;
  const each = folded(steps);
  const lengths: number[] = [];
  const changed: number[] = [];
  for (let place = 0; place < each.length; place += 1) {
    if (place === 0 || each[place] !== each[place - 1]) {
      lengths.push(0);
      changed.push(each[place]!);
    }
    lengths[lengths.length - 1]! += 1;
  }
  if (lengths.length * RUN_BITS < bitsOf(each)) {
    out.byte(RUNS);
    out.count(lengths.length);
    for (const [run, length] of lengths.entries()) {
      out.count(length);
      out.count(changed[run]!);
    }
  } else {
    out.byte(EACH);
    writeNumbers(out, each);
  }
}

function readWholes(from: ByteReader, count: number): Float64Array {
  const mode = from.byte();
  if (mode > RUNS) throw damagedBlob();
  if (mode === EACH) {
    const wholes = unfold(readNumbers(from, count));
    for (let place = 1; place < count; place += 1) wholes[place]! += wholes[place - 1]!;
    return wholes;
  }
  const wholes = new Float64Array(count);
  let whole = 0;
  let place = 0;
  for (let left = from.count(); left > 0; left -= 1) {
    const end = place + from.count();
    const step = unfolded(from.count());
    if (end > count) throw damagedBlob();
    for (; place < end; place += 1) {
      whole += step;
      wholes[place] = whole;
    }
  }
  if (place !== count) throw damagedBlob();
  return wholes;
}

function readRuns(from: ByteReader, size: number): Run[] {
  const runs: Run[] = [];
  let rest = size;
  for (let left = from.count(); left > 0; left -= 1) {
    const run = { kind: from.byte(), count: from.count() };
    rest -= run.count;
    if (run.count === 0 || rest < 0 || !isKind(run.kind)) throw damagedBlob();
    runs.push(run);
  }
  if (rest !== 0) throw damagedBlob();
  return runs;
}

/** The usual case: all values of a signal are numbers of one kind. */
function scatter(
  values: Value[],
  order: Uint32Array,
  start: number,
  wholes: Float64Array,
  numberKind: number,
): void {
  if (numberKind === kind.whole) {
    for (let off = 0; off < wholes.length; off += 1) values[order[start + off]!] = wholes[off]!;
    return;
  }
  const { places, rounded } = decimalsIn(numberKind);
  for (let off = 0; off < wholes.length; off += 1)
    values[order[start + off]!] = restore(wholes[off]!, places, rounded);
}

interface Mixed {
  readonly runs: readonly Run[];
  readonly wholes: Float64Array | undefined;
  readonly words: string[];
  readonly keep: (off: number, value: Value) => void;
}

/** Kinds lie apart: those of an earlier kind come first, wherever their places are. */
function readMixed(from: ByteReader, { runs, wholes, words, keep }: Mixed): void {
  let next = 0;
  each(runs, isWhole, (off, now) => {
    const whole = wholes![next++]!;
    const { places, rounded } = decimalsIn(now);
    keep(off, now === kind.whole ? whole : restore(whole, places, rounded));
  });
  each(runs, is(kind.truth), (off) => keep(off, from.byte() === 1));
  each(runs, is(kind.single), (off) => keep(off, from.single()));
  each(runs, is(kind.double), (off) => keep(off, from.double()));
  each(runs, is(kind.text), (off) => keep(off, readText(from, words)));
}

/** Calls for each value that is of a run like this, with its place in the group. */
function each(
  runs: readonly Run[],
  like: (run: Run) => boolean,
  act: (off: number, now: number) => void,
): void {
  let off = 0;
  for (const run of runs) {
    if (like(run)) for (let place = 0; place < run.count; place += 1) act(off + place, run.kind);
    off += run.count;
  }
}

function is(wanted: number): (run: Run) => boolean {
  return (run) => run.kind === wanted;
}

function isKind(now: number): boolean {
  if (now < kind.decimal) return now <= kind.text;
  const { places } = decimalsIn(now);
  return places >= 1 && places <= PLACES_MOST;
}

function isWhole(run: Run): boolean {
  return run.kind === kind.whole || run.kind >= kind.decimal;
}

function sum(runs: readonly Run[]): number {
  return runs.reduce((total, { count }) => total + count, 0);
}

function decimalsIn(numberKind: number): { readonly places: number; readonly rounded: boolean } {
  const rounded = numberKind >= kind.rounded;
  return { places: numberKind - (rounded ? kind.rounded : kind.decimal), rounded };
}

/** A text seen before is its number, a new one is the next number and then itself. */
function writeText(out: ByteWriter, text: string, words: Map<string, number>): void {
  const known = words.get(text);
  out.count(known ?? words.size);
  if (known !== undefined) return;
  words.set(text, words.size);
  out.text(text);
}

function readText(from: ByteReader, words: string[]): string {
  const number = from.count();
  if (number > words.length) throw damagedBlob();
  if (number === words.length) words.push(from.text());
  return words[number]!;
}
