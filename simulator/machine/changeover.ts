import { targetsOf } from '../lines/variant.ts';
import { sizes } from '../lines/cartoner.ts';
import { clearPockets } from './clearing.ts';
import { firstPocket } from './cartons.ts';
import { noteAgain, noteStep } from './notebook.ts';
import { orderAt, type PlannedOrder } from './orders.ts';
import { inSeconds, type OpenChangeover, type Plant, record, type Script } from './plant.ts';
import { nextLot } from './picking.ts';
import { write } from './plc.ts';
import { startUp } from './presses.ts';
import { uniform, whole } from './random.ts';
import { correct, setByBook } from './setter.ts';
import { reckonRisks } from './setpoints.ts';
import { causeOf, enter, rampUp, setMode, stand } from './states.ts';

/** From the end of one order to production of the next. */
export function* changeOver(plant: Plant): Script {
  const draw = plant.draw.setter;
  const next = orderAt(plant.options.orders, plant.options.seed, plant.place + 1);
  plant.changeover = { begin: plant.now, from: plant.order, to: next, trialCartons: 0 };
  yield* leave(plant);
  yield inSeconds(plant, uniform(draw, 4, 20));
  setMode(plant, 'setup');
  yield inSeconds(plant, uniform(draw, 20, 70));
  const sizeChanges = next.size !== plant.order.size;
  takeOrder(plant, next);
  yield inSeconds(plant, uniform(draw, 30, 90));
  nextLot(plant);
  if (sizeChanges) {
    noteStep(plant, 'line-cleared');
    yield* setByBook(plant);
    noteStep(plant, 'cups', 'pocket-plates', 'chute');
  } else yield inSeconds(plant, uniform(draw, 150, 400));
  for (let rounds = sizeChanges ? whole(draw, 1, 3) : 1; rounds > 0; rounds -= 1)
    yield* trial(plant, sizeChanges);
  if (sizeChanges) noteAgain(plant);
  noteStep(plant, 'trial-cartons', 'first-cartons');
  setMode(plant, 'produce');
  rampUp(plant, uniform(draw, 0.62, 0.8), sizeChanges ? uniform(draw, 5, 11) : uniform(draw, 2, 5));
  yield* startUp(plant);
  record(plant, { ...changeoverEntry(plant.changeover), returned: plant.now });
  plant.changeover = undefined;
}

/** A changeover as the ledger keeps it, without its end. */
export function changeoverEntry(open: OpenChangeover) {
  return {
    kind: 'changeover' as const,
    begin: open.begin,
    change: open.from.size === open.to.size ? ('artwork' as const) : ('size' as const),
    fromOrder: open.from.number,
    toOrder: open.to.number,
    fromSize: open.from.size,
    toSize: open.to.size,
    trialCartons: open.trialCartons,
  };
}

function* leave(plant: Plant): Script {
  enter(plant, 'Stopping', causeOf(202));
  yield inSeconds(plant, uniform(plant.draw.setter, 0.7, 1.5));
  enter(plant, 'Stopped');
  stand(plant);
}

/** Order, size and speed of what comes next, written by the panel in one scan. */
function takeOrder(plant: Plant, next: PlannedOrder): void {
  plant.place += 1;
  plant.order = next;
  plant.orderGood = 0;
  plant.orderDone = false;
  plant.setpoints.size = next.size;
  reckonRisks(plant.setpoints);
  write(plant.plc, plant.now, 'Cartoner.Order', next.number);
  write(plant.plc, plant.now, 'Cartoner.Size', sizes.find(({ id }) => id === next.size)?.code ?? 0);
  setSpeed(plant);
}

/** Set speed is the target of the size and crew; the ledger notes it. */
export function setSpeed(plant: Plant): void {
  const target = targetsOf(plant.variant, plant.order.size)[plant.crew] ?? 0;
  plant.speedSet = target;
  write(plant.plc, plant.now, 'Cartoner.SpeedSet', target);
  record(plant, { kind: 'target', at: plant.now, size: plant.order.size, crew: plant.crew, target });
}

/** Some trial cartons in set-up mode, then what they teach. A jam ends the trial and is cleared. */
function* trial(plant: Plant, corrects: boolean): Script {
  const draw = plant.draw.setter;
  yield* startUp(plant);
  yield inSeconds(plant, (whole(draw, 32, 60) * 60) / (plant.speedSet * 0.6));
  if (plant.fault) yield* clearTrialJam(plant);
  else yield* leave(plant);
  if (corrects) yield* correct(plant);
  else yield inSeconds(plant, uniform(draw, 15, 40));
}

function* clearTrialJam(plant: Plant): Script {
  const fault = plant.fault;
  if (!fault) return;
  plant.fault = undefined;
  enter(plant, 'Holding', causeOf(fault.number));
  yield inSeconds(plant, uniform(plant.draw.clearing, 0.5, 1.1));
  enter(plant, 'Held');
  stand(plant);
  yield inSeconds(plant, uniform(plant.draw.clearing, 25, 90));
  clearPockets(plant, fault.station, firstPocket, 0);
  yield inSeconds(plant, uniform(plant.draw.clearing, 4, 15));
  enter(plant, 'Stopping');
  yield inSeconds(plant, uniform(plant.draw.clearing, 0.5, 1));
  enter(plant, 'Stopped');
}
