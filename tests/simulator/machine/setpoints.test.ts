import { expect, it } from 'vitest';
import {
  adjustment,
  createSetpoints,
  reckonRisks,
  rightValue,
  tolerance,
} from '../../../simulator/machine/setpoints.ts';

/** Chance of a misfold at a station when one adjustment stands so many tolerances off its right value. */
function riskAt(
  number: string,
  off: number,
  station: string,
  tuck: 'straight' | 'reverse' = 'straight',
): number {
  const setpoints = createSetpoints(7, tuck, 'sachet-48', 4_000);
  const facts = adjustment(number);
  setpoints.actual.set(number, rightValue(setpoints, facts) + off * tolerance(facts));
  reckonRisks(setpoints);
  return setpoints.risks.get(station) ?? 0;
}

it('a guide off its right value raises the chance of a misfold at its own station, smoothly and both ways', () => {
  const risks = [0, 1, 2, 3].map((off) => riskAt('5.2', off, 'bottom-major'));
  expect(risks).toEqual([...risks].sort((a, b) => a - b));
  expect(riskAt('5.2', -2, 'bottom-major')).toBeCloseTo(riskAt('5.2', 2, 'bottom-major'), 10);
  expect((risks[3] ?? 0) / (risks[0] ?? 1)).toBeGreaterThan(3);
});

it('it raises the neighbours a little, and stations farther away not at all', () => {
  const rise = (station: string) => riskAt('5.2', 3, station) / riskAt('5.2', 0, station);
  expect(rise('bottom-minor')).toBeGreaterThan(1.2);
  expect(rise('bottom-minor')).toBeLessThan(rise('bottom-major'));
  expect(rise('top-major')).toBe(1);
});

it('what is right depends on size, on the lot and on the tuck style', () => {
  const facts = adjustment('5.2');
  const right = (size: 'sachet-20' | 'sachet-48', lot: number, tuck: 'straight' | 'reverse') =>
    rightValue(createSetpoints(7, tuck, size, lot), facts);
  const one = right('sachet-48', 4_000, 'straight');
  expect(right('sachet-20', 4_000, 'straight')).not.toBe(one);
  expect(right('sachet-48', 4_001, 'straight')).not.toBe(one);
  expect(right('sachet-48', 4_000, 'reverse')).not.toBe(one);
});

it('a reverse tuck is the harder one at the bottom major flap', () => {
  expect(riskAt('1.1', 0, 'bottom-major', 'reverse')).toBeGreaterThan(
    riskAt('1.1', 0, 'bottom-major', 'straight'),
  );
});
