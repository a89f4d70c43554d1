import { LineFold } from '../../model/fold/fold.ts';
import type { Change, Value } from '../../model/signals/signals.ts';
import { HOUR, type Instant } from '../../model/units/units.ts';
import { runUntil, startMachine, takeEntries } from '../../simulator/machine/machine.ts';
import { boundLine, changesOf, monday } from '../simulator/simulatedLine.ts';
import type { Figure } from './run.ts';

const HOURS = 24 * 30;
const CHUNK = 5000;

/**
 * Changes a second through the model on one core, over 30 days of the simulated line, beside a bare loop that only
 * stores each value. Says also how the speed and the heap at 30 days compare with those of the first hours.
 */
export async function measure(): Promise<Figure> {
  const bound = boundLine();
  const { line } = bound;
  const machine = startMachine({ seed: 3, start: monday });
  const fold = new LineFold(line);
  const values: Value[] = [];
  let folded = 0;
  let folding = 0;
  let storing = 0;
  const speeds: number[] = [];
  const heaps: number[] = [];
  for (let hour = 1; hour <= HOURS; hour += 1) {
    const changes = changesOf(bound, runUntil(machine, (monday + hour * HOUR) as Instant));
    takeEntries(machine);
    const took = time(() => foldAll(fold, changes));
    storing += time(() => store(values, changes));
    folding += took;
    folded += changes.length;
    if (hour <= 8 || hour > HOURS - 8) speeds.push(changes.length / took);
    if (hour === 24 || hour === HOURS) {
      globalThis.gc?.();
      heaps.push(process.memoryUsage().heapUsed / 1e6);
    }
    if (hour % 120 === 0)
      process.stdout.write(
        `${hour / 24} days, ${folded} changes, ${Math.round(folded / folding)} a second\n`,
      );
  }
  const value = Math.round(folded / folding);
  const reference = Math.round(folded / storing);
  return {
    value,
    unit: 'changes/s',
    reference,
    ratio: round(value / reference, 4),
    days: HOURS / 24,
    changes: folded,
    lastHoursToFirst: round(mean(speeds.slice(-8)) / mean(speeds.slice(0, 8)), 2),
    heapFirstDayMB: round(heaps[0] ?? 0, 1),
    heapLastDayMB: round(heaps[1] ?? 0, 1),
    stateBytes: fold.text().length,
  };
}

function foldAll(fold: LineFold, changes: readonly Change[]): void {
  for (let from = 0; from < changes.length; from += CHUNK) fold.take(changes.slice(from, from + CHUNK));
}

function store(values: Value[], changes: readonly Change[]): void {
  for (const change of changes) values[change.signal] = change.value;
}

function time(act: () => void): number {
  const began = performance.now();
  act();
  return (performance.now() - began) / 1000;
}

function mean(list: readonly number[]): number {
  return list.reduce((a, b) => a + b, 0) / list.length;
}

function round(value: number, decimals: number): number {
  return Math.round(value * 10 ** decimals) / 10 ** decimals;
}
