import type { CounterStep } from '../counters/counters.ts';
import type { Signal } from '../signals/signals.ts';
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
  /** Cartons taken to lie in each pocket by its distance to the discharge check. */
  pockets: number[];
  /** Cycles that have to pass before the pockets are known. */
  unsettled: number;
  /** The balance begins anew when they are: what it was told to be last is what it goes on from. */
  anew: boolean;
  base: number;
  /** Blanks picked that nothing accounts for, as last told while the pockets were known. */
  unaccounted: number;
}

/** As it is kept by the minute: picked, good, rejected, crushed, in pockets, unaccounted; the last two null while not known. */
export type FlowTold = readonly [number, number, number, number, number | null, number | null];

/** More cycles or cartons than this at once were not seen one by one. */
const AT_ONCE_MOST = 3;

/** Undefined for a line without a counter of blanks, of cycles or of good cartons, or whose pick has no pocket. */
export function freshFlow(index: LineIndex): FlowRecord | null {
  const distance = pickDistance(index);
  if (distance === undefined) return null;
  return {
    picked: 0,
    good: 0,
    rejected: 0,
    crushed: 0,
    pockets: new Array<number>(distance + 1).fill(0),
    unsettled: distance + 1,
    anew: true,
    base: 0,
    unaccounted: 0,
  };
}

function pickDistance({ line, cycleSignal }: LineIndex): number | undefined {
  const has = (role: string) => line.signals.some((signal) => signal.role === role);
  const pick = line.stations.find(({ drawing }) => drawing === 'pick');
  if (!pick || cycleSignal < 0 || !has('pickedCount') || !has('goodCount')) return undefined;
  return pick.pocketsToDischarge;
}

/** What a counter of blanks or cartons gained. */
export function flowCounted({ state, index }: Stepping, signal: Signal, step: CounterStep): void {
  const { flow } = state;
  if (!flow) return;
  const { gained, mark } = step;
  switch (signal.role) {
    case 'pickedCount':
      flow.picked += gained;
      flow.pockets[flow.pockets.length - 1]! += gained;
      break;
    case 'goodCount':
      flow.good += gained;
      flow.pockets[0]! -= gained;
      break;
    case 'rejectCount':
      flow.rejected += gained;
      flow.pockets[0]! -= gained;
      break;
    case 'crushedCount':
      flow.crushed += gained;
      takeOut(flow, index, signal.of, gained);
      break;
    default:
      return;
  }
  if (mark !== 'plain' && mark !== 'rollover') beginAnew(flow);
  else if (gained > AT_ONCE_MOST && signal.role !== 'crushedCount') unsettle(flow);
}

/** Every pocket moved on, or back as in a reverse jog. What leaves the last one without having been counted was missing. */
export function flowCycled({ state }: Stepping, cycles: number): void {
  const { flow } = state;
  if (!flow || cycles === 0) return;
  const { pockets } = flow;
  const places = pockets.length;
  const by = Math.max(-places, Math.min(places, cycles));
  for (let n = 0; n < by; n += 1) {
    pockets.shift();
    pockets.push(0);
  }
  for (let n = 0; n > by; n -= 1) {
    pockets.pop();
    pockets.unshift(0);
  }
  if (Math.abs(cycles) > AT_ONCE_MOST) return unsettle(flow);
  flow.unsettled = Math.max(0, flow.unsettled - Math.max(0, cycles));
  if (flow.unsettled === 0) settle(flow);
}

/** [BA1] As it is now. */
export function flowTold(flow: FlowRecord): FlowTold {
  const { picked, good, rejected, crushed, unsettled, unaccounted } = flow;
  const settled = unsettled === 0;
  return [picked, good, rejected, crushed, settled ? inPockets(flow) : null, settled ? unaccounted : null];
}

function settle(flow: FlowRecord): void {
  const rest = flow.picked - flow.good - flow.rejected - flow.crushed - inPockets(flow);
  if (flow.anew) {
    flow.base = flow.unaccounted - rest;
    flow.anew = false;
  }
  flow.unaccounted = flow.base + rest;
}

function inPockets({ pockets }: FlowRecord): number {
  return pockets.reduce((sum, cartons) => sum + cartons, 0);
}

/** What was crushed at a station lay in its pockets: those that it has passed, and the next station has not reached. */
function takeOut(flow: FlowRecord, { line }: LineIndex, station: string | undefined, cartons: number): void {
  const place = line.stations.findIndex(({ id }) => id === station);
  const first = Math.min(line.stations[place]?.pocketsToDischarge ?? 0, flow.pockets.length - 1);
  const last = (line.stations[place + 1]?.pocketsToDischarge ?? -1) + 1;
  let left = cartons;
  for (let pocket = first; pocket >= last && left > 0; pocket -= 1) {
    const taken = Math.min(left, Math.max(0, flow.pockets[pocket]!));
    flow.pockets[pocket]! -= taken;
    left -= taken;
  }
  flow.pockets[first]! -= left;
}

function unsettle(flow: FlowRecord): void {
  flow.unsettled = flow.pockets.length;
}

/** A counter says something else than it counted: the balance goes on from where it was told last. */
function beginAnew(flow: FlowRecord): void {
  unsettle(flow);
  flow.anew = true;
}
