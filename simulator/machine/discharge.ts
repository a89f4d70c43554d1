import type { CartonEntry } from '../ledger/entries.ts';
import { type RejectId, rejects } from '../lines/cartoner.ts';
import { presentedTag } from '../lines/tags.ts';
import { type Carton, spoil, take } from './cartons.ts';
import { jam } from './faults.ts';
import { type Plant, producing, record } from './plant.ts';
import { count } from './plc.ts';
import { chance } from './random.ts';

/** The discharge check: the carton leaves its pocket, and one scan counts what it is. */
export function discharge(plant: Plant, carton: Carton): void {
  if (plant.mode === 'produce' && chance(plant.draw.folds, 0.000012)) {
    spoil(carton, 'discharge', 'jammed');
    return jam(plant, 112, 'discharge', 0);
  }
  take(plant.pockets, 0);
  carton.printed = !chance(plant.draw.folds, 0.0004);
  if (!carton.printed) spoil(carton, 'discharge', 'code not read');
  count(plant.plc, plant.now, presentedTag('discharge'));
  const reason = reasonOf(carton);
  if (reason === undefined) return pass(plant, carton);
  count(plant.plc, plant.now, rejects.find(({ id }) => id === reason)?.tag ?? '');
  record(plant, fate(plant, carton, reason === 'empty' ? 'notLoaded' : 'rejected', reason));
}

/** What the check can tell, and in which order it tells it. */
function reasonOf(carton: Carton): RejectId | undefined {
  if (!carton.square) return 'crushed';
  if (!carton.loaded) return 'empty';
  if (!carton.bottomMinor || !carton.bottomMajor) return 'bottom-open';
  if (!carton.topMinor || !carton.topMajor) return 'top-open';
  return carton.printed ? undefined : 'code';
}

function pass(plant: Plant, carton: Carton): void {
  count(plant.plc, plant.now, 'Discharge.Good');
  record(plant, fate(plant, carton, 'good', undefined));
  if (plant.changeover && plant.mode === 'setup') plant.changeover.trialCartons += 1;
  if (!producing(plant)) return;
  plant.orderGood += 1;
  closePresses(plant);
}

/** A press is closed by the first good carton after its restart. */
function closePresses(plant: Plant): void {
  if (plant.presses.length === 0) return;
  for (const press of plant.presses) {
    if (press.restarted === undefined) continue;
    const { tag: _tag, ...facts } = press;
    record(plant, { kind: 'press', ...facts, firstGood: plant.now });
  }
  plant.presses = plant.presses.filter(({ restarted }) => restarted === undefined);
}

/** A carton's end, as the ledger keeps it. */
export function fate(
  plant: Plant,
  carton: Carton,
  what: CartonEntry['fate'],
  reason: RejectId | undefined,
): CartonEntry {
  return {
    kind: 'carton',
    id: carton.id,
    picked: carton.picked,
    at: plant.now,
    fate: what,
    mode: plant.mode,
    size: carton.size,
    ...(reason === undefined ? {} : { reason }),
    ...(carton.spoiledBy === undefined || what === 'good'
      ? {}
      : { spoiledBy: carton.spoiledBy, how: carton.how ?? '' }),
    ...(carton.position === undefined || what !== 'notLoaded' ? {} : { position: carton.position }),
  };
}
