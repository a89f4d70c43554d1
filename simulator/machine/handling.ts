import { at, firstPocket, retreat, spoil } from './cartons.ts';
import { clearPockets } from './clearing.ts';
import { angles } from './crank.ts';
import { inSeconds, type Plant, type Script } from './plant.ts';
import { count, write } from './plc.ts';
import { chance, uniform, whole } from './random.ts';
import { setMode } from './states.ts';

/** Who spoiled a carton that no station did, in the ledger. */
export const hands = 'hands';

/**
 * What hands do beyond emptying pockets, where the option says that they do (invented, no source): knock the carton that
 * stays next to them, and jog the machine back to reach the jam. On a stream of its own, so that without it all is as it was.
 */
export function* handle(plant: Plant, station: string, emptiedTo: number): Script {
  if (!plant.options.handling) return;
  if (chance(plant.draw.handling, 0.25)) knock(plant, emptiedTo - 1);
  if (chance(plant.draw.handling, 0.2)) yield* jogBack(plant, station);
}

function knock(plant: Plant, distance: number): void {
  const carton = distance > 0 ? at(plant.pockets, distance) : undefined;
  if (!carton) return;
  carton.square = false;
  spoil(carton, hands, 'knocked by hand');
}

/** A few cycles backwards by hold-to-run. The PLC counts a cycle whichever way the machine turns. */
function* jogBack(plant: Plant, station: string): Script {
  const draw = plant.draw.handling;
  setMode(plant, 'manual');
  yield inSeconds(plant, uniform(draw, 1, 3));
  write(plant.plc, plant.now, 'Cartoner.Enabling', true);
  for (let cycles = whole(draw, 1, 3); cycles > 0; cycles -= 1) {
    yield inSeconds(plant, uniform(draw, 1.5, 3));
    clearPockets(plant, station, firstPocket, firstPocket);
    retreat(plant.pockets);
    plant.cycles += 1;
    count(plant.plc, plant.now, 'Cartoner.Cycles');
    for (const angle of angles) pushBack(plant, angle.station, angle.distance);
  }
  write(plant.plc, plant.now, 'Cartoner.Enabling', false);
  yield inSeconds(plant, uniform(draw, 1, 3));
  setMode(plant, 'produce');
}

/** A carton that a station had worked on comes back through it, and may be bent there. */
function pushBack(plant: Plant, station: string, distance: number): void {
  const carton = at(plant.pockets, distance);
  if (!carton || carton.served > distance) return;
  carton.jogged = true;
  if (!chance(plant.draw.handling, 0.04)) return;
  carton.square = false;
  spoil(carton, station, 'pushed back');
}
