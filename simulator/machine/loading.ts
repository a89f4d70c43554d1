import { notLoadedTag } from '../lines/tags.ts';
import { positionsOf, type Variant } from '../lines/variant.ts';
import { type Carton, spoil } from './cartons.ts';
import { jam, meetResidue } from './faults.ts';
import type { Loader, Plant } from './plant.ts';
import { count } from './plc.ts';
import { chance, stream, uniform, whole } from './random.ts';

/** Loading positions, each with a pace of its own. */
export function loadersOf(variant: Variant, seed: number): Loader[] {
  return positionsOf(variant).map((position) => {
    const draw = stream(seed, `pace ${position.id}`);
    const slips = position.id === 'loader' ? uniform(draw, 0.0004, 0.0009) : uniform(draw, 0.0012, 0.0032);
    return { position, slips, behind: 0 };
  });
}

/** The pocket comes to its position: product goes in, or hands are behind, or a loose flap is in the way. */
export function loadCarton(plant: Plant, distance: number, carton: Carton): void {
  const loader = plant.loaders[plant.cycles % plant.loaders.length];
  if (!loader) return;
  if (!carton.captured) return meetFlap(plant, distance, carton, loader);
  if (meetResidue(plant, 'loading')) return jam(plant, 71, 'loading', distance, true);
  if (handsBehind(plant, loader)) leaveEmpty(plant, carton, loader);
}

/** A top flap that was not captured lies across the opening. */
function meetFlap(plant: Plant, distance: number, carton: Carton, loader: Loader): void {
  const draw = plant.draw.loading;
  if (plant.mode !== 'manual' && chance(draw, 0.035)) return jam(plant, 71, 'loading', distance);
  if (chance(draw, 0.35)) return leaveEmpty(plant, carton, loader);
  carton.topMajor = false;
}

function handsBehind(plant: Plant, loader: Loader): boolean {
  const draw = plant.draw.loading;
  if (loader.behind > 0) {
    loader.behind -= 1;
    return chance(draw, 0.35);
  }
  if (chance(draw, 0.0003)) loader.behind = whole(draw, 4, 14);
  return chance(draw, loader.slips);
}

function leaveEmpty(plant: Plant, carton: Carton, loader: Loader): void {
  carton.loaded = false;
  carton.position = loader.position.id;
  spoil(carton, 'loading', 'not loaded');
  count(plant.plc, plant.now, notLoadedTag(loader.position.id));
}
