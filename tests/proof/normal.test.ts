import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { MEASURED, MEASURED_SHIFTS } from '../../model/normal/measured.ts';
import { SETTINGS } from '../../model/normal/settings.ts';
import {
  FAULT_SEEDS,
  type FaultRow,
  families,
  type faults,
  type NormalRow,
  ORDER_SEEDS,
  type OrderRow,
} from './normal.ts';
import { foundOf, measuredOf, rules } from './normalSummary.ts';

const rows = readFileSync(join(import.meta.dirname, 'normal.ndjson'), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as NormalRow);
const orders = rows.filter((row): row is OrderRow => row.kind === 'order');
const wrong = (fault: keyof typeof faults) =>
  rows.filter((row): row is FaultRow => row.kind === 'fault' && row.fault === fault);

describe('what the rules of a station’s own normal say of shifts in order, and of faults', () => {
  it('[NW4] is what stands beside their answers: the model tells the measured rates, of over a thousand shifts', () => {
    expect(orders).toHaveLength(Object.keys(families).length * ORDER_SEEDS);
    expect(measuredOf(orders)).toEqual(MEASURED);
    expect(Math.round(orders.reduce((sum, { shifts }) => sum + shifts, 0))).toBe(MEASURED_SHIFTS);
    expect(MEASURED_SHIFTS).toBeGreaterThan(1000);
  });

  it('[NW1] [NW2] [NW3] keeps what each rule promises: no oftener than once in 300 shifts of a station', () => {
    for (const rule of rules)
      expect(MEASURED[rule].onceIn, rule).toBeGreaterThanOrEqual(SETTINGS.falseOnceInShifts);
  });

  it.each([
    // a guide that works loose doubles its risk in four hours of running, and goes on
    { fault: 'guideWorksLoose', found: 40, half: 19_273 },
    // missed picks, of which there are eight in ten thousand: twice as many lie within what differs from run to run
    { fault: 'twiceAsMany', found: 9, half: undefined },
    { fault: 'threeTimesAsMany', found: 27, half: 30_417 },
    // seven thousand cartons in the course of a run, then all is well again
    { fault: 'badLot', found: 17, half: undefined },
    // its rejects stay as they were: only its stops tell
    { fault: 'reJamming', found: 29, half: 25_722 },
  ] as const)('finds $fault in $found of 40 lines within three runs', ({ fault, found, half }) => {
    expect(foundOf(wrong(fault))).toEqual({ of: FAULT_SEEDS, found, half });
  });

  it('[NW3] finds a station that jams more by its stops, and one that spoils more by its rejects', () => {
    expect(foundOf(wrong('reJamming'), ['stops']).found).toBeGreaterThan(
      10 * foundOf(wrong('reJamming'), ['run', 'drift']).found,
    );
    expect(foundOf(wrong('badLot'), ['run', 'drift']).found).toBeGreaterThan(
      10 * foundOf(wrong('badLot'), ['stops']).found,
    );
  });
});
