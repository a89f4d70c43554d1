import { type Carton, spoil } from './cartons.ts';
import { jam, meetResidue } from './faults.ts';
import { loadCarton } from './loading.ts';
import type { Plant } from './plant.ts';
import { chance } from './random.ts';
import { senseFold } from './sensors.ts';

/** Stop number, share of misfolds that jam, and share that shows as a bad carton, by station (invented, no source). */
const outcomes: Readonly<
  Record<string, { readonly number: number; readonly jams: number; readonly shows: number }>
> = {
  open: { number: 31, jams: 0.055, shows: 1 },
  'bottom-minor': { number: 41, jams: 0.016, shows: 0.5 },
  'bottom-major': { number: 51, jams: 0.018, shows: 0.95 },
  capture: { number: 61, jams: 0.02, shows: 1 },
  'top-minor': { number: 81, jams: 0.016, shows: 0.7 },
  'top-major': { number: 91, jams: 0.018, shows: 0.95 },
  'tuck-cam': { number: 101, jams: 0.055, shows: 1 },
};

/** A station folds a carton, well or badly; badly may mean a jam. */
export function work(plant: Plant, station: string, distance: number, carton: Carton): void {
  if (station === 'loading') return loadCarton(plant, distance, carton);
  const outcome = outcomes[station];
  if (!outcome) return;
  if (meetResidue(plant, station)) {
    spoil(carton, station, 'met rests of a jam');
    return jam(plant, outcome.number, station, distance, true);
  }
  const misfolds = chance(plant.draw.folds, risk(plant, station, carton));
  senseFold(plant, station, misfolds);
  if (!misfolds) return;
  if (
    plant.mode !== 'manual' &&
    chance(plant.draw.folds, Math.min(0.6, outcome.jams * plant.options.lively))
  ) {
    spoil(carton, station, 'jammed');
    return jam(plant, outcome.number, station, distance);
  }
  if (chance(plant.draw.folds, outcome.shows)) misfold(station, carton);
}

/** A flap that an earlier station left wrong is hard to fold right; a cold start folds worse. */
function risk(plant: Plant, station: string, carton: Carton): number {
  const own = plant.setpoints.risks.get(station) ?? 0;
  const inherited =
    station === 'bottom-major' && !carton.bottomMinor
      ? 0.4
      : station === 'top-major' && !carton.topMinor
        ? 0.4
        : 0;
  return Math.min(0.9, own * (plant.mode === 'produce' ? 1 : 2.5) + inherited);
}

function misfold(station: string, carton: Carton): void {
  switch (station) {
    case 'open':
      carton.square = false;
      return spoil(carton, station, 'out of square');
    case 'bottom-minor':
      carton.bottomMinor = false;
      return spoil(carton, station, 'minor flap not in');
    case 'bottom-major':
      carton.bottomMajor = false;
      return spoil(carton, station, 'fold off the score');
    case 'capture':
      carton.captured = false;
      return spoil(carton, station, 'flap not captured');
    case 'top-minor':
      carton.topMinor = false;
      return spoil(carton, station, 'minor flap not in');
    case 'top-major':
      carton.topMajor = false;
      return spoil(carton, station, 'fold off the score');
    default:
      carton.square = false;
      return spoil(carton, station, 'crushed');
  }
}
