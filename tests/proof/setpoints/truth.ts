import { normal, stream } from '../../../simulator/machine/random.ts';
import { onStep, riskTimes, type World } from './world.ts';

/** Numbers of a size, by adjustment. */
export type Numbers = ReadonlyMap<string, number>;

export interface Truth {
  /** Cartons lost per run at all stations if these numbers are set as the sheet says, over lots and as eyes err. */
  readonly lostAt: (numbers: Numbers) => number;
  readonly lostAtStation: (numbers: Numbers, station: string) => number;
  /** What loses least, all together, on the scales. */
  readonly best: Numbers;
}

/** Eyes err so much, in tolerances, when a number is followed. */
const FOLLOWS_WITH = 0.3;
const ERRORS_PER_LOT = 4;

export function truthOf(world: World): Truth {
  const size = world.sizes[0]!;
  const draw = stream(world.seed, `${world.name} truth`);
  // the same lots and the same errors for all numbers that are compared; errors come in pairs about zero
  const shifts = world.lots.flatMap((lot) =>
    Array.from({ length: ERRORS_PER_LOT / 2 }, () => world.adjustments.map(() => normal(draw))).flatMap(
      (errors) =>
        [1, -1].map((side) => ({
          level: lot.level,
          by: world.adjustments.map(
            ({ number, tolerance }, place) =>
              side * FOLLOWS_WITH * tolerance * errors[place]! - (lot.shifts[number] ?? 0),
          ),
        })),
    ),
  );
  const { from, to } = world.cartonsPerRun;
  const thousands = (to - from) / Math.log(to / from) / 1000;
  const lostAtStation = (numbers: Numbers, id: string) => {
    const station = world.stations.find((one) => one.id === id)!;
    let sum = 0;
    for (const { level, by } of shifts) {
      const deviations = new Map(
        world.adjustments.map(({ number }, place) => [
          number,
          numbers.get(number)! - size.best[number]! + by[place]!,
        ]),
      );
      const times = riskTimes(world, id, deviations);
      const stopTimes = Math.max(0.1, 1 + station.stopsFollow * (times - 1));
      sum +=
        level *
        (station.rejectsPerThousand * times * world.lostPerReject +
          station.stopsPerThousand * stopTimes * world.lostPerStop);
    }
    return (thousands * sum) / shifts.length;
  };
  const lostAt = (numbers: Numbers) =>
    world.stations.reduce((sum, { id }) => sum + lostAtStation(numbers, id), 0);
  return { lostAt, lostAtStation, best: leastAt(world, lostAtStation) };
}

/** Coordinate by coordinate, coarse steps first, until nothing gets better. */
function leastAt(world: World, lostAtStation: Truth['lostAtStation']): Numbers {
  const size = world.sizes[0]!;
  const numbers = new Map(world.adjustments.map((one) => [one.number, onStep(one, size.best[one.number]!)]));
  const touched = new Map(
    world.adjustments.map(({ number, station }) => [
      number,
      new Set([
        station,
        ...world.crossEffects.filter((one) => one.adjustment === number).map((one) => one.station),
      ]),
    ]),
  );
  const lost = (number: string) =>
    [...touched.get(number)!].reduce((sum, id) => sum + lostAtStation(numbers, id), 0);
  for (const share of [0.5, 0.25, 0.125, 0]) {
    for (let moved = true; moved; ) {
      moved = false;
      for (const facts of world.adjustments) {
        const by = Math.max(facts.step, share * facts.tolerance);
        for (const side of [1, -1]) {
          const now = numbers.get(facts.number)!;
          const next = onStep(facts, now + side * by);
          const before = lost(facts.number);
          numbers.set(facts.number, next);
          if (next !== now && lost(facts.number) < before - 1e-9) moved = true;
          else numbers.set(facts.number, now);
        }
      }
    }
  }
  return numbers;
}
