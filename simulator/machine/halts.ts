import { closeGuard, openGuard, someGuard } from './guarding.ts';
import { takeUp } from './jams.ts';
import { inSeconds, type Plant, type Script } from './plant.ts';
import { abort, press, release, reset, someButton, startUp } from './presses.ts';
import { write } from './plc.ts';
import { lognormal, pick, uniform } from './random.ts';
import { causeOf, enter, stand } from './states.ts';

/** The magazine is empty, no sachets come, or nothing leaves: the machine suspends itself and goes on by itself. */
export function* suspend(plant: Plant, number: 11 | 72 | 111): Script {
  const draw = plant.draw.incidents;
  const tag = number === 111 ? 'Cartoner.Blocked' : 'Cartoner.Starved';
  write(plant.plc, plant.now, tag, true);
  enter(plant, 'Suspending', causeOf(number));
  yield inSeconds(plant, uniform(draw, 0.6, 1.2));
  enter(plant, 'Suspended');
  stand(plant);
  yield inSeconds(plant, lognormal(draw, number === 111 ? 38 : 65, 0.6, 12, 600));
  write(plant.plc, plant.now, tag, false);
  yield inSeconds(plant, uniform(draw, 0.4, 1.5));
  enter(plant, 'Unsuspending');
  yield inSeconds(plant, uniform(draw, 0.9, 1.6));
  enter(plant, 'Execute');
}

const troubles = [
  { truth: 'no-product', weight: 4 },
  { truth: 'fouled', weight: 2 },
  { truth: 'fell', weight: 3 },
  { truth: 'flap', weight: 1 },
] as const;

/** Somebody at a loading position holds the machine; the PLC knows only that. */
export function* holdAtLoading(plant: Plant): Script {
  const draw = plant.draw.people;
  const { truth } = pick(draw, troubles, ({ weight }) => weight);
  enter(plant, 'Holding', causeOf(205, { truth }));
  yield inSeconds(plant, uniform(draw, 0.5, 1));
  enter(plant, 'Held');
  stand(plant);
  yield inSeconds(plant, lognormal(draw, 55, 0.6, 12, 500));
  yield* takeUp(plant);
}

const errands = [
  { truth: 'cleaning', weight: 3 },
  { truth: 'adjusting', weight: 2 },
  { truth: 'material', weight: 2 },
  { truth: 'called-away', weight: 1 },
] as const;

/** Somebody stops the machine at the panel; the PLC knows only that. */
export function* stopAtPanel(plant: Plant): Script {
  const draw = plant.draw.people;
  yield* stopByPanel(plant, pick(draw, errands, ({ weight }) => weight).truth);
  yield inSeconds(plant, lognormal(draw, 90, 0.7, 20, 900));
  yield* startUp(plant);
}

/** Stopping, then Stopped. */
export function* stopByPanel(plant: Plant, truth: string): Script {
  enter(plant, 'Stopping', causeOf(201, { truth }));
  yield inSeconds(plant, uniform(plant.draw.people, 0.7, 1.5));
  enter(plant, 'Stopped');
  stand(plant);
}

/** A stop device pressed while the line produces: what for, only the person knows. */
export function* pressAlone(plant: Plant, why: 'alone' | 'test'): Script {
  const draw = plant.draw.presses;
  const pressed = press(plant, someButton(plant), why);
  yield* abort(plant, why === 'test' ? 'test' : 'pressed');
  yield inSeconds(plant, why === 'test' ? uniform(draw, 8, 25) : lognormal(draw, 35, 0.7, 6, 400));
  release(plant, pressed);
  yield* reset(plant);
  yield* startUp(plant);
}

/** A guard opened while the line produces: the machine aborts in the next scan. */
export function* guardOpened(plant: Plant): Script {
  const draw = plant.draw.guards;
  const open = openGuard(plant, someGuard(plant));
  if (!open) return;
  yield inSeconds(plant, uniform(draw, 0.0098, 0.0104));
  enter(plant, 'Aborting', causeOf(302));
  yield inSeconds(plant, uniform(draw, 0.25, 0.6));
  enter(plant, 'Aborted');
  stand(plant);
  yield inSeconds(plant, lognormal(draw, 30, 0.6, 8, 300));
  closeGuard(plant, open);
  yield* reset(plant);
  yield* startUp(plant);
}
