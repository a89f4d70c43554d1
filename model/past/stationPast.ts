import type { AdjustmentNow } from './adjustmentsNow.ts';
import type { BatchTrend } from './batches.ts';
import type { Judged } from './stationCounts.ts';
import type { StationSum, StationsPast } from './stationsPast.ts';
import type { StopsPast } from './stopsPast.ts';

/** One station in a stretch of whole shifts. */
export interface StationPast extends Pick<StationsPast, 'seen' | 'shifts'> {
  readonly sum: StationSum;
  /** Undefined where the line's file charges no reject, empty carton or missed pick to it, or the size did not run. */
  readonly trend: StationTrend | undefined;
  /** Whether anything is counted here that a trend could be made of. */
  readonly judged: Judged['kind'] | undefined;
  readonly stops: Pick<StopsPast, 'stops' | 'stood' | 'list' | 'minorMinutes'>;
  readonly adjustments: {
    /** Of the size that runs now. */
    readonly size: string | undefined;
    readonly list: readonly AdjustmentNow[];
  };
}

export interface StationTrend extends BatchTrend {
  readonly kind: Judged['kind'];
  readonly size: { readonly id: string; readonly name: string };
  /** Sizes that ran in the stretch. */
  readonly sizes: readonly { readonly id: string; readonly name: string }[];
  /** Minutes are looked at from here on, where that is later than the stretch begins. */
  readonly since: number | undefined;
  /** Empty cartons are what people left: batches have no line, as another run has another crew. */
  readonly byHand: boolean;
}
