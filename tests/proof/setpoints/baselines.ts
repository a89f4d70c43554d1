import type { PlayedRun, PlayedStretch } from './play.ts';
import type { Numbers } from './truth.ts';
import { onStep, type World } from './world.ts';

/** What people could do without an estimator: the mean of where each adjustment ended in past runs; the book's number where nobody knows. */
export function meanOfPast(world: World, runs: readonly PlayedRun[]): Numbers {
  const book = world.sizes[0]!.book;
  return new Map(
    world.adjustments.map((facts, place) => {
      const ends = runs.flatMap(({ stretches }) => stretches.at(-1)!.known[place]?.value ?? []);
      const mean = ends.reduce((sum, end) => sum + end, 0) / ends.length;
      return [facts.number, ends.length > 0 ? onStep(facts, mean) : book[facts.number]!];
    }),
  );
}

/** The settings of the run in which the station lost least per carton, station by station. */
export function settingsOfBestRun(world: World, runs: readonly PlayedRun[]): Numbers {
  const book = world.sizes[0]!.book;
  const numbers = new Map<string, number>();
  for (const { id } of world.stations) {
    const lost = runs.map(({ stretches }) => lostOf(world, stretches, id));
    const best = runs[lost.indexOf(Math.min(...lost))]!;
    world.adjustments.forEach(({ number, station }, place) => {
      if (station === id) numbers.set(number, best.stretches.at(-1)!.known[place]?.value ?? book[number]!);
    });
  }
  return numbers;
}

function lostOf(world: World, stretches: readonly PlayedStretch[], station: string): number {
  let lost = 0;
  let cartons = 0;
  for (const stretch of stretches) {
    const { spoiled, stops } = stretch.counts.get(station)!;
    lost += spoiled * world.lostPerReject + stops * world.lostPerStop;
    cartons += stretch.cartons;
  }
  return lost / cartons;
}
