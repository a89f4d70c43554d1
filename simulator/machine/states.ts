import { MINUTE, type SECOND } from '../../model/units/units.ts';
import { modes, type ModeName } from '../ledger/entries.ts';
import { reasons } from '../lines/cartoner.ts';
import {
  type Cause,
  inSeconds,
  type Plant,
  producing,
  record,
  type StateName,
  stateNumbers,
} from './plant.ts';
import { shown, write } from './plc.ts';
import { uniform } from './random.ts';

/**
 * Brings the machine into a state: what one scan of the PLC writes together. `cause` goes into the first-out word
 * and the alarm; coming back into Execute clears both.
 */
export function enter(plant: Plant, state: StateName, cause?: Cause): void {
  const before = producing(plant);
  plant.state = state;
  plant.driving = state === 'Execute';
  write(plant.plc, plant.now, 'Cartoner.State', stateNumbers[state]);
  if (cause && !firstOutStands(plant)) write(plant.plc, plant.now, 'Cartoner.FirstOut', cause.number);
  if (cause) showAlarm(plant, cause.number);
  if (state === 'Execute') {
    write(plant.plc, plant.now, 'Cartoner.FirstOut', 0);
    showAlarm(plant, 0);
    plant.slots.crank.next = inSeconds(plant, uniform(plant.draw.crank, 0.05, 0.2));
  }
  follow(plant, before, cause);
}

/** The word keeps the first number until the machine runs again. */
function firstOutStands(plant: Plant): boolean {
  const number = shown(plant.plc, 'Cartoner.FirstOut');
  return typeof number === 'number' && number !== 0;
}

export function setMode(plant: Plant, mode: ModeName): void {
  const before = producing(plant);
  plant.mode = mode;
  const isTrial = plant.variant.trialTag && mode === 'setup';
  write(plant.plc, plant.now, 'Cartoner.Mode', modes[isTrial ? 'produce' : mode]);
  write(plant.plc, plant.now, 'Cartoner.Trial', isTrial);
  follow(plant, before, undefined);
}

/** The alarm now shown; 0 shows none. */
export function showAlarm(plant: Plant, number: number): void {
  write(plant.plc, plant.now, 'Cartoner.AlarmNumber', number);
  write(
    plant.plc,
    plant.now,
    'Cartoner.AlarmText',
    reasons.find((reason) => reason.number === number)?.name ?? '',
  );
}

/** The machine has come to a stand: its angle and its speed are written together. */
export function stand(plant: Plant): void {
  write(plant.plc, plant.now, 'Cartoner.AngleAtStop', Math.round(plant.angle * 10) / 10);
  write(plant.plc, plant.now, 'Cartoner.SpeedActual', 0);
}

function follow(plant: Plant, before: boolean, cause: Cause | undefined): void {
  const after = producing(plant);
  if (before && !after) {
    if (!cause) throw new Error('Mistake in the simulator: production was left without a cause');
    beginStop(plant, cause);
  }
  if (!before && after) endStop(plant);
}

function beginStop(plant: Plant, cause: Cause): void {
  const again = cause.again && plant.residue ? plant.residue : undefined;
  if (!again) plant.episodes += 1;
  plant.fault = undefined;
  plant.stop = {
    begin: plant.now,
    cause,
    episode: again?.episode ?? plant.episodes,
    attempt: again ? again.attempt + 1 : 1,
  };
}

function endStop(plant: Plant): void {
  for (const press of plant.presses) press.restarted ??= plant.now;
  plant.factor = Math.min(plant.factor, 0.6);
  if (plant.stop) record(plant, { ...stopEntry(plant.stop), end: plant.now });
  plant.stop = undefined;
}

/** A stop as the ledger keeps it, without its end. */
export function stopEntry(stop: NonNullable<Plant['stop']>) {
  const { cause } = stop;
  return {
    kind: 'stop' as const,
    begin: stop.begin,
    number: cause.number,
    stopKind: cause.kind,
    ...(cause.station === undefined ? {} : { station: cause.station }),
    episode: stop.episode,
    attempt: stop.attempt,
    by: cause.by,
    ...(cause.truth === undefined ? {} : { truth: cause.truth }),
  };
}

/** Lets the rate creep up from a share of the set speed over some minutes. */
export function rampUp(plant: Plant, from: number, minutes: number): void {
  plant.rampFrom = from;
  plant.rampBegan = plant.now;
  plant.rampLasts = Math.round(minutes * MINUTE) as typeof SECOND;
}

/** A cause by its number in the first-out word. */
export function causeOf(number: number, more: Partial<Cause> = {}): Cause {
  const reason = reasons.find((candidate) => candidate.number === number);
  if (!reason) throw new Error(`Mistake in the simulator: no reason ${number}`);
  const by =
    reason.kind === 'machine'
      ? 'machine'
      : reason.kind === 'starved' || reason.kind === 'blocked'
        ? 'surroundings'
        : 'people';
  return {
    number,
    kind: reason.kind,
    ...(reason.station === undefined ? {} : { station: reason.station }),
    by,
    ...more,
  };
}
