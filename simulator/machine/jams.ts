import { noteMoved } from './notebook.ts';
import { HOUR } from '../../model/units/units.ts';
import { adjustments } from '../lines/cartoner.ts';
import { clearPockets, jog, leaveResidue, lockOut, pocketsToClear } from './clearing.ts';
import { handle } from './handling.ts';
import { closeGuard, guardOver, openGuard } from './guarding.ts';
import { type Fault, inSeconds, type Plant, type Script } from './plant.ts';
import { abort, press, release, reset, someButton, startUp } from './presses.ts';
import { chance, lognormal, uniform } from './random.ts';
import { causeOf, enter, showAlarm, stand } from './states.ts';
import { adjust, rightNow } from './setter.ts';

/** A jam, from the scan that finds it to the machine running again. */
export function* jamStop(plant: Plant, fault: Fault): Script {
  const draw = plant.draw.clearing;
  enter(plant, 'Holding', causeOf(fault.number, { again: fault.again }));
  plant.jamsOfLate = [
    ...plant.jamsOfLate.filter(({ at }) => plant.now - at < HOUR),
    { station: fault.station, at: plant.now },
  ];
  yield inSeconds(plant, uniform(draw, 0.5, 1.1));
  enter(plant, 'Held');
  stand(plant);
  yield inSeconds(plant, lognormal(draw, 8, 0.5, 2, 60));
  const pressed = chance(plant.draw.presses, 0.11) ? press(plant, someButton(plant), 'jam') : undefined;
  if (pressed) yield* abort(plant);
  yield* clearByHand(plant, fault);
  if (!pressed) return yield* takeUp(plant);
  release(plant, pressed);
  yield* reset(plant);
  yield* startUp(plant);
}

/** Guard open, cartons out, guard closed; sometimes with the power locked out, sometimes with a jog. */
function* clearByHand(plant: Plant, fault: Fault): Script {
  const draw = plant.draw.clearing;
  const seconds = lognormal(draw, 42, 0.75, 9, 900) + (fault.again ? 15 : 0);
  const door = chance(draw, 0.8) ? guardOver(fault.distance) : undefined;
  const opened = door ? openGuard(plant, door) : undefined;
  if (opened) {
    yield inSeconds(plant, uniform(draw, 0.01, 0.03));
    showAlarm(plant, 302);
  }
  yield inSeconds(plant, seconds * 0.3);
  if (plant.options.lockOuts && seconds > 40 && chance(plant.draw['lock-outs'], 0.3)) {
    yield* lockOut(plant, seconds * uniform(plant.draw['lock-outs'], 0.5, 1.1));
  } else yield inSeconds(plant, seconds * 0.5);
  const { from, to } = pocketsToClear(plant, fault);
  clearPockets(plant, fault.station, from, to);
  leaveResidue(plant, fault.station);
  yield inSeconds(plant, seconds * 0.1 + 1);
  yield* handle(plant, fault.station, to);
  if (worse(plant, fault.station)) yield* repair(plant, fault.station);
  if (chance(draw, 0.09)) yield* jog(plant);
  if (!opened) return;
  yield inSeconds(plant, uniform(draw, 1, 4));
  closeGuard(plant, opened);
  yield inSeconds(plant, uniform(draw, 0.01, 0.03));
  showAlarm(plant, fault.number);
}

/** Held to running again, by the start button. */
export function* takeUp(plant: Plant): Script {
  const draw = plant.draw.people;
  yield inSeconds(plant, uniform(draw, 1.5, 6));
  enter(plant, 'Unholding');
  yield inSeconds(plant, uniform(draw, 0.9, 1.6));
  enter(plant, 'Execute');
}

/** Three jams at one station within an hour, and somebody looks at its adjustments. */
function worse(plant: Plant, station: string): boolean {
  return plant.jamsOfLate.filter((jam) => jam.station === station).length >= 3;
}

function* repair(plant: Plant, station: string): Script {
  const draw = plant.draw.setter;
  for (const facts of adjustments.filter((candidate) => candidate.station === station)) {
    yield inSeconds(plant, lognormal(draw, 70, 0.5, 25, 400));
    adjust(plant, facts, rightNow(plant, facts, 0.4), 'repair');
    noteMoved(plant, facts);
    if (plant.loose?.number === facts.number) plant.loose = undefined;
  }
  plant.jamsOfLate = plant.jamsOfLate.filter((jam) => jam.station !== station);
  plant.residue = undefined;
}
