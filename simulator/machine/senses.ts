import { inSeconds, type Plant, type Script } from './plant.ts';
import { count, write } from './plc.ts';
import { type Draw, exponential, normal, uniform } from './random.ts';
import { ramp } from './crank.ts';

/** A condition value that wanders about a mean: an autoregressive walk, sampled about each five seconds. */
interface Walk {
  readonly tag: string;
  readonly mean: (plant: Plant) => number;
  readonly spread: number;
  readonly decimals: number;
}

export const walks = {
  vacuum: { tag: 'Pick.Vacuum', mean: () => -58, spread: 2.1, decimals: 1 },
  air: { tag: 'Cartoner.AirPressure', mean: () => 6.05, spread: 0.12, decimals: 2 },
  drive: {
    tag: 'Cartoner.MainDriveLoad',
    mean: (plant: Plant) => (plant.driving ? 52 : 6),
    spread: 4,
    decimals: 1,
  },
} as const;

export function* sense(plant: Plant, walk: Walk, draw: Draw): Script {
  let off = 0;
  for (;;) {
    yield inSeconds(plant, uniform(draw, 4.6, 5.4));
    off = 0.97 * off + walk.spread * 0.243 * normal(draw);
    const scale = 10 ** walk.decimals;
    const value =
      Math.round((walk.mean(plant) + off * (walk.mean(plant) > 0 && !plant.driving ? 0.3 : 1)) * scale) /
      scale;
    write(plant.plc, plant.now, walk.tag, Math.fround(value));
  }
}

/** One up each second while the PLC has power. */
export function* heartbeat(plant: Plant): Script {
  for (;;) {
    yield inSeconds(plant, 1 + 0.0004 * (plant.draw.heart() - 0.5));
    count(plant.plc, plant.now, 'Cartoner.Heartbeat');
  }
}

/** Actual speed, now and then; nothing while the machine stands. */
export function* showSpeed(plant: Plant): Script {
  const draw = plant.draw.speed;
  for (;;) {
    yield inSeconds(plant, uniform(draw, 1.2, 3.2));
    if (!plant.driving) continue;
    const pace = plant.mode === 'produce' ? 1 : 0.6;
    const speed = plant.speedSet * plant.factor * ramp(plant) * plant.dip * pace * (1 + 0.003 * normal(draw));
    write(plant.plc, plant.now, 'Cartoner.SpeedActual', Math.round(speed * 10) / 10);
  }
}

/** Short dips of the speed, a few an hour. */
export function* dips(plant: Plant): Script {
  const draw = plant.draw.speed;
  for (;;) {
    yield inSeconds(plant, exponential(draw, 1_500));
    plant.dip = uniform(draw, 0.78, 0.93);
    yield inSeconds(plant, uniform(draw, 12, 55));
    plant.dip = 1;
  }
}
