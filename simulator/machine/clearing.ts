import { countingStations } from '../lines/cartoner.ts';
import { clearedTag } from '../lines/tags.ts';
import { advance, firstPocket, spoil, take, zoneOf } from './cartons.ts';
import { angles, serve } from './crank.ts';
import { fate } from './discharge.ts';
import { type Fault, inSeconds, type Plant, record, type Script } from './plant.ts';
import { count, setLink, write } from './plc.ts';
import { chance, uniform, whole } from './random.ts';
import { setMode } from './states.ts';

/** Which pockets people empty: the jam itself, often the tight section around it, sometimes all up to discharge. */
export function pocketsToClear(plant: Plant, fault: Fault): { readonly from: number; readonly to: number } {
  const draw = plant.draw.clearing;
  const how = draw();
  const upstream = Math.min(firstPocket, fault.distance + whole(draw, 0, 2));
  if (fault.station === 'pick' && how < 0.8) return { from: upstream, to: firstPocket };
  if (how < 0.6) return { from: upstream, to: fault.distance };
  if (how < 0.88) return { from: upstream, to: Math.max(0, fault.distance - whole(draw, 2, 5)) };
  return { from: upstream, to: 0 };
}

/** Takes crushed and loose cartons out by hand, and counts them at the stations they lay in, in one scan. */
export function clearPockets(plant: Plant, station: string, from: number, to: number): void {
  const cleared = new Map<string, number>();
  for (let distance = from; distance >= to; distance -= 1) {
    const carton = take(plant.pockets, distance);
    if (!carton) continue;
    spoil(carton, station, 'crushed in a jam');
    record(plant, fate(plant, carton, 'crushed', undefined));
    const zone = zoneOf(distance);
    cleared.set(zone, (cleared.get(zone) ?? 0) + 1);
  }
  for (const { id } of countingStations) {
    const cartons = cleared.get(id);
    if (cartons === undefined) continue;
    count(plant.plc, plant.now, clearedTag(id), cartons);
    record(plant, { kind: 'crushed', at: plant.now, station: id, cartons, mode: plant.mode });
  }
}

/** Power off at the isolator, for so many seconds: nothing answers, nothing counts. */
export function* lockOut(plant: Plant, seconds: number): Script {
  plant.darkSince = plant.now;
  setLink(plant.plc, plant.now, false);
  yield inSeconds(plant, seconds);
  setLink(plant.plc, plant.now, true);
  record(plant, { kind: 'dark', from: plant.darkSince, to: plant.now });
  plant.darkSince = undefined;
  yield inSeconds(plant, uniform(plant.draw['lock-outs'], 1.5, 6));
}

/** A few cycles by hold-to-run in manual mode, to see whether the section is free. Never production. */
export function* jog(plant: Plant): Script {
  const draw = plant.draw.clearing;
  setMode(plant, 'manual');
  yield inSeconds(plant, uniform(draw, 1, 3));
  write(plant.plc, plant.now, 'Cartoner.Enabling', true);
  for (let cycles = whole(draw, 2, 5); cycles > 0; cycles -= 1) {
    yield inSeconds(plant, uniform(draw, 1.5, 3));
    advance(plant.pockets);
    plant.cycles += 1;
    count(plant.plc, plant.now, 'Cartoner.Cycles');
    for (const { station, distance } of angles) {
      yield inSeconds(plant, uniform(draw, 0.1, 0.3));
      serve(plant, station, distance);
    }
  }
  write(plant.plc, plant.now, 'Cartoner.Enabling', false);
  yield inSeconds(plant, uniform(draw, 1, 3));
  setMode(plant, 'produce');
}

/** Whether this jam is cleared badly, so that what follows meets its rests. */
export function leaveResidue(plant: Plant, station: string): void {
  const stop = plant.stop;
  if (!stop) return;
  plant.residue = chance(plant.draw.clearing, 0.2)
    ? { station, cartons: 9, episode: stop.episode, attempt: stop.attempt }
    : undefined;
}
