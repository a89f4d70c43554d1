import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SHARES_MEASURED } from '../../model/attribution/measured.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { boundLine, changesOf, runFor } from '../simulator/simulatedLine.ts';
import { type AttributionRow, runOf, type SettingName, settings } from './attribution.ts';
import type { AttributionSummary } from './attributionSummary.ts';
import { type FaultsRow, faultsRow, SHIFTS } from './faults.ts';
import { GATEWAYS, type KillsRow } from './kills.ts';
import { type FaultRow, faultRow, type NormalRow, type OrderRow, orderRow } from './normal.ts';
import type { SoakRow } from './soak.ts';
import { shiftsOf, type WeekRow } from './week.ts';

type Kept<Row> = Row & { readonly commit: string };

function rowsOf<Row>(proof: string): readonly Kept<Row>[] {
  const text = readFileSync(join(import.meta.dirname, `${proof}.ndjson`), 'utf8');
  return text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Kept<Row>);
}

const rows = rowsOf<WeekRow>('week');
const faulted = rowsOf<FaultsRow>('faults');
const laid = rowsOf<AttributionRow | AttributionSummary>('attribution');
const killed = rowsOf<KillsRow>('kills');
const held = rowsOf<NormalRow>('normal');
const soaked = rowsOf<SoakRow>('soak');

describe('proof rows', () => {
  it('all weeks stand: three variants, two seeds, 21 shifts each, every one equal to its ledger', () => {
    expect(rows).toHaveLength(126);
    expect(rows.filter(({ equal }) => !equal)).toEqual([]);
  });

  it('a row taken at random comes out again, exactly', () => {
    const early = rows.filter(({ shift }) => shift <= 3);
    const { commit: _commit, ...row } = early[Math.floor(Math.random() * early.length)]!;
    expect([...shiftsOf(row.variant, row.seed, row.shift)].at(-1)).toEqual(row);
  });

  it('all shifts heard through faults stand: what is told is true or lies in a gap, and no gap is without its fault', () => {
    expect(faulted).toHaveLength(SHIFTS);
    expect(faulted.reduce((sum, { faults }) => sum + faults, 0)).toBeGreaterThanOrEqual(1000);
    expect(faulted.flatMap(({ wrong }) => wrong)).toEqual([]);
  });

  it('one of them, taken at random, comes out again, exactly', async () => {
    const { commit: _commit, ...row } = faulted[Math.floor(Math.random() * faulted.length)]!;
    expect(await faultsRow(row.seed)).toEqual(row);
  });

  it('all shifts in order and all faults held against a normal stand; one of each, taken at random, comes out again, exactly', () => {
    // what they say in all is asked by normal.test.ts
    const orders = held.filter((row): row is Kept<OrderRow> => row.kind === 'order');
    const wrong = held.filter((row): row is Kept<FaultRow> => row.kind === 'fault');
    expect(held.filter(({ equal }) => !equal)).toEqual([]);
    const { commit: _commit, ...order } = orders[Math.floor(Math.random() * orders.length)]!;
    expect(orderRow(order.variant, order.levels, order.seed)).toEqual(order);
    const { commit: _other, ...fault } = wrong[Math.floor(Math.random() * wrong.length)]!;
    expect(faultRow(fault.fault, fault.seed)).toEqual(fault);
  });

  it('all rejects of more than three hundred shifts stand: their shares add up, and are better than the line’s file wherever stations are seen', () => {
    const runs = laid.flatMap((row) => (row.kind === 'run' ? [row] : []));
    expect(runs.reduce((sum, { shifts }) => sum + shifts, 0)).toBeGreaterThanOrEqual(300);
    expect(new Set(runs.map(({ setting }) => setting))).toEqual(new Set(Object.keys(settings)));
    expect(laid.filter(({ equal }) => !equal)).toEqual([]);
    const all = new Map(laid.flatMap((row) => (row.kind === 'all' ? [[row.setting, row] as const] : [])));
    const sensed = all.get('standard')!;
    expect(sensed.brier).toBeLessThan(sensed.byFile / 2);
    // a sensor that chatters, or a file that says too little, costs some of it, and not all
    for (const setting of ['chattering', 'unnamed', 'handled'] as const)
      expect(all.get(setting)!.brier, setting).toBeLessThan(all.get(setting)!.byFile / 2);
    const asTold = (setting: SettingName) => {
      const { shifts, rejects, ...scores } = all.get(setting)!;
      const rounded = (score: number) => Math.round(1000 * score) / 1000;
      const [brier, byFile, table] = [scores.brier, scores.byFile, scores.table].map(rounded);
      return { shifts, rejects, brier, byFile, table };
    };
    expect({
      sensed: asTold('standard'),
      unnamed: asTold('unnamed'),
      file: asTold('noSensors'),
      fileUnnamed: asTold('unnamedNoSensors'),
    }).toEqual(SHARES_MEASURED);
  });

  it('what lines are held to is what was measured of their like, and nothing where pockets or looks are wrong', () => {
    const runs = laid.flatMap((row) => (row.kind === 'run' ? [row] : []));
    const heldTo = (setting: SettingName) =>
      new Set(runs.filter((row) => row.setting === setting).map((row) => row.heldTo));
    for (const setting of ['standard', 'handled', 'fourReverse', 'automaticBare', 'chattering'] as const)
      expect([...heldTo(setting)], setting).toEqual(['sensed']);
    for (const setting of ['pocketsOff', 'sampled'] as const)
      expect([...heldTo(setting)], setting).toEqual(['nothing']);
    for (const setting of ['uncounted', 'noSensors', 'automaticNoSensors'] as const)
      expect([...heldTo(setting)], setting).toEqual(['file']);
  });

  it('one of these runs, taken at random, comes out again, exactly', () => {
    const runs = laid.flatMap((row) => (row.kind === 'run' ? [row] : []));
    const { commit: _commit, ...row } = runs[Math.floor(Math.random() * runs.length)]!;
    expect(runOf(row.setting, row.seed, row.shifts).row).toEqual(row);
  });

  it('two hundred kills stand: nothing acknowledged was lost, nothing counted twice, every restart was the fold of its tape', () => {
    // moments of a kill are real ones, so that none comes out again to the digit: tests/faults/kills.test.ts kills anew
    expect(killed).toHaveLength(GATEWAYS);
    expect(killed.reduce((sum, { kills }) => sum + kills, 0)).toBeGreaterThanOrEqual(200);
    expect(killed.flatMap(({ wrong }) => wrong)).toEqual([]);
    expect(killed.every(({ counted }) => counted > 0)).toBe(true);
  });

  it('two hours of real time stand: an outage every minute, every carton counted, and nothing that grows without end', () => {
    const minutes = soaked.flatMap((row) => (row.kind === 'tenMinutes' ? [row.minute] : []));
    expect(minutes).toEqual(Array.from({ length: 12 }, (_, n) => 10 * (n + 1)));
    expect(soaked.filter(({ equal }) => !equal)).toEqual([]);
    const [verdict, ...others] = soaked.flatMap((row) => (row.kind === 'verdict' ? [row] : []));
    expect(others).toEqual([]);
    expect(verdict!.minutes).toBeGreaterThanOrEqual(120);
    expect(verdict!.outages).toBeGreaterThanOrEqual(100);
    expect([verdict!.counted, verdict!.wrong, verdict!.holes]).toEqual([verdict!.good, [], 0]);
    expect(verdict!.unknownSeconds).toBeLessThanOrEqual(verdict!.allowedSeconds);
    expect(verdict!.handlesPerHour).toBeLessThan(1);
    expect(verdict!.descriptorsPerHour).toBeLessThan(1);
    expect(verdict!.heapKBPerHour).toBeLessThan(5000);
  });

  it('[TI3] a simulated shift, cut anywhere and resumed from what was saved, gives the same state', () => {
    const bound = boundLine();
    const changes = changesOf(bound, runFor(5, { seed: 21 }).told);
    const whole = new LineFold(bound.line);
    whole.take(changes);
    fc.assert(
      fc.property(fc.array(fc.nat(changes.length), { minLength: 1, maxLength: 4 }), (cuts) => {
        const edges = [0, ...[...cuts].sort((a, b) => a - b), changes.length];
        let fold = new LineFold(bound.line);
        for (let n = 1; n < edges.length; n += 1) {
          fold.take(changes.slice(edges[n - 1], edges[n]));
          fold = new LineFold(bound.line, fold.save());
        }
        expect(fold.text()).toBe(whole.text());
      }),
      { numRuns: 6 },
    );
  });
});
