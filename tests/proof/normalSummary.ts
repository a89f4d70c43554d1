import type { Rule } from '../../model/normal/evidence.ts';
import type { Measured, Seldom } from '../../model/normal/measured.ts';
import { rateInterval } from '../../model/statistics/poissonRate.ts';
import type { FaultRow, OrderRow } from './normal.ts';

export const rules = ['run', 'drift', 'stops'] as const satisfies readonly Rule[];

/** How often each rule called falsely, over all lines and families of levels, and in that line and family where it fared worst. */
export function measuredOf(rows: readonly OrderRow[]): Readonly<Record<Rule, Measured>> {
  const of = (rule: Rule): Measured => {
    const all = rows.map((row) => ({ calls: row.calls[rule].length, shifts: row.stationShifts[rule] }));
    const { calls, shifts } = sumOf(all);
    return {
      stationShifts: Math.round(shifts),
      calls,
      ...seldomOf(all),
      worst: worstOf(rows, rule).seldom,
    };
  };
  return { run: of('run'), drift: of('drift'), stops: of('stops') };
}

/** The line and family of levels in which a rule called falsely most often. */
export function worstOf(rows: readonly OrderRow[], rule: Rule) {
  const cells = cellsOf(rows).map(({ name, own }) => ({
    name,
    seldom: seldomOf(own.map((row) => ({ calls: row.calls[rule].length, shifts: row.stationShifts[rule] }))),
  }));
  return cells.reduce((worst, cell) => (cell.seldom.onceIn < worst.seldom.onceIn ? cell : worst));
}

/** How seldom a single batch lay above its line, over all and at worst. */
export function batchesOf(rows: readonly OrderRow[]) {
  const sum = (of: readonly OrderRow[], key: 'batches' | 'above') =>
    of.reduce((total, row) => total + row[key], 0);
  const onceIn = (of: readonly OrderRow[]) => Math.round(sum(of, 'batches') / Math.max(1, sum(of, 'above')));
  return {
    batches: sum(rows, 'batches'),
    above: sum(rows, 'above'),
    onceIn: onceIn(rows),
    worst: Math.min(...cellsOf(rows).map(({ own }) => onceIn(own))),
  };
}

function cellsOf(rows: readonly OrderRow[]) {
  const cells = new Map<string, OrderRow[]>();
  for (const row of rows) {
    const name = `${row.variant} ${row.levels}`;
    cells.set(name, [...(cells.get(name) ?? []), row]);
  }
  return [...cells].map(([name, own]) => ({ name, own }));
}

/** What one simulated line brought. */
interface LineCalls {
  readonly calls: number;
  readonly shifts: number;
}

/**
 * Once in so many shifts, with 95 % bounds: those of a Poisson rate, from fewer calls and shifts by as much as calls varied more
 * from line to line than such a rate would (Pearson's statistic to its degrees of freedom; never below 1).
 */
function seldomOf(lines: readonly LineCalls[]): Seldom {
  const { calls, shifts } = sumOf(lines);
  const pearson = lines.reduce((sum, line) => {
    const mean = (calls * line.shifts) / shifts;
    return sum + (mean > 0 ? (line.calls - mean) ** 2 / mean : 0);
  }, 0);
  const more = Math.max(1, pearson / Math.max(1, lines.length - 1));
  const { lower, upper } = rateInterval({ count: calls / more, time: shifts / more }, 0.95)!;
  return {
    onceIn: Math.round(shifts / Math.max(1, calls)),
    from: Math.round(1 / upper),
    to: lower > 0 ? Math.round(1 / lower) : Math.round(shifts),
  };
}

function sumOf(lines: readonly LineCalls[]): LineCalls {
  return {
    calls: lines.reduce((sum, line) => sum + line.calls, 0),
    shifts: lines.reduce((sum, line) => sum + line.shifts, 0),
  };
}

/** Of faults of one kind: the share that any rule found, and after how many cartons half of all were. */
export function foundOf(rows: readonly FaultRow[], among: readonly Rule[] = rules) {
  const after = rows
    .map(({ found }) => Math.min(...among.map((rule) => found[rule] ?? Infinity)))
    .sort((a, b) => a - b);
  const found = after.filter((cartons) => cartons < Infinity).length;
  const half = after[Math.ceil(after.length / 2) - 1]!;
  return { of: rows.length, found, half: half < Infinity ? half : undefined };
}
