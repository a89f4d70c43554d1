import type { Rule } from '../../model/normal/evidence.ts';
import type { Measured } from '../../model/normal/measured.ts';
import { rateInterval } from '../../model/statistics/poissonRate.ts';
import type { FaultRow, OrderRow } from './normal.ts';

export const rules = ['run', 'drift', 'stops'] as const satisfies readonly Rule[];

/** How often each rule called falsely, over all families of levels and in the worst of them. */
export function measuredOf(rows: readonly OrderRow[]): Readonly<Record<Rule, Measured>> {
  const of = (rule: Rule): Measured => {
    const { calls, stationShifts } = sumOf(rows, rule);
    const { lower, upper } = rateInterval({ count: calls, time: stationShifts }, 0.95)!;
    const families = [...new Set(rows.map(({ levels }) => levels))];
    const worst = families.map((levels) => {
      const own = sumOf(
        rows.filter((row) => row.levels === levels),
        rule,
      );
      return own.stationShifts / own.calls;
    });
    return {
      stationShifts: Math.round(stationShifts),
      calls,
      onceIn: Math.round(stationShifts / calls),
      from: Math.round(1 / upper),
      to: Math.round(1 / lower),
      worst: Math.round(Math.min(...worst)),
    };
  };
  return { run: of('run'), drift: of('drift'), stops: of('stops') };
}

function sumOf(rows: readonly OrderRow[], rule: Rule) {
  return {
    calls: rows.reduce((sum, row) => sum + row.calls[rule].length, 0),
    stationShifts: rows.reduce((sum, row) => sum + row.stationShifts[rule], 0),
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
