import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { REPORTS_MEASURED } from '../../model/report/measured.ts';
import { clopperPearson } from '../../model/statistics/proportion.ts';
import { families } from './normal.ts';
import { REPORT_SEEDS, type ReportsRow, reportsRow } from './reports.ts';

const rows = readFileSync(join(import.meta.dirname, 'reports.ndjson'), 'utf8')
  .trim()
  .split('\n')
  .map((row) => JSON.parse(row) as ReportsRow & { readonly commit: string });
const orders = rows.filter(({ kind }) => kind === 'order');
const sum = (of: readonly ReportsRow[], key: 'reports' | 'falsely' | 'found' | 'faulty') =>
  of.reduce((total, row) => total + row[key], 0);
const onceIn = (of: readonly ReportsRow[]) => Math.round(sum(of, 'reports') / sum(of, 'falsely'));

describe('stations that a report names', () => {
  it('[RE2] are named falsely as seldom as is said beside them, of over a thousand shifts in order', () => {
    const [reports, falsely] = [sum(orders, 'reports'), sum(orders, 'falsely')];
    expect(reports).toBeGreaterThan(1000);
    const interval = clopperPearson(falsely, reports, 0.95)!;
    expect({
      reports,
      falsely,
      onceIn: onceIn(orders),
      from: Math.round(1 / interval.upper),
      to: Math.round(1 / interval.lower),
      worst: Math.min(
        ...Object.keys(families).flatMap((levels) => {
          const own = orders.filter((row) => row.levels === levels);
          return sum(own, 'falsely') > 0 ? [onceIn(own)] : [];
        }),
      ),
    }).toEqual(REPORTS_MEASURED);
    expect(REPORTS_MEASURED.onceIn).toBeGreaterThanOrEqual(100);
  });

  it('[RE2] are found where a fault is large, and often not where it is small: a report is no alarm', () => {
    const of = (fault: string) => rows.filter((row) => row.fault === fault);
    for (const fault of ['threeTimesAsMany', 'badLot'])
      expect(sum(of(fault), 'faulty'), fault).toBe(3 * REPORT_SEEDS);
    expect(sum(of('threeTimesAsMany'), 'found')).toBeGreaterThan(0);
  });

  it('all rows stand; one taken at random comes out again, exactly', () => {
    expect(rows.filter(({ equal }) => !equal)).toEqual([]);
    const { commit: _commit, ...row } = rows[Math.floor(Math.random() * rows.length)]!;
    expect(reportsRow(row.levels, row.fault, row.seed)).toEqual(row);
  });
});
