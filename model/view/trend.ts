import type { EpochMs, Millis } from '../units/units.ts';
import type { PressView } from './view.ts';

/** The shift as a strip. */
export interface TrendView {
  readonly from: EpochMs;
  readonly to: EpochMs;
  readonly now: EpochMs;
  readonly target: number | undefined;
  readonly maxRate: number;
  /** One bucket a minute or coarser, never more than 480. `rate` undefined: not observed. */
  readonly bucketMs: Millis;
  readonly buckets: readonly {
    readonly at: EpochMs;
    readonly rate: number | undefined;
    readonly uncertain?: true;
  }[];
  readonly spans: readonly TrendSpan[];
  readonly pauses: readonly { readonly name: string; readonly from: EpochMs; readonly to: EpochMs }[];
  readonly presses: readonly PressView[];
}

/** Time the line did not produce, cut out of the strip. */
export interface TrendSpan {
  readonly kind:
    | 'stopped'
    | 'starved'
    | 'blocked'
    | 'safety'
    | 'changeover'
    | 'pause'
    | 'isolated'
    | 'unknown';
  readonly from: EpochMs;
  /** undefined: still open */
  readonly to: EpochMs | undefined;
  readonly stop: string | undefined;
  readonly station: number | undefined;
  readonly reason: string | undefined;
  readonly minor: boolean;
  readonly asks: boolean;
}
