import { presentedTag } from '../lines/tags.ts';
import { firstPocket, newCarton, put } from './cartons.ts';
import { jam } from './faults.ts';
import { inSeconds, type Plant, record } from './plant.ts';
import { count, write } from './plc.ts';
import { chance, whole } from './random.ts';
import { reckonRisks } from './setpoints.ts';

const missesToStop = 3;

/** Picks a blank into the first pocket, misses it, or leaves the pocket empty because the order needs no more. */
export function pickBlank(plant: Plant): void {
  if (plant.mode === 'manual' || endOfOrder(plant)) return;
  if (missed(plant)) return miss(plant);
  plant.missesInRow = 0;
  plant.cartons += 1;
  put(plant.pockets, firstPocket, newCarton(plant.cartons, plant.now, plant.order.size));
  count(plant.plc, plant.now, 'Pick.Blanks');
  count(plant.plc, plant.now, presentedTag('pick'));
  plant.lotLeft -= 1;
  if (plant.lotLeft <= 0) nextLot(plant);
}

/** In production, the machine picks no more than the order needs, and runs empty. */
function endOfOrder(plant: Plant): boolean {
  if (plant.mode !== 'produce') return false;
  if (plant.orderGood + plant.pockets.filled < plant.order.quantity) return false;
  if (plant.pockets.filled === 0 && !plant.orderDone) {
    plant.orderDone = true;
    plant.slots.life.next = inSeconds(plant, 0.003);
  }
  return true;
}

function missed(plant: Plant): boolean {
  if (plant.missesToCome > 0) {
    plant.missesToCome -= 1;
    return true;
  }
  if (!chance(plant.draw.picks, plant.setpoints.risks.get('pick') ?? 0)) return false;
  plant.missesToCome = chance(plant.draw.picks, 0.02) ? missesToStop - 1 : 0;
  return true;
}

function miss(plant: Plant): void {
  count(plant.plc, plant.now, 'Pick.Missed');
  record(plant, { kind: 'missed', at: plant.now, mode: plant.mode });
  plant.missesInRow += 1;
  if (plant.missesInRow < missesToStop) return;
  plant.missesInRow = 0;
  jam(plant, 21, 'pick', firstPocket);
}

/** Another lot of board: it folds a little differently, and nobody moves an adjustment for it. */
export function nextLot(plant: Plant): void {
  plant.setpoints.lot += 1;
  plant.lotLeft = whole(plant.draw.picks, 6_000, 9_500);
  reckonRisks(plant.setpoints);
  const lot = lotName(plant.setpoints.lot);
  write(plant.plc, plant.now, 'Magazine.BoardLot', lot);
  record(plant, { kind: 'lot', at: plant.now, lot });
}

export const lotName = (lot: number): string => `B${lot}`;
