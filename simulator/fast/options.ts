import type { Variant } from '../lines/variant.ts';
import type { PlannedOrder } from '../machine/orders.ts';

/** Seconds since the fast line's beginning, at which an early shift begins. */
export type Seconds = number;
export const SHIFT_SECONDS = 8 * 3600;

/**
 * How levels of stations differ from run to run and within one. `machine`: by where adjustments stand, board lots and sizes, as in
 * the full simulator. `logNormal`: each station has a factor of its own in each run; within a run the factor wanders, from one
 * quarter of an hour to the next, by `wander` (standard deviation of its logarithm) with the correlation `held`.
 */
export type Levels =
  | { readonly kind: 'machine'; readonly loose: boolean }
  | {
      readonly kind: 'logNormal';
      readonly betweenRuns: number;
      readonly wander: number;
      readonly held: number;
    };

/** What goes wrong at one station, from a moment on. */
export type FastFault =
  /** Its risk is so many times as high. */
  | { readonly kind: 'step'; readonly station: string; readonly from: Seconds; readonly times: number }
  /** A guide works loose: its risk grows with the square of the time, and is doubled after so many hours of running. */
  | {
      readonly kind: 'loose';
      readonly station: string;
      readonly from: Seconds;
      readonly doubledAfter: number;
    }
  /** A bad lot of board: so many cartons with a risk so many times as high. */
  | {
      readonly kind: 'lot';
      readonly station: string;
      readonly from: Seconds;
      readonly times: number;
      readonly cartons: number;
    }
  /** Misfolds jam so many times as often, and this share of jams leaves rests that the next cartons meet. */
  | {
      readonly kind: 'rejam';
      readonly station: string;
      readonly from: Seconds;
      readonly times: number;
      readonly rests: number;
    };

export interface FastOptions {
  readonly seed: number;
  readonly levels: Levels;
  readonly fault?: FastFault;
  readonly variant?: Partial<Variant>;
  readonly orders?: readonly PlannedOrder[];
}
