import { inflateSync } from 'node:zlib';

/*
 * A reader of segments, formats 1 and 2, written from `model/tape/README.md` alone: it shares nothing with the model, in code or
 * in how it goes about it, and takes its time. If the page said too little, or something else, this would not work.
 */

export interface ReadChange {
  signal: number;
  at: number;
  received: number;
  status: number;
  value: number | boolean | string | null;
}

class Cursor {
  place = 0;
  readonly bytes: Buffer;

  constructor(bytes: Buffer) {
    this.bytes = bytes;
  }

  byte(): number {
    return this.bytes.readUInt8(this.place++);
  }

  count(): number {
    let whole = 0n;
    for (let shift = 0n; ; shift += 7n) {
      const byte = this.byte();
      whole |= BigInt(byte & 127) << shift;
      if (byte < 128) return Number(whole);
    }
  }

  signed(): number {
    return unfolded(this.count());
  }

  f32(): number {
    this.place += 4;
    return this.bytes.readFloatLE(this.place - 4);
  }

  f64(): number {
    this.place += 8;
    return this.bytes.readDoubleLE(this.place - 8);
  }

  text(): string {
    return times(this.count(), () => String.fromCharCode(this.count())).join('');
  }

  numbers(n: number): number[] {
    const planes = this.byte();
    const all = times(n, () => 0);
    for (let plane = 0; plane < planes; plane += 1)
      for (let i = 0; i < n; i += 1) all[i]! += this.byte() * 256 ** plane;
    let at = 0;
    for (let left = this.count(); left > 0; left -= 1) {
      at += this.count();
      all[at]! += this.count() * 256 ** planes;
    }
    return all;
  }

  folded(n: number): number[] {
    return this.numbers(n).map(unfolded);
  }

  part(): Cursor {
    const length = this.count();
    this.place += length;
    return new Cursor(this.bytes.subarray(this.place - length, this.place));
  }
}

/** The changes of a stored segment. */
export function readByThePage(segment: Uint8Array): ReadChange[] {
  const blob = inflateSync(segment);
  if (crc(blob.subarray(0, -4)) !== blob.readUInt32LE(blob.length - 4)) throw new Error('damaged');
  const from = new Cursor(blob);
  if (from.byte() !== 0x53 || from.byte() !== 0x4c || from.byte() !== 0x54) throw new Error('no blob');
  const format = from.byte();
  const n = from.count();
  let number = 0;
  const signals = times(from.count(), () => {
    number += from.count();
    return number;
  });
  const order = format === 1 ? times(n, () => from.count()) : from.numbers(n);
  const at = format === 1 ? moments1(from, n) : lineTimes(from, n, order, signals.length);
  const received = format === 1 ? moments1(from, n, at) : receipts(from, n, at);
  const status: number[] = [];
  while (status.length < n) {
    const run = from.count();
    const code = from.count();
    status.push(...times(run, () => code));
  }
  const sizes = signals.map((_, group) => order.filter((one) => one === group).length);
  const values = format === 1 ? values1(from, sizes) : values2(from, sizes);
  const next = signals.map(() => 0);
  return order.map((group, i) => ({
    signal: signals[group]!,
    at: at[i]!,
    received: received[i]!,
    status: status[i]!,
    value: values[group]![next[group]!++]!,
  }));
}

function lineTimes(from: Cursor, n: number, order: number[], kinds: number): number[] {
  const mode = from.byte();
  if (mode === 0) return times(n, () => from.f64());
  const all = [from.signed()];
  const unit = from.count();
  const numbers = from.folded(Math.max(0, n - 1));
  const last = times(Math.max(1, Math.min(kinds ** 2, 65_536)), () => 0);
  numbers.forEach((step, i) => {
    const entry = (order[i]! * kinds + order[i + 1]!) % last.length;
    last[entry]! += step;
    all.push(all[i]! + (mode === 1 ? step : last[entry]!) * unit);
  });
  return all.slice(0, n);
}

function receipts(from: Cursor, n: number, at: number[]): number[] {
  const mode = from.byte();
  if (mode === 0) return times(n, () => from.f64());
  if (mode === 2) {
    const unit = from.count();
    return from.folded(n).map((step, i) => at[i]! + step * unit);
  }
  const batches = from.count();
  let moment = from.signed();
  const [unit, interval] = [from.count(), from.signed()];
  const sizes = from.numbers(batches);
  const rest = Math.max(0, batches - 1);
  const [intervals, more] = [from.folded(rest), from.folded(rest)];
  return sizes.flatMap((size, i) => {
    if (i > 0) moment += (intervals[i - 1]! * interval + more[i - 1]!) * unit;
    return times(size, () => moment);
  });
}

function values2(from: Cursor, sizes: number[]): ReadChange['value'][][] {
  const known: string[] = [];
  return sizes.map(() => {
    const kinds = times(from.count(), () => {
      const kind = from.byte();
      return times(from.count(), () => kind);
    }).flat();
    const values: ReadChange['value'][] = kinds.map(() => null);
    const fill = (like: (kind: number) => boolean, value: (kind: number) => ReadChange['value']) =>
      kinds.forEach((kind, i) => {
        if (like(kind)) values[i] = value(kind);
      });
    const isWhole = (kind: number) => kind === 2 || kind >= 16;
    const many = kinds.filter(isWhole).length;
    const steps = many === 0 ? [] : wholeSteps(from, many);
    let whole = 0;
    fill(isWhole, (kind) => {
      whole += steps.shift()!;
      return decimal(whole, kind);
    });
    fill(
      (kind) => kind === 1,
      () => from.byte() === 1,
    );
    fill(
      (kind) => kind === 3,
      () => from.f32(),
    );
    fill(
      (kind) => kind === 4,
      () => from.f64(),
    );
    fill(
      (kind) => kind === 5,
      () => knownText(from, known),
    );
    return values;
  });
}

function wholeSteps(from: Cursor, many: number): number[] {
  if (from.byte() === 0) return from.folded(many);
  return times(from.count(), () => {
    const run = from.count();
    const step = from.signed();
    return times(run, () => step);
  }).flat();
}

function moments1(from: Cursor, n: number, beside?: number[]): number[] {
  const mode = from.byte();
  if (mode === 0) return times(n, () => from.f64());
  if (n === 0) return [];
  const first = from.signed();
  const unit = from.count();
  const all = [mode === 1 ? first : beside![0]! + first];
  for (let i = 1; i < n; i += 1) all.push((mode === 1 ? all[i - 1]! : beside![i]!) + from.signed() * unit);
  return all;
}

function values1(from: Cursor, sizes: number[]): ReadChange['value'][][] {
  const [kinds, truths, wholes, reals, texts] = times(5, () => from.part()) as [
    Cursor,
    Cursor,
    Cursor,
    Cursor,
    Cursor,
  ];
  const known: string[] = [];
  let kind = 0;
  let run = 0;
  return sizes.map((size) => {
    let whole = 0;
    return times(size, () => {
      while (run === 0) [kind, run] = [kinds.byte(), kinds.count()];
      run -= 1;
      if (kind === 0) return null;
      if (kind === 1) return truths.byte() === 1;
      if (kind === 3) return reals.f32();
      if (kind === 4) return reals.f64();
      if (kind === 5) return knownText(texts, known);
      whole += wholes.signed();
      return decimal(whole, kind);
    });
  });
}

function knownText(from: Cursor, known: string[]): string {
  const number = from.count();
  if (number === known.length) known.push(from.text());
  return known[number]!;
}

function decimal(whole: number, kind: number): number {
  if (kind === 2) return whole;
  return kind >= 32 ? Math.fround(whole / 10 ** (kind - 32)) : whole / 10 ** (kind - 16);
}

function unfolded(n: number): number {
  return n % 2 === 0 ? n / 2 : -(n + 1) / 2;
}

function times<T>(n: number, make: () => T): T[] {
  return Array.from({ length: n }, make);
}

function crc(bytes: Uint8Array): number {
  let rest = 0xffffffff;
  for (const byte of bytes) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  }
  return (rest ^ 0xffffffff) >>> 0;
}
