import { type Passes, type StationPasses, sensedLately } from './passes.ts';

/** How a near miss lies to the cycle in which a carton passed: in it, one beside it, or there is none; undefined: nobody knows. */
export type Sight = 0 | 1 | 2 | undefined;
const IN = 0;
const BESIDE = 1;
const NONE = 2;

/**
 * What may make a station spoil more than it usually does; the last one that hands did it, who are no station: they were in
 * the machine with the carton. How much each does is learned.
 */
export const TRAITS = ['stood', 'troubled', 'handled', 'moved', 'byHand'] as const;
export const BY_HAND = TRAITS.indexOf('byHand');
/** Each is taken to make so many times as much likely, before anything was seen of it. */
export const TRAIT_FACTORS = [1.5, 1.5, 1.5, 1.5, 3] as const;

/** Cycles in which each trait holds of a station once it has begun: so many passes may show it. */
const STOOD_BESIDE = 1;
const TROUBLED_BEFORE = 2;
const TROUBLED_AFTER = 10;
const MOVED_AFTER = 600;
/** Hands may touch a carton so many pockets from those that they empty. */
const NEAR = 3;
export const HOLDS = {
  stood: 2 * STOOD_BESIDE + 1,
  troubled: TROUBLED_BEFORE + TROUBLED_AFTER + 1,
  moved: MOVED_AFTER,
  beside: 2 * NEAR,
} as const;

/** Before any was seen: one near miss in so many cycles. */
const USUALLY_ONE_IN = 400;
/** What it ever told is not believed where the last few hundred cycles lie so many of their deviations from it. */
const DEVIATIONS = 2;

export function sightAt(
  { sureFrom, cycles }: Passes,
  { nearMisses, sureFrom: own }: StationPasses,
  pass: number,
): Sight {
  if (pass < sureFrom || pass < own || pass > cycles) return undefined;
  let sight: Sight = NONE;
  for (let place = nearMisses.length - 1; place >= 0; place -= 1) {
    const off = nearMisses[place]! - pass;
    if (off === 0) return IN;
    if (off === 1 || off === -1) sight = BESIDE;
    if (off < -1) break;
  }
  return sight;
}

/** In which share of its cycles a sensor tells of near misses, whatever becomes of cartons: as ever, unless lately it is another. */
export function usual(passes: Passes, station: StationPasses): number {
  const ever = (station.sensed + 1) / (passes.cycles - station.sensedFrom + USUALLY_ONE_IN);
  const { seen, cycles } = sensedLately(passes, station);
  const deviation = DEVIATIONS * Math.sqrt(seen + 1);
  const of = cycles + DEVIATIONS;
  return Math.min(1, Math.max((seen - deviation) / of, Math.min(ever, (seen + deviation + 1) / of)));
}

/**
 * How much likelier a sight is if what spoiled the carton shows itself so often in its cycle, beside it or not at all
 * (`counts`), than if nothing was there but what the sensor usually tells, `by` cycle: P(in) = p,
 * P(beside) = (1 − p)(1 − (1 − p)²), P(none) = (1 − p)³, and what shows itself may be hidden by what is usual.
 */
export function likelier(counts: readonly number[], sight: 0 | 1 | 2, by: number): number {
  const shown = counts.map((n) => n / (counts[0]! + counts[1]! + counts[2]!));
  if (sight === IN) return shown[IN]! / by + 1 - shown[IN]!;
  return sight === BESIDE ? shown[BESIDE]! / eitherSide(by) + shown[NONE]! : shown[NONE]!;
}

/** Of a sight of what spoiled the carton: how likely it showed itself in its cycle, beside it, or not at all, and the usual was seen. */
export function shownBy(counts: readonly number[], sight: 0 | 1 | 2, by: number): readonly number[] {
  const [within, beside, none] = [counts[IN]!, counts[BESIDE]!, counts[NONE]!];
  const weights =
    sight === IN
      ? [within, beside * by, none * by]
      : sight === BESIDE
        ? [0, beside, none * eitherSide(by)]
        : [0, 0, 1];
  const sum = weights[IN]! + weights[BESIDE]! + weights[NONE]!;
  return weights.map((weight) => weight / sum);
}

/** How likely at least one of the two cycles beside one has near misses. */
function eitherSide(by: number): number {
  return 1 - (1 - by) ** 2;
}

/** Whether each trait held of a station when a carton passed it in a cycle. */
export function traitsAt(passes: Passes, station: StationPasses, pass: number): readonly boolean[] {
  const { troubledAt, movedAt } = station;
  return [
    passes.stood.some((cycle) => Math.abs(cycle - pass) <= STOOD_BESIDE),
    troubledAt >= 0 && pass >= troubledAt - TROUBLED_BEFORE && pass <= troubledAt + TROUBLED_AFTER,
    passes.handled.some(([from, to]) => pass >= from && pass <= to),
    movedAt >= 0 && pass >= movedAt && pass <= movedAt + MOVED_AFTER,
  ];
}

/** Whether hands may have touched the carton that is checked now: it was in the machine in a jog, or near emptied pockets. */
export function wasNearHands({ cycles, joggedAt, emptied }: Passes, pocketsMost: number): boolean {
  if (joggedAt >= 0 && joggedAt > cycles - pocketsMost) return true;
  return emptied.some(([cycle, far, near]) => {
    const distance = cycles - cycle;
    return distance >= near - NEAR && distance <= far + NEAR;
  });
}
