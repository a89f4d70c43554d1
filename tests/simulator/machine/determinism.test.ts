import fc from 'fast-check';
import { expect, it } from 'vitest';
import { after, type Instant, type Span } from '../../../model/units/units.ts';
import { ledgerLine } from '../../../simulator/ledger/ledger.ts';
import { openEntries, runUntil, startMachine, takeEntries } from '../../../simulator/machine/machine.ts';
import type { PlcFact } from '../../../simulator/machine/plc.ts';
import { stream } from '../../../simulator/machine/random.ts';
import { historyLine } from '../../../simulator/server/protocol.ts';
import { monday, runFor } from '../simulatedLine.ts';

const CEILING = 600_000;
const hours = 3;
const length = hours * 36_000_000_000;

function runInChunks(ends: readonly number[]): { readonly told: string; readonly ledger: string } {
  const machine = startMachine({ seed: 11, start: monday });
  const facts: PlcFact[] = [];
  const entries: string[] = [];
  for (const end of [...ends].sort((a, b) => a - b)) {
    facts.push(...runUntil(machine, after(monday, end as Span)));
    entries.push(...takeEntries(machine).map(ledgerLine));
  }
  entries.push(...openEntries(machine).map(ledgerLine));
  return { told: facts.map(historyLine).join(''), ledger: entries.join('') };
}

it(
  'the same seed tells the same, byte for byte, however its time is divided',
  () => {
    const whole = runInChunks([length]);
    expect(whole.told.length).toBeGreaterThan(1_000_000);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: length }), { maxLength: 40 }), (ends) => {
        expect(runInChunks([...ends, length])).toEqual(whole);
      }),
      { numRuns: 6 },
    );
  },
  CEILING,
);

it('another seed is another run', () => {
  const [one, two] = [runFor(0.2, { seed: 1 }), runFor(0.2, { seed: 2 })];
  expect(one.told).not.toEqual(two.told);
});

it('what the PLC told does not change what follows: no two scans share a tick and time never goes back', () => {
  const { told } = runFor(4, { seed: 3 });
  const scans = new Map<Instant, string[]>();
  let before = 0;
  for (const fact of told) {
    expect(fact.at).toBeGreaterThanOrEqual(before);
    before = fact.at;
    if ('tag' in fact) scans.set(fact.at, [...(scans.get(fact.at) ?? []), fact.tag]);
  }
  const together = [...scans].slice(1).filter(([, tags]) => tags.includes('Cartoner.State'));
  expect(together.length).toBeGreaterThan(10);
  expect(together.filter(([, tags]) => tags.includes('Discharge.Good'))).toEqual([]);
});

it('an unchanged value is not written again', () => {
  const last = new Map<string, unknown>();
  for (const fact of runFor(2, { seed: 5 }).told) {
    if ('link' in fact) continue;
    expect(last.get(fact.tag)).not.toBe(fact.value);
    last.set(fact.tag, fact.value);
  }
  expect(last.size).toBeGreaterThan(60);
});

it('streams of two concerns do not follow one another, and a stream is the same each time', () => {
  const draw = (seed: number, concern: string) => {
    const next = stream(seed, concern);
    return Array.from({ length: 5 }, () => next());
  };
  expect(draw(1, 'folds')).toEqual(draw(1, 'folds'));
  expect(draw(1, 'folds')).not.toEqual(draw(1, 'picks'));
  expect(draw(1, 'folds')).not.toEqual(draw(2, 'folds'));
  const next = stream(9, 'mean');
  const mean = Array.from({ length: 20_000 }, () => next()).reduce((sum, value) => sum + value, 0) / 20_000;
  expect(mean).toBeCloseTo(0.5, 2);
});
