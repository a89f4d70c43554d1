import { type GuardFacts, guards } from '../lines/cartoner.ts';
import { inSeconds, type OpenGuard, type Plant, producing, record, type Script } from './plant.ts';
import { write } from './plc.ts';
import { exponential, pick, uniform } from './random.ts';

/** Opens a guard; undefined when it stands open already. */
export function openGuard(plant: Plant, facts: GuardFacts, enabling = false): OpenGuard | undefined {
  if (plant.guards.some(({ guard }) => guard === facts.id)) return undefined;
  write(plant.plc, plant.now, facts.tag, true);
  const open: OpenGuard = {
    guard: facts.id,
    tag: facts.tag,
    opened: plant.now,
    running: producing(plant),
    enabling,
  };
  plant.guards.push(open);
  return open;
}

export function closeGuard(plant: Plant, open: OpenGuard): void {
  write(plant.plc, plant.now, open.tag, false);
  plant.guards = plant.guards.filter((guard) => guard !== open);
  const { tag: _tag, ...facts } = open;
  record(plant, { kind: 'guard', ...facts, closed: plant.now });
}

/** The guard over a station, if it has one. */
export function guardOver(distance: number): GuardFacts | undefined {
  return guards.find(({ pockets: [far, near] }) => distance <= far && distance >= near);
}

export function someGuard(plant: Plant): GuardFacts {
  return pick(plant.draw.guards, guards, () => 1);
}

/** Rarely, a guard reads open for a moment while the machine runs on: a switch that somebody has to see to. */
export function* guardOpenWhileRunning(plant: Plant): Script {
  for (;;) {
    yield inSeconds(plant, exponential(plant.draw.guards, 40 * 3_600));
    while (!producing(plant)) yield inSeconds(plant, 60);
    const open = openGuard(plant, someGuard(plant));
    yield inSeconds(plant, uniform(plant.draw.guards, 1.5, 7));
    while (plant.plc.dark) yield inSeconds(plant, 5);
    if (open) closeGuard(plant, open);
  }
}
