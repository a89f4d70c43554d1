import type { AttributionIndex } from './suspects.ts';

/**
 * What the stations did lately, by machine cycle: plain data that JSON keeps whole, changed in place by this file only.
 * Every list is bounded by the way through the machine.
 */
export interface Passes {
  /** Machine cycles since the line was first heard. */
  cycles: number;
  /** What passed a station before this cycle cannot be told: pockets may have gone back, or cycles were missed. */
  sureFrom: number;
  /** Cycles in which the machine stopped, newest last. */
  stood: number[];
  /** Stretches of cycles outside produce mode, `[from, to]`, newest last. */
  handled: [from: number, to: number][];
  /** Last cycle that was made by hand; −1 before. */
  joggedAt: number;
  /** Pockets that were emptied by hand: in which cycle, and how far from the check they lay, newest last. */
  emptied: [cycle: number, far: number, near: number][];
  stations: StationPasses[];
}

export interface StationPasses {
  /** Cycles in which it saw a near miss, newest last; twice the same where it counted two. */
  nearMisses: number[];
  /** Near misses that it counted since a cycle: of long ago only half is kept. */
  sensed: number;
  sensedFrom: number;
  /** Last cycle in which a stop began at it, or its pockets were emptied by hand; −1 before. */
  troubledAt: number;
  /** Last cycle in which one of its adjustments moved in production; −1 before. */
  movedAt: number;
}

/** More cycles than this at once were not seen one by one. */
const AT_ONCE_MOST = 2;
const STOOD_KEPT = 8;
const HANDLED_KEPT = 6;
const EMPTIED_KEPT = 12;
const NEAR_MISSES_KEPT = 40;
/** What a sensor usually tells follows about so many of its near misses. */
const SENSED_MOST = 400;

export function freshPasses({ pockets }: AttributionIndex): Passes {
  return {
    cycles: 0,
    sureFrom: 0,
    stood: [],
    handled: [],
    joggedAt: -1,
    emptied: [],
    stations: pockets.map(() => ({
      nearMisses: [],
      sensed: 0,
      sensedFrom: 0,
      troubledAt: -1,
      movedAt: -1,
    })),
  };
}

/** How the cycles came that are counted now. */
export interface Cycled {
  /** Below zero where the counter itself went back, as in a reverse jog. */
  readonly gained: number;
  /** The counter says something else than it counted, or nobody was looking. */
  readonly missed: boolean;
  /** jog: by hand, forward or back, which a counter does not tell; setup: trial cartons. */
  readonly mode: 'produce' | 'setup' | 'jog';
}

export function cycled(passes: Passes, { gained, missed, mode }: Cycled): void {
  const from = passes.cycles + 1;
  passes.cycles += gained;
  if (gained < 0) forgetAhead(passes);
  if (missed || gained < 0 || gained > AT_ONCE_MOST || mode === 'jog') passes.sureFrom = passes.cycles + 1;
  if (mode === 'jog') passes.joggedAt = passes.cycles;
  if (mode !== 'produce' && gained > 0) handledIn(passes, from);
}

/** Counters begin again: no cycle before this is known any more. */
export function passesMissed(passes: Passes): void {
  passes.sureFrom = passes.cycles + 1;
}

export function nearMissed(passes: Passes, station: number, gained: number): void {
  const seen = passes.stations[station]!;
  const { nearMisses } = seen;
  seen.sensed += gained;
  if (seen.sensed > SENSED_MOST) {
    seen.sensed /= 2;
    seen.sensedFrom = (seen.sensedFrom + passes.cycles) / 2;
  }
  // more at once than cycles that may be meant: when each was is not known
  if (gained > AT_ONCE_MOST) return passesMissed(passes);
  for (let n = 0; n < gained; n += 1) nearMisses.push(passes.cycles);
  if (nearMisses.length > NEAR_MISSES_KEPT) nearMisses.splice(0, nearMisses.length - NEAR_MISSES_KEPT);
  return undefined;
}

/** False where it stood in this cycle already. */
export function machineStood({ stood, cycles }: Passes): boolean {
  if (stood.at(-1) === cycles) return false;
  stood.push(cycles);
  if (stood.length > STOOD_KEPT) stood.shift();
  return true;
}

export function pocketsEmptied({ emptied, cycles }: Passes, far: number, near: number): void {
  emptied.push([cycles, far, near]);
  if (emptied.length > EMPTIED_KEPT) emptied.shift();
}

function handledIn(passes: Passes, from: number): void {
  const last = passes.handled.at(-1);
  if (last && last[1] >= from - 1) last[1] = passes.cycles;
  else passes.handled.push([from, passes.cycles]);
  if (passes.handled.length > HANDLED_KEPT) passes.handled.shift();
}

/** The counter went back with the pockets: what it had counted ahead of where it is now will be counted again. */
function forgetAhead(passes: Passes): void {
  const { cycles } = passes;
  passes.stood = passes.stood.filter((cycle) => cycle <= cycles);
  passes.joggedAt = Math.min(passes.joggedAt, cycles);
  passes.emptied = passes.emptied.filter(([cycle]) => cycle <= cycles);
  passes.handled = passes.handled.filter(([from]) => from <= cycles);
  for (const station of passes.stations) {
    station.nearMisses = station.nearMisses.filter((cycle) => cycle <= cycles);
    station.troubledAt = Math.min(station.troubledAt, cycles);
    station.movedAt = Math.min(station.movedAt, cycles);
  }
}
