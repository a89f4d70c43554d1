import { inSeconds, type Plant } from './plant.ts';
import { chance, uniform } from './random.ts';

/** Stops the crank where it is; the scan that follows finds it and takes the machine out of production. */
export function jam(plant: Plant, number: number, station: string, distance: number, again = false): void {
  if (plant.fault) return;
  plant.fault = { number, station, distance, again };
  plant.driving = false;
  plant.slots.life.next = inSeconds(plant, uniform(plant.draw.clearing, 0.0004, 0.009));
}

/** A carton meets the rests of a jam that was not cleared well. */
export function meetResidue(plant: Plant, station: string): boolean {
  const residue = plant.residue;
  if (!residue || residue.station !== station) return false;
  residue.cartons -= 1;
  if (residue.cartons <= 0) {
    plant.residue = undefined;
    return false;
  }
  return chance(plant.draw.clearing, 0.2);
}
