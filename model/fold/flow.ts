import type { CounterStep } from '../counters/counters.ts';
import type { Role, Signal } from '../signals/signals.ts';
import type { Instant } from '../units/units.ts';
import { isHeard } from './gaps.ts';
import type { LineIndex } from './lineIndex.ts';
import type { Stepping } from './stepping.ts';

/**
 * [BA1] Blanks and cartons in any mode, since the line was first heard: what was picked, what became of it, and what lies
 * in the pockets now. Whole numbers, also below zero where more came than was picked.
 */
export interface FlowRecord {
  picked: number;
  good: number;
  /** Empty cartons among them: each was a blank, too. */
  rejected: number;
  crushed: number;
  /** Cartons taken to lie in each pocket by its distance to the discharge check, and behind the pick: see `BEHIND`. */
  pockets: number[];
  /** What the last cycles took out of the last pocket uncounted, and when. */
  passed: number[];
  passedAt: number;
  /** Cartons counted since in the pocket at the check, and of those in the one that was there before. */
  counted: number;
  countedBefore: number;
  /** Cycles that have to pass before the pockets are known. */
  unsettled: number;
  /** The balance begins anew when they are: what it was told to be last is what it goes on from. */
  anew: boolean;
  base: number;
  /** Blanks picked that nothing accounts for, as last told while the pockets were known. */
  unaccounted: number;
  /** So many more are missing than that, or fewer, at least, for so many cycles. */
  apart: number;
  apartFor: number;
}

/** As it is kept by the minute: picked, good, rejected, crushed, in pockets, unaccounted; the last two null while not known. */
export type FlowTold = readonly [number, number, number, number, number | null, number | null];

/** More cycles or cartons than this at once were not seen one by one. */
const AT_ONCE_MOST = 3;
/** Places behind the pick into which a reverse jog may bring cartons. */
const BEHIND = 6;

/** Null for a line without a counter of blanks, of cycles or of good cartons, or whose pick has no pocket. */
export function freshFlow(index: LineIndex): FlowRecord | null {
  const distance = pickDistance(index);
  if (distance === undefined) return null;
  const pockets = new Array<number>(distance + 1 + BEHIND).fill(0);
  return {
    picked: 0,
    good: 0,
    rejected: 0,
    crushed: 0,
    pockets,
    passed: [],
    passedAt: 0,
    counted: 0,
    countedBefore: 0,
    unsettled: pockets.length,
    anew: true,
    base: 0,
    unaccounted: 0,
    apart: 0,
    apartFor: 0,
  };
}

function pickDistance({ line, cycleSignal }: LineIndex): number | undefined {
  const has = (role: Role) => line.signals.some((signal) => signal.role === role);
  const pick = line.stations.find(({ drawing }) => drawing === 'pick');
  if (!pick || cycleSignal < 0 || !has('pickedCount') || !has('goodCount')) return undefined;
  return pick.pocketsToDischarge;
}

const BALANCED: ReadonlySet<Role> = new Set(['pickedCount', 'goodCount', 'rejectCount', 'crushedCount']);

/** [BA3] A counter was read for the first time, or for the first time as another machine's: it has counted nothing yet. */
export function flowBased({ state }: Stepping, { role }: Signal): void {
  if (state.flow && BALANCED.has(role)) beginAnew(state.flow);
}

/** What a counter of blanks or cartons gained. */
export function flowCounted({ state, index }: Stepping, { role, of }: Signal, step: CounterStep): void {
  const { flow } = state;
  if (!flow || !BALANCED.has(role)) return;
  const { gained, mark } = step;
  const { pockets } = flow;
  if (role === 'pickedCount') {
    flow.picked += gained;
    pockets[pickOf(flow)]! += gained;
  } else if (role === 'crushedCount') {
    flow.crushed += gained;
    takeOut(flow, index, of, gained);
  } else {
    flow[role === 'goodCount' ? 'good' : 'rejected'] += gained;
    const late = countedLate(flow, gained, state.at);
    pockets[0]! -= gained - late;
    flow.counted += gained - late;
    flow.countedBefore += late;
  }
  if (mark !== 'plain' && mark !== 'rollover') beginAnew(flow);
  else if (gained > AT_ONCE_MOST && role !== 'crushedCount') unsettle(flow);
}

/** [BA2] Every pocket moved on, or back as in a reverse jog. What leaves the last one without having been counted was missing. */
export function flowCycled({ state, index }: Stepping, cycles: number): void {
  const { flow } = state;
  if (!flow || cycles === 0) return;
  // the cycle before is over, and with it all that was counted in it
  if (flow.unsettled <= 1 && cycles > 0) settle(flow);
  const { pockets } = flow;
  const places = pockets.length;
  const passed = cycles > 0 ? pockets.splice(0, Math.min(cycles, places)) : [];
  flow.passed = flow.unsettled > BEHIND ? notCounted(flow, passed) : passed;
  flow.passedAt = state.at;
  flow.countedBefore = flow.counted;
  flow.counted = 0;
  // what a reverse jog brings further back than is kept track of is not followed
  const gone = cycles < 0 ? pockets.splice(Math.max(0, places + cycles)) : [];
  const lost = gone.some((cartons) => cartons !== 0);
  while (pockets.length < places) {
    if (cycles > 0) pockets.push(0);
    else pockets.unshift(0);
  }
  if (flow.unsettled > 0) flow.unsettled = Math.max(0, Math.min(pockets.length, flow.unsettled - cycles));
  if (lost || Math.abs(cycles) > AT_ONCE_MOST || !allCounted(index, state)) unsettle(flow);
}

/**
 * Where nobody knows what lay at the check: a carton if the pocket before had one, which is counted late if it was not counted
 * while it was there.
 */
function notCounted({ counted, countedBefore }: FlowRecord, passed: readonly number[]): number[] {
  const goesOn = counted + countedBefore > 0 ? 1 : 0;
  return passed.map((_, place) => (place === 0 && counted > 0 ? 0 : goesOn));
}

/**
 * Of cartons counted at the check, how many are of what the cycles told at the same moment took out of it: both were looked
 * at together, and the count may have come before the cycle.
 */
function countedLate({ passed, passedAt }: FlowRecord, cartons: number, at: Instant): number {
  let late = 0;
  for (let place = 0; place < passed.length && passedAt === at; place += 1) {
    const taken = Math.min(cartons - late, Math.max(0, passed[place]!));
    passed[place]! -= taken;
    late += taken;
  }
  return late;
}

/** Place of the pocket into which blanks are picked. */
function pickOf({ pockets }: FlowRecord): number {
  return pockets.length - 1 - BEHIND;
}

interface Counting {
  readonly places: readonly number[];
  readonly servers: readonly string[];
}
const counting = new WeakMap<LineIndex, Counting>();

function countingOf(index: LineIndex): Counting {
  const found = counting.get(index);
  if (found) return found;
  const signals = index.line.signals.filter(({ role }) => BALANCED.has(role));
  const made = {
    places: signals.map((signal) => signal.index),
    servers: [...new Set(signals.map(({ server }) => server))],
  };
  counting.set(index, made);
  return made;
}

/** Whether every counter of blanks and cartons can be read now. */
function allCounted(index: LineIndex, state: Stepping['state']): boolean {
  const { places, servers } = countingOf(index);
  for (const place of places) if (state.known[place] === 0) return false;
  return servers.every((server) => isHeard(index, state, server));
}

/**
 * [BA1] As it is now. What may still turn up is told to lie in the pockets, as long as they have room for it: more than one in
 * each place, or fewer than none, they cannot hold.
 */
export function flowTold(flow: FlowRecord): FlowTold {
  const { picked, good, rejected, crushed, unsettled, base, unaccounted } = flow;
  if (unsettled > 0) return [picked, good, rejected, crushed, null, null];
  const left = picked - good - rejected - crushed + base;
  const inPockets = Math.max(0, Math.min(pickOf(flow) + 1, left - unaccounted));
  return [picked, good, rejected, crushed, inPockets, left - inPockets];
}

/**
 * [BA2] What is missing is told when it has been for as many cycles as there are pockets. Before that it may turn up: as a
 * count that comes a cycle late or early, or as a carton that lay in another pocket than was taken for crushed.
 */
function settle(flow: FlowRecord): void {
  const { pockets, passed, unaccounted } = flow;
  let lying = 0;
  for (const cartons of pockets) lying += cartons;
  const missing = flow.picked - flow.good - flow.rejected - flow.crushed - lying;
  if (flow.anew) {
    flow.base = unaccounted - missing;
    flow.anew = false;
  }
  const apart = flow.base + missing - unaccounted;
  const goesOn = apart * flow.apart > 0;
  flow.apart = goesOn && Math.abs(flow.apart) < Math.abs(apart) ? flow.apart : apart;
  flow.apartFor = apart === 0 ? 0 : (goesOn ? flow.apartFor : 0) + passed.length;
  if (flow.apartFor < pockets.length) return;
  flow.unaccounted += flow.apart;
  flow.apart = 0;
  flow.apartFor = 0;
}

/** What was crushed at a station lay in its pockets: those that it has passed, and the next station has not reached. */
function takeOut(flow: FlowRecord, { line }: LineIndex, station: string | undefined, cartons: number): void {
  const { pockets } = flow;
  const place = line.stations.findIndex(({ id }) => id === station);
  const first = Math.min(line.stations[place]?.pocketsToDischarge ?? 0, pickOf(flow));
  const last = (line.stations[place + 1]?.pocketsToDischarge ?? -1) + 1;
  let left = cartons;
  for (let pocket = first; pocket >= last && left > 0; pocket -= 1) {
    const taken = Math.min(left, Math.max(0, pockets[pocket]!));
    pockets[pocket]! -= taken;
    left -= taken;
  }
  pockets[first]! -= left;
}

function unsettle(flow: FlowRecord): void {
  flow.unsettled = flow.pockets.length;
  flow.apart = 0;
  flow.apartFor = 0;
}

/** A counter says something else than it counted: the balance goes on from where it was told last. */
function beginAnew(flow: FlowRecord): void {
  unsettle(flow);
  flow.anew = true;
}
