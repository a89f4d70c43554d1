import { MINUTE } from '../../model/units/units.ts';
import { stations } from '../lines/cartoner.ts';
import { presentedTag } from '../lines/tags.ts';
import { advance, at } from './cartons.ts';
import { inSeconds, NEVER, type Plant, type Script } from './plant.ts';
import { count } from './plc.ts';
import { normal } from './random.ts';
import { discharge } from './discharge.ts';
import { pickBlank } from './picking.ts';
import { work } from './work.ts';

/** Where each station works: its pocket, and the share of a cycle; each in a scan of its own. */
export const angles: readonly {
  readonly station: string;
  readonly distance: number;
  readonly share: number;
}[] = stations
  .filter(({ id }) => id !== 'magazine')
  .map(({ id, pockets }, index) => ({ station: id, distance: pockets, share: 0.08 + index * 0.092 }));

/** The crank turns while the machine is in Execute; where it stops within a cycle, it goes on. */
export function* crank(plant: Plant): Script {
  for (;;) {
    const cycle = cycleSeconds(plant);
    yield* turn(plant, cycle * 0.04, 0);
    advance(plant.pockets);
    plant.cycles += 1;
    count(plant.plc, plant.now, 'Cartoner.Cycles');
    let share = 0.04;
    for (const angle of angles) {
      yield* turn(plant, cycle * (angle.share - share), angle.share);
      share = angle.share;
      serve(plant, angle.station, angle.distance);
    }
    yield* turn(plant, cycle * (1 - share), 1);
  }
}

/** Turns on for some seconds; sleeps while the machine stands, and goes on from there when it is woken. */
function* turn(plant: Plant, seconds: number, share: number): Script {
  while (!plant.driving) yield NEVER;
  const jitter = 1 + 0.03 * (plant.draw.crank() - 0.5);
  yield inSeconds(plant, seconds * jitter);
  while (!plant.driving) yield NEVER;
  plant.angle = share * 360;
}

/** One station's work on whatever lies in its pocket now. Also what a jog does by hand. */
export function serve(plant: Plant, station: string, distance: number): void {
  if (station === 'pick') return pickBlank(plant);
  const carton = at(plant.pockets, distance);
  if (!carton || (carton.jogged && carton.served <= distance)) return;
  carton.served = distance;
  if (station === 'discharge') return discharge(plant, carton);
  count(plant.plc, plant.now, presentedTag(station));
  work(plant, station, distance, carton);
}

/** One cycle at the speed that is reached now: set speed, less what it creeps, dips and spins up. */
function cycleSeconds(plant: Plant): number {
  plant.factor = plant.factor < 0.99 ? plant.factor + 0.5 * (1 - plant.factor) : 1;
  return (
    (MINUTE / 10_000_000 / (plant.speedSet * plant.factor * ramp(plant) * plant.dip * trialPace(plant))) *
    (1 + 0.004 * normal(plant.draw.crank))
  );
}

const trialPace = (plant: Plant) => (plant.mode === 'produce' ? 1 : 0.6);

/** Share of the set speed while the rate creeps up after a changeover; 1 when that is over. */
export function ramp(plant: Plant): number {
  const gone = plant.now - plant.rampBegan;
  return gone >= plant.rampLasts ? 1 : plant.rampFrom + (1 - plant.rampFrom) * (gone / plant.rampLasts);
}
