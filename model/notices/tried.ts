import type { TriedKinds } from './triedKinds.ts';
import type { EpochMs, Millis } from '../units/units.ts';

/** What the settings, and looser and stricter ones, would have done in a stretch: the rows of repeated stops beyond a station's own normal. */
export interface Tried {
  readonly from: EpochMs;
  readonly to: EpochMs;
  /** Shifts of the calendar in it, and how much of their time was seen. */
  readonly shifts: number;
  readonly seen: Millis;
  readonly of: Millis;
  /** The budget in use: at most one false notice in so many shifts of the line. */
  readonly inUse: number;
  /** Loosest first. */
  readonly rows: readonly TriedRow[];
  readonly ofKinds: TriedKinds;
}

export interface TriedRow {
  readonly falseOnceInShifts: number;
  readonly notices: readonly TriedNotice[];
  readonly found: number;
  readonly nothing: number;
  readonly unsaid: number;
  /** False ones to be expected in the shifts seen, by the budget. */
  readonly falseExpected: number;
  /** A station stopped the line three times within an hour, and no notice had come by then. */
  readonly missed: number;
  /** By how much the notices that both would have raised come later than with the budget in use; below zero earlier, undefined where there is none. */
  readonly later: Millis | undefined;
}

export interface TriedNotice {
  readonly at: EpochMs;
  readonly station: string;
  /** What people said of the notice that was really raised there then, if any. */
  readonly became: 'found' | 'nothing' | 'unsaid';
}
