import { nearMissTag } from '../lines/tags.ts';
import type { Plant } from './plant.ts';
import { count } from './plc.ts';
import { chance } from './random.ts';

/** What a station's own sensor is worth (invented, no source): share of misfolds it sees, and of good folds it takes for one. */
const sensors: Readonly<Record<string, { readonly sees: number; readonly errs: number }>> = {
  open: { sees: 0.6, errs: 0.0012 },
  'bottom-minor': { sees: 0.7, errs: 0.0016 },
  'bottom-major': { sees: 0.85, errs: 0.0009 },
  capture: { sees: 0.8, errs: 0.0008 },
  'top-minor': { sees: 0.55, errs: 0.0021 },
  'top-major': { sees: 0.85, errs: 0.001 },
  'tuck-cam': { sees: 0.7, errs: 0.0005 },
};

/** A fold is done, well or badly: a sensor of the station may count it as a near miss, rightly or not. Nothing stops for it. */
export function senseFold(plant: Plant, station: string, misfolded: boolean): void {
  const sensor = plant.variant.nearMisses ? sensors[station] : undefined;
  if (!sensor || !chance(plant.draw.sensors, misfolded ? sensor.sees : sensor.errs)) return;
  count(plant.plc, plant.now, nearMissTag(station));
}
