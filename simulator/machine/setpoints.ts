import { type AdjustmentFacts, adjustments, type SizeId, stations } from '../lines/cartoner.ts';
import type { Variant } from '../lines/variant.ts';
import { normal, stream } from './random.ts';

/**
 * Where the numbered adjustments stand, and where they ought to: a hidden right value for each, which depends on
 * carton size, board lot and tuck style (that it does is common practice; the amounts are invented, no source).
 */
export interface Setpoints {
  readonly actual: Map<string, number>;
  readonly seed: number;
  readonly tuck: Variant['tuck'];
  size: SizeId;
  lot: number;
  /** Chance of a misfold at each station in one cycle, reckoned from the deviations. */
  risks: ReadonlyMap<string, number>;
}

/** Chance of a misfold where every number is right. */
const baseRisk: Readonly<Record<string, number>> = {
  pick: 0.0006,
  open: 0.00035,
  'bottom-minor': 0.0008,
  'bottom-major': 0.0017,
  capture: 0.0009,
  'top-minor': 0.0007,
  'top-major': 0.0016,
  'tuck-cam': 0.00035,
};
const riskMost = 0.3;
const crossEffect = 0.25;
const reverseTuckShift = 0.9;

export function createSetpoints(seed: number, tuck: Variant['tuck'], size: SizeId, lot: number): Setpoints {
  const setpoints: Setpoints = { actual: new Map(), seed, tuck, size, lot, risks: new Map() };
  const draw = stream(seed, 'settings at start');
  for (const facts of adjustments) {
    setpoints.actual.set(
      facts.number,
      settle(facts, rightValue(setpoints, facts) + 0.4 * tolerance(facts) * normal(draw)),
    );
  }
  reckonRisks(setpoints);
  return setpoints;
}

/** How far an adjustment may be off before it shows: one mark on its scale's own measure. */
export function tolerance(facts: AdjustmentFacts): number {
  return facts.unit === 'deg' ? 4 : facts.decimals === 0 ? 2 : 0.8;
}

/** Within its range and at the resolution of its scale. */
export function settle(facts: AdjustmentFacts, value: number): number {
  const scale = 10 ** facts.decimals;
  const bounded = Math.min(facts.range[1], Math.max(facts.range[0], value));
  return Math.round(bounded * scale) / scale;
}

const offsets = new Map<string, number>();

/** The number at which this adjustment would fold best, for the size and lot that run. */
export function rightValue(setpoints: Setpoints, facts: AdjustmentFacts): number {
  const size = hidden(setpoints.seed, `size ${setpoints.size} ${facts.number}`) * 0.35;
  const lot = hidden(setpoints.seed, `lot ${setpoints.lot} ${facts.number}`) * 0.35;
  const major = facts.station === 'bottom-major' || facts.station === 'top-major';
  const tuck = setpoints.tuck === 'reverse' && major ? reverseTuckShift : 0;
  return facts.book[setpoints.size] + tolerance(facts) * (size + lot + tuck);
}

function hidden(seed: number, concern: string): number {
  const key = `${seed} ${concern}`;
  let offset = offsets.get(key);
  if (offset === undefined) {
    offset = normal(stream(seed, concern));
    if (offsets.size > 10_000) offsets.clear();
    offsets.set(key, offset);
  }
  return offset;
}

/** How far off an adjustment stands, in tolerances. */
export function deviation(setpoints: Setpoints, facts: AdjustmentFacts): number {
  return ((setpoints.actual.get(facts.number) ?? 0) - rightValue(setpoints, facts)) / tolerance(facts);
}

/** Works out every station's chance of a misfold: it grows with the square of its own deviations and a little of its neighbours'. */
export function reckonRisks(setpoints: Setpoints): void {
  const strain = new Map<string, number>();
  for (const facts of adjustments) {
    strain.set(facts.station, (strain.get(facts.station) ?? 0) + deviation(setpoints, facts) ** 2);
  }
  const risks = new Map<string, number>();
  stations.forEach(({ id }, index) => {
    const before = strain.get(stations[index - 1]?.id ?? '') ?? 0;
    const behind = strain.get(stations[index + 1]?.id ?? '') ?? 0;
    const factor = 1 + (strain.get(id) ?? 0) + crossEffect * (before + behind);
    risks.set(
      id,
      Math.min(
        riskMost,
        (baseRisk[id] ?? 0) * (setpoints.tuck === 'reverse' && id === 'bottom-major' ? 1.4 : 1) * factor,
      ),
    );
  });
  setpoints.risks = risks;
}

/** The facts of an adjustment by its number. */
export function adjustment(number: string): AdjustmentFacts {
  const found = adjustments.find((facts) => facts.number === number);
  if (!found) throw new Error(`Mistake in the simulator: no adjustment ${number}`);
  return found;
}
