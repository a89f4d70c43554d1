import { brierScoreOfShares, brierSkill } from '../../model/statistics/brier.ts';
import type { AttributionRow, SettingName } from './attribution.ts';
import { NOBODY, type Told } from './attributionRun.ts';

/** All runs of one setting together. */
export interface AttributionSummary {
  readonly proof: 'attribution';
  readonly kind: 'all';
  readonly setting: SettingName;
  readonly runs: number;
  readonly shifts: number;
  readonly rejects: number;
  readonly brier: number;
  readonly table: number;
  readonly byFile: number;
  /** How much better than the line's file: 1 is perfect, 0 no better. */
  readonly skill: number;
  /** Mean of the runs' improvement of the score on the line's file, with the 95 % interval of Student's t over the runs. */
  readonly improvement: { readonly mean: number; readonly low: number; readonly high: number };
  readonly unattributed: number;
  /** Of shares about so large: how many, their mean, and how many of them were true. */
  readonly calibration: readonly { readonly shares: number; readonly told: number; readonly true: number }[];
  readonly equal: boolean;
}

/** Two-sided 95 % quantiles of Student's t by degrees of freedom, from 1 on. */
const STUDENT = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179];

export function summaryOf(
  setting: SettingName,
  rows: readonly AttributionRow[],
  told: readonly Told[],
): AttributionSummary {
  const [brier, table] = [brierScoreOfShares(told)!, brierScoreOfShares(told.map(byTable))!];
  const improvement = meanOf(rows.map((row) => row.byFile - row.brier));
  const byFile = mean(rows, told.length, (row) => row.byFile);
  return {
    proof: 'attribution',
    kind: 'all',
    setting,
    runs: rows.length,
    shifts: rows.reduce((sum, { shifts }) => sum + shifts, 0),
    rejects: told.length,
    brier: digits(brier),
    table: digits(table),
    byFile: digits(byFile),
    skill: digits(brierSkill(brier, byFile)!),
    improvement,
    unattributed: digits(mean(rows, told.length, ({ unattributed }) => unattributed)),
    calibration: calibrationOf(told),
    equal:
      rows.every(({ heldTo }) => heldTo === 'nothing' || heldTo.startsWith('file')) || improvement.low > 0,
  };
}

/** The fixed table is certain of one station. */
export function byTable({ truth, table }: Told) {
  return { truth, shares: new Map([[table, 1]]) };
}

/** To six digits: what is written down comes out again. */
export const digits = (value: number) => Math.round(value * 1e6) / 1e6;

/** Mean over all rejects of what each run has a mean of. */
function mean(rows: readonly AttributionRow[], rejects: number, of: (row: AttributionRow) => number): number {
  return rows.reduce((sum, row) => sum + of(row) * row.rejects, 0) / rejects;
}

function meanOf(values: readonly number[]) {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const half = STUDENT[values.length - 2]! * Math.sqrt(squares / (values.length - 1) / values.length);
  return { mean: digits(mean), low: digits(mean - half), high: digits(mean + half) };
}

/** Shares by tenths. What is nobody's is left out: it is a claim about the estimate, not about a station. */
function calibrationOf(told: readonly Told[]): AttributionSummary['calibration'] {
  const tenths = Array.from({ length: 10 }, () => ({ shares: 0, sum: 0, hits: 0 }));
  for (const { truth, shares } of told) {
    for (const [name, share] of shares) {
      if (name === NOBODY) continue;
      const tenth = tenths[Math.min(9, Math.floor(share * 10))]!;
      tenth.shares += 1;
      tenth.sum += share;
      if (name === truth) tenth.hits += 1;
    }
  }
  return tenths.map(({ shares, sum, hits }) => ({
    shares,
    told: shares === 0 ? 0 : digits(sum / shares),
    true: shares === 0 ? 0 : digits(hits / shares),
  }));
}
