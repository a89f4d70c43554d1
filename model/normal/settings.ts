import { HOUR } from '../units/units.ts';
import type { Look } from './evidence.ts';

/** What the rules that hold a station against its own normal go by. */
export const SETTINGS = {
  /**
   * Each rule may call a station falsely once in so many shifts of eight hours, where levels are as it supposes. They never quite
   * are: what comes of it in worlds that no rule supposes is measured, and stands beside each answer (`measured.ts`).
   */
  falseOnceInShifts: 600,
  /** Cartons of a batch at least, in whole minutes. */
  batch: 300,
  /** Below this many earlier cartons of the size, or runs of it, nothing is said. */
  earlierCartons: 3000,
  earlierRuns: 3,
  /** The newest earlier runs tell the normal: so many at most. */
  runsMost: 40,
  /** Of so many of the newest of them the batches are looked at, for how unevenly rejects come within a run. */
  runsInBatches: 6,
  /** What is usual is told as the range in which this share of runs lie. */
  usual: 0.95,
  /** A drift is told from what the run began with: so many cartons at least. */
  learned: 2400,
  /** The change that a drift is looked for: so many times as many. */
  drifted: 2,
  /** Sums of a drift are kept in so many parts of one reject. */
  parts: 4,
  /** Until the past has said otherwise, batches of one run vary this many times as much as by chance, as if from so many. */
  unevenFirst: 1.2,
  unevenWeight: 20,
  /** And the second half of a run is this far from the first one (standard deviation of the logarithm), as if from so many. */
  wanderFirst: 0.15,
  wanderWeight: 4,
  /** A single batch passes its line in the drawing no oftener than once in so many. */
  batchOnceIn: 1500,
} as const;

const SHIFT = 8 * HOUR;
/** A look that took longer stood meanwhile: it may spend no more than this. */
const LOOK_MOST = HOUR;

/**
 * A chance of a false call at one look that keeps what is promised: the wanted rarity is shared out by time, so that a fast line,
 * which looks oftener, spends less at each look, and a slow one more.
 */
export function falseAtALook({ from, to }: Pick<Look, 'from' | 'to'>): number {
  return Math.min(to - from, LOOK_MOST) / (SETTINGS.falseOnceInShifts * SHIFT);
}
