import type { BackOff } from './backOff.ts';

/** The clocks, chance and timer of a process; a test brings its own. Milliseconds. */
export interface OutboxClock {
  /** The wall's clock, since 1970: for people. It may be set. */
  readonly now: () => number;
  /** Goes on evenly whatever is done to the wall's clock: waits are measured by it. */
  readonly steady: () => number;
  /** From 0 to 1. */
  readonly chance: () => number;
  /** Does something later; gives back what calls it off. */
  readonly later: (ms: number, act: () => void) => () => void;
}

export interface OutboxBounds {
  readonly backOff: BackOff;
  readonly triesMost: number;
  /** How long one try may take. Milliseconds. */
  readonly tryMs: number;
  /** So many of each kind by one way at once: urgent ones, others, and those that are tried again. */
  readonly atOnce: number;
  readonly waitingMost: number;
  /** Of what has come to an end, so many are kept. */
  readonly toldKept: number;
  readonly deadKept: number;
  readonly withdrawnKept: number;
}

/** Twenty tries come to about an hour. */
export const BOUNDS: OutboxBounds = {
  backOff: { first: 5000, most: 300_000 },
  triesMost: 20,
  tryMs: 30_000,
  atOnce: 4,
  waitingMost: 2000,
  toldKept: 5000,
  deadKept: 1000,
  withdrawnKept: 1000,
};
