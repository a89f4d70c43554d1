import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { FALSE_MEASURED, SHIFTS_MEASURED, TOLD_MEASURED } from '../../model/watch/measured.ts';
import {
  BUDGETS,
  type NoticesRow,
  QUIET_SEEDS,
  type QuietRow,
  quietRow,
  TROUBLE_SEEDS,
  type TroubleRow,
  troubleRow,
  troubles,
} from './notices.ts';
import { families, variants } from './normal.ts';
import { bestForEach, bestForLine, type Delay, LONG_WINDOWS, newCalls, WINDOWS } from './noticesPlain.ts';
import { falseOf, shiftsOf, toldOf, worstOf } from './noticesSummary.ts';
import { falseTableOf, ruleSaid, tableOf } from './noticesTable.ts';

const rows = readFileSync(join(import.meta.dirname, 'notices.ndjson'), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as NoticesRow & { readonly commit: string });
const quiet = rows.filter((row): row is QuietRow & { commit: string } => row.kind === 'order');
const trouble = rows.filter((row): row is TroubleRow & { commit: string } => row.kind === 'trouble');
const own: readonly Delay[] = trouble.map(({ called }) => called);
const falsely = quiet.reduce((sum, { calls }) => sum + calls[BUDGETS[0]].length, 0);
const readme = readFileSync(join(import.meta.dirname, '../../model/watch/README.md'), 'utf8');

let line: ReturnType<typeof bestForLine>;
let each: ReturnType<typeof bestForEach>;

describe('what is told of repeated stops in shifts in order, and of trouble', () => {
  // the best of more than a thousand plain rules, by shifts in order and troubles that are all known to it
  beforeAll(() => {
    line = bestForLine(quiet, trouble, falsely, WINDOWS);
    each = bestForEach(quiet, trouble, falsely, WINDOWS);
  });

  it('all rows stand, over two thousand shifts in order and over five hundred troubles, and what was told is what is counted anew', () => {
    expect(quiet).toHaveLength(QUIET_SEEDS * Object.keys(variants).length * Object.keys(families).length);
    expect(trouble).toHaveLength(TROUBLE_SEEDS * Object.keys(troubles).length);
    expect(shiftsOf(quiet)).toBeGreaterThan(2000);
    expect(trouble.length).toBeGreaterThan(500);
    expect(rows.filter(({ equal }) => !equal)).toEqual([]);
  });

  it('one of each, taken at random, comes out again, exactly', () => {
    const { commit: _commit, ...order } = quiet[Math.floor(Math.random() * quiet.length)]!;
    expect(quietRow(order.variant, order.levels, order.seed)).toEqual(order);
    const { commit: _other, ...one } = trouble[Math.floor(Math.random() * trouble.length)]!;
    expect(troubleRow(one.trouble, one.seed)).toEqual(one);
  });

  it('[NO3] the model tells how often it was wrong, and how soon it told, as the rows have it', () => {
    expect(SHIFTS_MEASURED).toBe(shiftsOf(quiet));
    expect(FALSE_MEASURED).toEqual(falseOf(quiet));
    expect(TOLD_MEASURED).toEqual({
      own: toldOf(own),
      line: toldOf(line.delays),
      each: toldOf(each.delays),
    });
  });

  it('[NO3] [NO4] a budget of one false call in a week of shifts is kept over all lines and levels, and one four times as strict', () => {
    expect(FALSE_MEASURED[5].from).toBeGreaterThanOrEqual(5);
    expect(FALSE_MEASURED[20].onceIn).toBeGreaterThanOrEqual(20);
    // runs that differ more than any past tells: told with its worst, and no worse than twice what is asked
    expect(FALSE_MEASURED[5].worst.onceIn, worstOf(quiet, 5).name).toBeGreaterThanOrEqual(2.5);
    expect(FALSE_MEASURED[50].onceIn).toBeGreaterThanOrEqual(25);
  });

  it('the README of the watch tells the same, trouble by trouble, beside the best plain rules', () => {
    // columns as wide as the formatter makes them
    const told = readme.replace(/ {2,}/g, ' ');
    for (const row of tableOf({ rows: trouble, own, line: line.delays, each: each.delays }))
      expect(told).toContain(row);
    for (const row of falseTableOf(FALSE_MEASURED)) expect(told).toContain(row);
    expect(readme).toContain(ruleSaid(line.rule));
  });

  it('no plain rule for the whole line tells as many troubles as soon at as many false calls, not even one that looks back for days', () => {
    expect(line.falsely).toBeLessThanOrEqual(falsely);
    const windows = {
      minutes: WINDOWS.minutes,
      cartons: [...WINDOWS.cartons, ...LONG_WINDOWS.cartons],
    };
    const long = toldOf(bestForLine(quiet, trouble, falsely, windows).delays);
    for (const plain of [TOLD_MEASURED.line, TOLD_MEASURED.each, long]) {
      expect(TOLD_MEASURED.own.told).toBeGreaterThan(plain.told);
      expect(TOLD_MEASURED.own.within3).toBeGreaterThan(plain.within3);
      expect(TOLD_MEASURED.own.within6).toBeGreaterThan(plain.within6);
    }
  });

  it('a plain rule calls anew only after a stop that found no other in its window', () => {
    const stops = [0, 10, 20, 25, 60, 65, 66].map((minute) => [minute, 60 * minute] as const);
    expect(newCalls(stops, { stops: 3, within: 21, by: 'minutes' })).toEqual([2, 6]);
    expect(newCalls(stops, { stops: 2, within: 300, by: 'cartons' })).toEqual([6]);
    expect(newCalls(stops, { stops: 2, within: 301, by: 'cartons' })).toEqual([3, 5]);
  });
});
