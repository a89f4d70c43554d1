import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliDecompressSync } from 'node:zlib';
import { byLineTime, type Change, type Value } from '../../../../model/signals/signals.ts';
import { type Instant, TICKS_PER_MS } from '../../../../model/units/units.ts';

export const shiftFile = join(import.meta.dirname, 'shift.json.br');

/** What the stored file holds. */
export interface ShiftFile {
  readonly names: readonly string[];
  readonly start: number;
  readonly signals: readonly number[];
  /** Line time of each, by its distance from the one before. Ticks. */
  readonly at: readonly number[];
  /** How many came with each publish, and when, by its distance from the one before. Milliseconds. */
  readonly publishes: readonly (readonly [number, number])[];
  /** Of each signal: its values, or where all are whole numbers their distances. */
  readonly values: readonly ({ readonly values: readonly Value[] } | { readonly steps: readonly number[] })[];
}

export interface Shift {
  /** Ids of the signals, in the order of the line. */
  readonly names: readonly string[];
  readonly changes: readonly Change[];
}

/** The stored shift, stamped to 100 ns: always the same changes, whatever the simulator gives today. */
export function storedShift(): Shift {
  const { names, start, signals, at, publishes, values } = JSON.parse(
    brotliDecompressSync(readFileSync(shiftFile)).toString('utf8'),
  ) as ShiftFile;
  const columns = values.map((column) => ('steps' in column ? sums(column.steps, 0) : column.values));
  const next = names.map(() => 0);
  const received = sums(
    publishes.map(([, ms]) => ms * TICKS_PER_MS),
    start,
  ).flatMap((moment, place) => Array.from({ length: publishes[place]![0] }, () => moment));
  const moments = sums(at, start);
  const changes = signals.map((signal, place): Change => {
    const value = columns[signal]![next[signal]!++]!;
    return { signal, at: moments[place] as Instant, received: received[place] as Instant, status: 0, value };
  });
  return { names, changes };
}

/** The same shift of a PLC that stamps in whole milliseconds: each publish in order of line time again. */
export function inMilliseconds(changes: readonly Change[]): Change[] {
  return changes
    .map((change) => ({ ...change, at: (Math.floor(change.at / TICKS_PER_MS) * TICKS_PER_MS) as Instant }))
    .sort((a, b) => a.received - b.received || byLineTime(a, b));
}

/** One number that any other change, or order of them, would alter: of a listing of all of them, apart from any format. */
export function hashOf(changes: readonly Change[]): string {
  const hash = createHash('sha256');
  for (const { signal, at, received, status, value } of changes)
    hash.update(`${signal} ${at} ${received} ${status} ${JSON.stringify(value)}\n`);
  return hash.digest('hex');
}

function sums(steps: readonly number[], from: number): number[] {
  let sum = from;
  return steps.map((step) => {
    sum += step;
    return sum;
  });
}
