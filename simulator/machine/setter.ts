import { type AdjustmentFacts, adjustments } from '../lines/cartoner.ts';
import type { AdjustedEntry } from '../ledger/entries.ts';
import { noteMoved, noteNumber } from './notebook.ts';
import { inSeconds, type Plant, record, type Script } from './plant.ts';
import { write } from './plc.ts';
import { chance, exponential, normal, pick, uniform } from './random.ts';
import { adjustment, deviation, reckonRisks, rightValue, settle, tolerance } from './setpoints.ts';

/** Moves one adjustment. An encoder, where there is one, shows it. */
export function adjust(plant: Plant, facts: AdjustmentFacts, value: number, why: AdjustedEntry['why']): void {
  const before = plant.setpoints.actual.get(facts.number) ?? 0;
  const after = settle(facts, value);
  if (after === before) return;
  plant.setpoints.actual.set(facts.number, after);
  reckonRisks(plant.setpoints);
  if (facts.tag !== undefined) write(plant.plc, plant.now, facts.tag, after);
  record(plant, {
    kind: 'adjusted',
    at: plant.now,
    number: facts.number,
    from: before,
    to: after,
    right: rightValue(plant.setpoints, facts),
    why,
  });
}

/** Near the right value, as well as somebody with an eye on the cartons finds it. */
export function rightNow(plant: Plant, facts: AdjustmentFacts, spread: number): number {
  return rightValue(plant.setpoints, facts) + spread * tolerance(facts) * normal(plant.draw.setter);
}

/** Every adjustment to the book's number for the new size: read by eye, now and then by a wrong line of the sheet. */
export function* setByBook(plant: Plant): Script {
  const draw = plant.draw.setter;
  plant.loose = undefined;
  for (const facts of adjustments) {
    const target = facts.book[plant.setpoints.size];
    const before = plant.setpoints.actual.get(facts.number) ?? target;
    yield inSeconds(plant, uniform(draw, 18, 70));
    adjust(plant, facts, before + (target - before) * uniform(draw, 0.5, 0.9), 'changeover');
    yield inSeconds(plant, uniform(draw, 6, 25));
    const slip = chance(draw, 0.05) ? 2.2 : 0.45;
    adjust(plant, facts, target + slip * tolerance(facts) * normal(draw), 'changeover');
    noteNumber(plant, facts);
  }
}

/** After trial cartons: what is clearly off is moved toward right, most of the time. */
export function* correct(plant: Plant): Script {
  const draw = plant.draw.setter;
  for (const facts of adjustments) {
    const off = Math.abs(deviation(plant.setpoints, facts));
    if (off < 0.9 || !chance(draw, 0.75)) continue;
    yield inSeconds(plant, uniform(draw, 12, 45));
    adjust(plant, facts, rightNow(plant, facts, 0.4), 'trial');
    noteMoved(plant, facts);
  }
}

/** Now and then a guide works loose: it creeps away from where it was set, until somebody notices. */
export function* workLoose(plant: Plant): Script {
  const draw = plant.draw.drift;
  for (;;) {
    yield inSeconds(plant, exponential(draw, 22 * 3_600));
    const number = pick(draw, ['4.2', '5.1', '5.2', '9.1', '6.1'], (name) => (name === '5.2' ? 3 : 1));
    plant.loose = { number, perHour: uniform(draw, 0.4, 1.1) * (chance(draw, 0.5) ? 1 : -1), carried: 0 };
    while (plant.loose?.number === number) {
      yield inSeconds(plant, uniform(draw, 50, 70));
      creep(plant);
    }
  }
}

/** A guide moves only while the machine shakes it. */
function creep(plant: Plant): void {
  const { loose } = plant;
  if (!loose || !plant.driving) return;
  const facts = adjustment(loose.number);
  loose.carried += (loose.perHour * tolerance(facts)) / 60;
  const step = 10 ** -facts.decimals;
  if (Math.abs(loose.carried) < step || Math.abs(deviation(plant.setpoints, facts)) > 3.5) return;
  const before = plant.setpoints.actual.get(loose.number) ?? 0;
  const moved = Math.trunc(loose.carried / step) * step;
  loose.carried -= moved;
  adjust(plant, facts, before + moved, 'drift');
}
