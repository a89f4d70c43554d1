import type { Instant, Span } from '../../model/units/units.ts';
import type { LedgerEntry } from '../ledger/entries.ts';
import { adjustments, sizes } from '../lines/cartoner.ts';
import { tagsOf } from '../lines/tags.ts';
import { crewsOf } from '../lines/variant.ts';
import { emptyPockets, firstPocket, newCarton, put } from './cartons.ts';
import { changeoverEntry, setSpeed } from './changeover.ts';
import { crank } from './crank.ts';
import { guardOpenWhileRunning } from './guarding.ts';
import { life } from './life.ts';
import { loadersOf } from './loading.ts';
import { type MachineOptions, type Settled, settleOptions } from './options.ts';
import { orderAt } from './orders.ts';
import { lotName } from './picking.ts';
import type { Noted } from './notebook.ts';
import { drawsOf, NEVER, type Plant, record, type Script, type Slot } from './plant.ts';
import { createPlc, type PlcFact, presentWrites, type TagValue } from './plc.ts';
import { stream, whole } from './random.ts';
import { dips, heartbeat, sense, showSpeed, walks } from './senses.ts';
import { createSetpoints } from './setpoints.ts';
import { stopEntry } from './states.ts';
import { workLoose } from './setter.ts';

/** The simulated cartoner. What is inside is its own; ask it by the functions of this file. */
export interface Machine {
  readonly plant: Plant;
  readonly slots: readonly Slot[];
}

/** A machine that runs from `options.start` on, already in production and with cartons in its pockets. */
export function startMachine(options: MachineOptions): Machine {
  const plant = createPlant(settleOptions(options));
  const slot = (script: Script, next: Instant = plant.options.start): Slot => ({ script, next });
  plant.slots.life.script = life(plant);
  plant.slots.crank.script = crank(plant);
  const slots = [
    slot(boot(plant)),
    plant.slots.life,
    plant.slots.crank,
    slot(heartbeat(plant)),
    slot(showSpeed(plant)),
    slot(dips(plant)),
    slot(sense(plant, walks.vacuum, plant.draw.vacuum)),
    slot(sense(plant, walks.air, plant.draw.air)),
    slot(sense(plant, walks.drive, plant.draw.drive)),
    slot(guardOpenWhileRunning(plant)),
    slot(workLoose(plant)),
  ];
  return { plant, slots };
}

/**
 * Runs up to, and not including, a moment; answers what the PLC told since the last call, in time order. However
 * the way is divided into calls, the machine does the same. No two scans share a tick.
 */
export function runUntil(machine: Machine, at: Instant): readonly PlcFact[] {
  const { plant, slots } = machine;
  for (;;) {
    let first = slots[0] as Slot;
    for (const slot of slots) if (slot.next < first.next) first = slot;
    const now = Math.max(first.next, plant.now + 1) as Instant;
    if (now >= at) break;
    plant.now = now;
    const step = first.script.next();
    if (!step.done) first.next = step.value;
    else first.next = NEVER;
  }
  const { told } = plant.plc;
  plant.plc.told = [];
  return told;
}

/** Takes what the ledger has gained since the last call. What has not ended yet is not among it: see `openEntries`. */
export function takeEntries(machine: Machine): readonly LedgerEntry[] {
  const { entries } = machine.plant;
  machine.plant.entries = [];
  return entries;
}

/** Takes what people wrote down since the last call. */
export function takeNotes(machine: Machine): readonly Noted[] {
  const { notebook } = machine.plant;
  machine.plant.notebook = [];
  return notebook;
}

/** What is under way now, as ledger entries without an end. */
export function openEntries({ plant }: Machine): readonly LedgerEntry[] {
  return [
    ...(plant.stop ? [stopEntry(plant.stop)] : []),
    ...plant.presses.map(({ tag: _tag, ...facts }) => ({ kind: 'press' as const, ...facts })),
    ...(plant.changeover ? [changeoverEntry(plant.changeover)] : []),
    ...(plant.pause ? [{ kind: 'pause' as const, ...plant.pause }] : []),
    ...plant.guards.map(({ tag: _tag, ...facts }) => ({ kind: 'guard' as const, ...facts })),
    ...(plant.darkSince === undefined ? [] : [{ kind: 'dark' as const, from: plant.darkSince }]),
  ];
}

/** Present values as facts of the present moment: what a server that has just begun to listen shows. */
export function presentFacts({ plant }: Machine): readonly PlcFact[] {
  const writes = presentWrites(plant.plc);
  return plant.plc.dark ? [...writes, { at: plant.now, link: false }] : writes;
}

/** When something happens next. */
export function nextAt({ slots }: Machine): Instant {
  return Math.min(...slots.map(({ next }) => next)) as Instant;
}

/** Cartons that lie in pockets now. */
export function cartonsInPockets(machine: Machine): number {
  return machine.plant.pockets.filled;
}

function createPlant(options: Settled): Plant {
  const { seed, variant, start } = options;
  const order = orderAt(options.orders, seed, 0);
  const lot = whole(stream(seed, 'first lot'), 2_100, 8_900);
  const setpoints = createSetpoints(seed, variant.tuck, order.size, lot);
  const idle = (): Slot => ({ next: start, script: sleep() });
  return {
    options,
    variant,
    setpoints,
    order,
    draw: drawsOf(seed),
    pockets: emptyPockets(),
    loaders: loadersOf(variant, seed),
    plc: createPlc(tagsOf(variant), firstValues(options, setpoints.actual, lot), start),
    crew: crewsOf(variant).assumed,
    slots: { life: idle(), crank: idle() },
    entries: [],
    notebook: [],
    now: (start - 1) as Instant,
    state: 'Execute',
    mode: 'produce',
    driving: true,
    angle: 0,
    cycles: 0,
    cartons: 0,
    speedSet: 0,
    factor: 1,
    dip: 1,
    rampFrom: 1,
    rampBegan: start,
    rampLasts: 0 as Span,
    fault: undefined,
    stop: undefined,
    episodes: 0,
    place: 0,
    orderGood: options.madeBefore,
    orderDone: false,
    lotLeft: 4_000,
    missesInRow: 0,
    missesToCome: 0,
    residue: undefined,
    loose: undefined,
    jamsOfLate: [],
    presses: [],
    guards: [],
    changeover: undefined,
    pause: undefined,
    darkSince: undefined,
  };
}

function* sleep(): Script {
  for (;;) yield NEVER;
}

/** The first scan: every tag is told, the pockets hold cartons already. */
function* boot(plant: Plant): Script {
  for (let distance = 1; distance <= firstPocket; distance += 1) {
    plant.cartons += 1;
    put(plant.pockets, distance, newCarton(plant.cartons, plant.now, plant.order.size));
  }
  record(plant, { kind: 'start', at: plant.now, seed: plant.options.seed, inPockets: plant.pockets.filled });
  setSpeed(plant);
  plant.plc.told = presentWrites(plant.plc);
  yield NEVER;
}

/** Counters begin anywhere, the 32-bit ones near their end, so that they roll over within days. */
function firstValues(
  options: Settled,
  settings: ReadonlyMap<string, number>,
  lot: number,
): Map<string, TagValue> {
  const draw = stream(options.seed, 'counters at start');
  const values = new Map<string, TagValue>();
  const ofSensors = stream(options.seed, 'near misses at start');
  for (const { role, tag, width } of tagsOf(options.variant)) {
    if (role === 'nearMissCount') {
      values.set(tag, whole(ofSensors, 0, 65_535));
      continue;
    }
    if (width === 16) values.set(tag, whole(draw, 0, 65_535));
    if (width === 32) values.set(tag, 2 ** 32 - whole(draw, 1, 250_000));
  }
  const order = orderAt(options.orders, options.seed, 0);
  for (const { number, tag } of adjustments)
    if (tag !== undefined) values.set(tag, settings.get(number) ?? 0);
  return values
    .set('Cartoner.State', 6)
    .set('Cartoner.Mode', 1)
    .set('Cartoner.Order', order.number)
    .set('Cartoner.Size', sizes.find(({ id }) => id === order.size)?.code ?? 0)
    .set('Magazine.BoardLot', lotName(lot))
    .set('Cartoner.ProgramVersion', 'cartoner 4.2.0')
    .set('Pick.Vacuum', -58)
    .set('Cartoner.AirPressure', Math.fround(6.05))
    .set('Cartoner.MainDriveLoad', 52);
}
