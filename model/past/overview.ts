import type { EpochMs } from '../units/units.ts';
import type { StationRef } from './past.ts';

/** How far the past is made. `until`: up to this moment; `done`: changes worked off. */
export type PastStatus =
  | { readonly kind: 'history' | 'records'; readonly done: number; readonly until: EpochMs }
  | { readonly kind: 'whole' | 'stopped' | 'failed' };

/** What there is to look at, and by what it can be chosen. */
export interface PastOverview {
  readonly past: PastStatus;
  /** From when on there are records; null where there are none. */
  readonly begun: EpochMs | null;
  readonly now: EpochMs;
  readonly zone: string;
  /** The oldest first, the one that runs now last. */
  readonly shifts: readonly PastShift[];
  readonly sizes: readonly { readonly id: string; readonly name: string }[];
  readonly stations: readonly StationRef[];
  /** The newest orders there were, the oldest of them first; the one that runs has no end. */
  readonly orders: readonly PastOrder[];
}

export interface PastOrder {
  readonly number: string;
  readonly from: EpochMs;
  readonly to: EpochMs | undefined;
}

export interface PastShift {
  /** Id of its rule in the calendar. */
  readonly rule: string;
  readonly name: string;
  readonly from: EpochMs;
  readonly to: EpochMs;
}
