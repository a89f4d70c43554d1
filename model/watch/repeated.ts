import type { Instant } from '../units/units.ts';
import type { KeptPart } from './repeatedKept.ts';

/** One station in one earlier run of the size. */
export interface EarlierStops {
  /** First tries only: a re-jam is one with the stop before it. */
  readonly stops: number;
  /** Tries that followed them; left out where they are not known. */
  readonly retries?: number | undefined;
  /** Cartons of the line in that run. */
  readonly of: number;
  /** Rejects that are charged to the station; left out where none is, or where people load: crews are not held against crews. */
  readonly rejects?: number | undefined;
}

/** A stop of the station's own in the run that is judged. */
export interface RecentStop {
  readonly id: string;
  readonly at: Instant;
  /** Cartons of the line in this run by then. */
  readonly cartons: number;
  /** 1 where the first try was the only one. */
  readonly tries: number;
}

/** How many rejects the station had in this run by so many cartons. */
export interface RejectsBy {
  readonly cartons: number;
  readonly rejects: number;
}

/** What a run has brought at a station by now. */
export interface RunSoFar {
  /** All of this run, the newest last. */
  readonly recent: readonly RecentStop[];
  /** Cartons of the line in this run by now. */
  readonly nowCartons: number;
  /** Rejects of the station in this run, rising; a point every few minutes is enough. Left out where its past has none. */
  readonly rejects?: readonly RejectsBy[] | undefined;
}

export interface StopsAsked extends RunSoFar {
  /** The oldest first. */
  readonly earlier: readonly EarlierStops[];
  readonly runBegan: Instant;
  /** What the line makes in a shift of eight hours with this size, about. */
  readonly cartonsPerShift: number;
  /** What looks at this station in this run came to before, and where this one leaves what it came to. It changes no answer. */
  readonly kept?: KeptPart | undefined;
}

/** The stretch of the run that speaks most for more stops than usual: from a moment until now. */
export interface StrongestWindow {
  readonly since: Instant;
  readonly stops: number;
  readonly retries: number;
  readonly cartons: number;
  /** Stops that are usual in as many cartons. */
  readonly expected: number;
  /** Rejects in it and what is usual, where they were looked at. */
  readonly rejects: { readonly seen: number; readonly expected: number } | undefined;
}

export type RepeatedStops =
  | {
      readonly kind: 'judged';
      /** A false one as strong as this, or stronger, comes about once in so many shifts of this station, a million at most. */
      readonly onceInShifts: number;
      /** One stop in so many cartons is usual with the size. */
      readonly usualCartons: number;
      /** Undefined before the second stop of the run. */
      readonly window: StrongestWindow | undefined;
      /** What is most unusual about it. */
      readonly by: 'stops' | 'tries';
    }
  /** Too few earlier runs or cartons of the size to say what is usual, of those that are needed. */
  | {
      readonly kind: 'tooThin';
      readonly runs: number;
      readonly cartons: number;
      readonly needs: { readonly runs: number; readonly cartons: number };
    };
