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
  /** Cycles in which it saw near misses, newest last: of as many as a carton takes through the machine, and some more. */
  nearMisses: number[];
  /** It counted more at once than cycles that may be meant: when each was before this cycle is not known. */
  sureFrom: number;
  /** Cycles with near misses since a cycle: of long ago only half is kept. */
  sensed: number;
  sensedFrom: number;
  /** Such cycles in the newest block of cycles, which block that was, and those in the block before it. */
  lately: { block: number; now: number; before: number };
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
/** Near misses are looked for in cycles that lie so far from the one in which a carton passed. */
export const LOOKED_BESIDE = 6;
/** What a sensor ever tells follows about so many of its near misses. */
const SENSED_MOST = 400;
/** What it tells lately is of one to two blocks of so many cycles. */
const BLOCK = 200;

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
      sureFrom: 0,
      sensed: 0,
      sensedFrom: 0,
      lately: { block: 0, now: 0, before: 0 },
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

/** A station's sensor counted so many near misses; a carton is in the machine for `pocketsMost` cycles. */
export function nearMissed(passes: Passes, station: number, gained: number, pocketsMost: number): void {
  const seen = passes.stations[station]!;
  const { nearMisses } = seen;
  // a cycle is one with near misses, however many it has
  const last = nearMisses.at(-1);
  const cyclesMeant = last === undefined ? gained : Math.min(gained, passes.cycles - last);
  if (cyclesMeant > 0) sensedIn(passes, seen, cyclesMeant);
  if (gained > AT_ONCE_MOST) seen.sureFrom = passes.cycles + 1;
  if (last !== passes.cycles) nearMisses.push(passes.cycles);
  const oldest = passes.cycles - pocketsMost - LOOKED_BESIDE;
  if (nearMisses[0]! < oldest) seen.nearMisses = nearMisses.filter((cycle) => cycle >= oldest);
}

function sensedIn({ cycles }: Passes, seen: StationPasses, more: number): void {
  const [now, before] = inBlocks(seen, cycles);
  seen.lately = { block: Math.floor(cycles / BLOCK), now: now + more, before };
  seen.sensed += more;
  if (seen.sensed <= SENSED_MOST) return;
  seen.sensed /= 2;
  seen.sensedFrom = (seen.sensedFrom + cycles) / 2;
}

/** Cycles with near misses in the block of cycles that has begun by now, and in the one before it. */
function inBlocks({ lately: { block, now, before } }: StationPasses, cycles: number): [number, number] {
  const later = Math.floor(cycles / BLOCK) - block;
  if (later <= 0) return [now, before];
  return [0, later === 1 ? now : 0];
}

/** Of the last few hundred cycles, how many had a near miss at a station, and how many there were. */
export function sensedLately({ cycles }: Passes, seen: StationPasses): { seen: number; cycles: number } {
  const [now, before] = inBlocks(seen, cycles);
  return { seen: now + before, cycles: Math.min(cycles, BLOCK + (cycles % BLOCK)) };
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
