import { expect, it } from 'vitest';
import { standard } from '../../../simulator/lines/variant.ts';
import { runFor, type Run } from '../simulatedLine.ts';

const withSensors = runFor(8, { seed: 6 });
const withoutSensors = runFor(8, { seed: 6, variant: { ...standard, nearMisses: false } });
const handled = runFor(24, { seed: 8, handling: true, lively: 4 });

const isNearMiss = (fact: Run['told'][number]) => 'tag' in fact && fact.tag.endsWith('.NearMisses');

it('sensors of near misses change nothing else: the same run without them tells and does the same', () => {
  const rest = withSensors.told.filter((fact) => !isNearMiss(fact));
  expect(rest).toEqual(withoutSensors.told);
  expect(withSensors.entries).toEqual(withoutSensors.entries);
  expect(withoutSensors.told.filter(isNearMiss)).toEqual([]);
});

it('a sensor sees most of what its station spoils, and sometimes what it did not', () => {
  const spoiled = withSensors.ledger.cartons.filter(({ spoiledBy }) => spoiledBy === 'bottom-major').length;
  const seen = withSensors.told.filter(
    (fact) => 'tag' in fact && fact.tag === 'BottomMajor.NearMisses',
  ).length;
  expect(spoiled).toBeGreaterThan(20);
  expect(seen).toBeGreaterThan(spoiled / 2);
  expect(seen).toBeLessThan(spoiled * 3);
});

it('where people handle cartons, jogs go back and hands knock, and still every carton ends once', () => {
  const { cartons, start } = handled.ledger;
  const ids = cartons.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  const blanks =
    start.inPockets + handled.told.filter((fact) => 'tag' in fact && fact.tag === 'Pick.Blanks').length;
  const left = blanks - ids.length;
  expect(left).toBeGreaterThanOrEqual(0);
  expect(left).toBeLessThanOrEqual(27);
  expect(cartons.filter(({ spoiledBy }) => spoiledBy === 'hands').length).toBeGreaterThan(3);
  expect(cartons.filter(({ how }) => how === 'pushed back').length).toBeGreaterThan(0);
});

it('a cycle backwards is counted like any other, as the counter tells no direction', () => {
  const cycles = handled.told.flatMap((fact) =>
    'tag' in fact && fact.tag === 'Cartoner.Cycles' ? [fact.value] : [],
  );
  const steps = cycles.slice(1).map((value, n) => (Number(value) - Number(cycles[n]) + 2 ** 32) % 2 ** 32);
  expect(new Set(steps)).toEqual(new Set([1]));
});
