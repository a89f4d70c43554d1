import type { AroundLane } from '../past/around.ts';
import type { StationPast } from '../past/stationPast.ts';
import type { Instant } from '../units/units.ts';
import type { LineView } from '../view/view.ts';
import type { As } from './replay.ts';
import type { WindowView } from './window.ts';

/** What a screen asks of the replay that runs beside it; every question bears a number, and so does its answer. */
export type Asked =
  | {
      readonly kind: 'open';
      readonly id: number;
      readonly line: string;
      readonly from: Instant;
      readonly to: Instant;
    }
  | {
      readonly kind: 'frame';
      readonly id: number;
      readonly at: Instant;
      readonly as: As;
      readonly station?: string | undefined;
    }
  | {
      readonly kind: 'window';
      readonly id: number;
      readonly from: Instant;
      readonly to: Instant;
      readonly station?: string | undefined;
    }
  | {
      readonly kind: 'step';
      readonly id: number;
      readonly at: Instant;
      readonly by: 'change' | 'carton';
      readonly way: 1 | -1;
    };

export type Answered =
  | { readonly kind: 'progress'; readonly id: number; readonly share: number }
  | { readonly kind: 'opened'; readonly id: number; readonly opened: Opened }
  | { readonly kind: 'frame'; readonly id: number; readonly frame: Frame }
  | { readonly kind: 'window'; readonly id: number; readonly window: ReplayWindow }
  | { readonly kind: 'step'; readonly id: number; readonly at: Instant | undefined }
  | ({ readonly kind: 'failed'; readonly id: number } & Trouble);

/** What went wrong, and what a person can do about it, where that is known. */
export interface Trouble {
  readonly trouble: string;
  readonly why: string | undefined;
  readonly mend: string | undefined;
}

export interface Opened {
  /** The stretch that can be looked at: no further than now. */
  readonly from: Instant;
  readonly to: Instant;
  /** Where it lies on the tape. */
  readonly begin: number;
  readonly end: number;
  /** Where nothing came from the PLC for a time, whatever came of it later. */
  readonly unheard: readonly { readonly from: Instant; readonly to: Instant }[];
  /** False where so much came late that what is known now cannot be told. */
  readonly whole: boolean;
}

/** The line at a moment. */
export interface Frame {
  readonly at: Instant;
  readonly as: As;
  /** How many changes of the tape had come by then. */
  readonly position: number;
  readonly view: LineView;
  /** Adjustments of the station that was asked for, as they were known. */
  readonly adjustments: StationPast['adjustments'] | undefined;
}

export interface ReplayWindow {
  readonly window: WindowView;
  /** What a station's signals read in it, where one was asked for. */
  readonly lanes: readonly AroundLane[] | undefined;
}
