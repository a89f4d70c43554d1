import { buttonsOf, devicesOf } from '../lines/variant.ts';
import { inSeconds, type OpenPress, type Plant, producing, type Script } from './plant.ts';
import { count, write } from './plc.ts';
import { pick, uniform } from './random.ts';
import { causeOf, enter, stand } from './states.ts';

/** A hand on a stop device: its bit and its counted twin move in one scan. Pressing is always right. */
export function press(plant: Plant, button: string, why: OpenPress['why']): OpenPress {
  const devices = devicesOf(plant.variant);
  const device = devices.find(({ id }) => id === button) ?? devices[0];
  if (!device) throw new Error('Mistake in the simulator: a variant without a stop device');
  write(plant.plc, plant.now, device.tag, true);
  count(plant.plc, plant.now, device.twinTag);
  const pressed: OpenPress = {
    device: device.id,
    button,
    pressed: plant.now,
    role: producing(plant) ? 'caused' : 'during',
    why,
    tag: device.tag,
  };
  plant.presses.push(pressed);
  return pressed;
}

export function release(plant: Plant, pressed: OpenPress): void {
  write(plant.plc, plant.now, pressed.tag, false);
  pressed.released = plant.now;
}

/** One scan after the press the machine aborts, and soon stands. */
export function* abort(plant: Plant, truth?: string): Script {
  yield inSeconds(plant, uniform(plant.draw.presses, 0.0098, 0.0104));
  const cause = causeOf(301, truth === undefined ? {} : { truth });
  enter(plant, 'Aborting', cause);
  yield inSeconds(plant, uniform(plant.draw.presses, 0.25, 0.6));
  enter(plant, 'Aborted');
  stand(plant);
}

/** Somebody resets the machine after every device is released. */
export function* reset(plant: Plant): Script {
  yield inSeconds(plant, uniform(plant.draw.presses, 1.5, 9));
  for (const pressed of plant.presses) if (pressed.released !== undefined) pressed.reset ??= plant.now;
  enter(plant, 'Clearing');
  yield inSeconds(plant, uniform(plant.draw.presses, 0.3, 0.7));
  enter(plant, 'Stopped');
}

/** From Stopped to Execute, as the start button does it. */
export function* startUp(plant: Plant): Script {
  const draw = plant.draw.people;
  yield inSeconds(plant, uniform(draw, 1.5, 5));
  enter(plant, 'Resetting');
  yield inSeconds(plant, uniform(draw, 0.8, 1.4));
  enter(plant, 'Idle');
  yield inSeconds(plant, uniform(draw, 1.2, 4));
  enter(plant, 'Starting');
  yield inSeconds(plant, uniform(draw, 1.4, 2.2));
  enter(plant, 'Execute');
}

/** The button nearest to the trouble is the likeliest. */
export function someButton(plant: Plant): string {
  const weights: Readonly<Record<string, number>> = { 'main-panel': 2 };
  return pick(plant.draw.presses, buttonsOf(plant.variant), ({ id }) => weights[id] ?? 3).id;
}
