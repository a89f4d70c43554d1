import type { Side, StopKind } from '../line/line.ts';
import type { EpochMs, Millis } from '../units/units.ts';
import type { DevicesView } from './devices.ts';
import type { FittedView } from './fittedView.ts';
import type { Matter, Question } from './matter.ts';
import type { NoticesView } from './noticesView.ts';
import type { SheetsView } from './sheetView.ts';
import type { TrendView } from './trend.ts';

/**
 * What the Line screen and the line-side panel show, worked out to the last digit: the dashboard draws it and
 * computes nothing but the time that passes between two views. Sentences are made from it by `words`.
 */
export interface LineView {
  readonly line: LineLabel;
  /** The moment this view is true for. */
  readonly at: EpochMs;
  readonly sight: Sight;
  readonly head: Head;
  readonly rate: RateView;
  readonly plan: PlanView;
  readonly changeover: ChangeoverView;
  readonly path: PathView;
  readonly trend: TrendView;
  readonly devices: DevicesView;
  readonly loading: readonly PositionView[];
  readonly matters: readonly Matter[];
  readonly question: Question | undefined;
  readonly orders: readonly OrderView[];
  readonly crews: readonly CrewView[];
  readonly notices: NoticesView;
  readonly sheets: SheetsView;
  readonly fitted: readonly FittedView[];
}

export interface LineLabel {
  readonly id: string;
  readonly name: string;
  readonly product: string;
  readonly zone: string;
  readonly size: string | undefined;
  readonly lossPatterns: readonly LossCause[];
  /** Number people call when someone is hurt, if the site gave one. */
  readonly emergencyNumber?: string;
}

/** Whether, and since when, the line is being observed. */
export interface Sight {
  /** live: newest data younger than the stale limit. stale, lost: older. never: nothing has arrived yet. */
  readonly kind: 'live' | 'stale' | 'lost' | 'never';
  /** Age of the newest data from the PLC at `at`. */
  readonly age: Millis | undefined;
  /** Moment of the newest data. */
  readonly lastAt: EpochMs | undefined;
  readonly servers: readonly {
    readonly id: string;
    readonly up: boolean;
    readonly since: EpochMs | undefined;
    /** How far the server's clock, less what it was set by, is ahead of ours; undefined when not known. */
    readonly clockOffset: Millis | undefined;
  }[];
  /** Present while nothing can be recorded: since when. Then it is not the PLC that is silent. */
  readonly unrecordedSince?: EpochMs;
  /** Share of this shift so far that was really observed, 0 to 1. Isolated time counts as observed by counters. */
  readonly coverage: number | undefined;
  readonly unknown: Millis;
}

/** What the line is doing, as facts for one sentence. */
export type Head =
  | {
      readonly kind: 'running';
      readonly pace: 'atRate' | 'slow' | 'fast';
      readonly since: EpochMs;
      readonly stopsThisShift: number;
      readonly shortStopsThisShift: number;
    }
  | HeadStopped
  | {
      readonly kind: 'starved' | 'blocked';
      readonly since: EpochMs;
      readonly name: string;
      readonly station: string | undefined;
      readonly stop: string;
    }
  | {
      readonly kind: 'changeover';
      readonly phase: 'setting' | 'trial' | 'runUp';
      /** Since when the line's tag says that what it produces are trial cartons. */
      readonly trialSince?: EpochMs | undefined;
      readonly since: EpochMs;
      /** Sizes; both undefined while the size stays. */
      readonly from: string | undefined;
      readonly to: string | undefined;
    }
  | {
      readonly kind: 'pause';
      readonly name: string;
      readonly since: EpochMs;
      readonly allowanceEnds: EpochMs;
      readonly over: boolean;
    }
  | HeadPressed
  | { readonly kind: 'unknown'; readonly since: EpochMs; readonly isolatedLikely: boolean }
  | { readonly kind: 'offShift'; readonly next: { readonly name: string; readonly at: EpochMs } | undefined };

export interface HeadStopped {
  readonly kind: 'stopped';
  readonly since: EpochMs;
  readonly stop: string;
  /** First fault; undefined while nobody knows. */
  readonly reason:
    | { readonly name: string; readonly station: string | undefined; readonly stopKind: StopKind }
    | undefined;
  /** derived: from cycle pulses, no state tag. */
  readonly from: 'state' | 'cycles';
  /** "third in 20 minutes": stops at this station within the window, this one included; 1 says nothing. */
  readonly nth: number;
  readonly within: Millis;
  /** Try within a re-jam episode, 1 for the first. */
  readonly attempt: number;
  readonly going: { readonly at: EpochMs; readonly who: string } | undefined;
  /** Devices that were released but whose reset, restart or first good carton is still to come. */
  readonly press: PressView | undefined;
}

/** A stop device is held now. */
export interface HeadPressed {
  readonly kind: 'pressed';
  readonly press: PressView;
  readonly stop: string | undefined;
  /** When the line stood; undefined when it had not. */
  readonly standsSince: EpochMs | undefined;
  readonly firstFault:
    | {
        readonly name: string;
        readonly station: string | undefined;
        readonly at: EpochMs;
        /** From it to the press; below zero where the press came first. */
        readonly untilPress: Millis;
      }
    | undefined;
  readonly going: { readonly at: EpochMs; readonly who: string } | undefined;
  /** What came before, earliest first, in PLC time. */
  readonly before: readonly Happening[];
}

export interface Happening {
  readonly at: EpochMs;
  /** Counted from the first fault, or, without one, from the press; below zero before it. */
  readonly offset: Millis;
  readonly kind: 'firstFault' | 'setOff' | 'reject' | 'press' | 'release' | 'guardOpened' | 'guardClosed';
  readonly name: string;
  readonly station: string | undefined;
}

/** A press of a stop device and what followed; a step not seen yet is undefined. */
export interface PressView {
  readonly id: string;
  readonly device: string;
  readonly name: string;
  /** Who it may have been, for a circuit nobody has answered for. */
  readonly candidates: readonly { readonly id: string; readonly name: string }[];
  readonly pressed: EpochMs;
  readonly released: EpochMs | undefined;
  readonly reset: EpochMs | undefined;
  readonly restarted: EpochMs | undefined;
  readonly firstGood: EpochMs | undefined;
  /** caused: the line still produced. during: it already stood. uncertain: too close to tell. */
  readonly role: 'caused' | 'during' | 'uncertain';
  /**
   * edge: seen pressed. count: only its counted twin moved, so the moment is not known. found: it read pressed at the first
   * look, and `pressed` is that look.
   */
  readonly known: 'edge' | 'count' | 'found';
}

export interface RateView {
  /** Good cartons in the last whole minute of line time; undefined when it was not observed. */
  readonly perMinute: number | undefined;
  readonly uncertain: boolean;
  /** Cartons per minute while it ran, over the same minute; undefined when it did not run. */
  readonly running: number | undefined;
  /** Rate in the minute before the open stop. */
  readonly before: number | undefined;
  readonly target: number | undefined;
  readonly crew: number;
  /** The last minute as pockets, oldest first, never more than the target has: what came at each. */
  readonly pockets: readonly Pocket[];
}

export type Pocket = 'good' | 'reject' | 'notLoaded' | 'missed' | 'none' | 'unknown';

/** The plan of a shift, with the order that runs in it beside it: its figures are of its own. */
export interface PlanView {
  /** Undefined between shifts: then nothing is planned, and the figures of plan and path say nothing. */
  readonly shift: { readonly name: string; readonly from: EpochMs; readonly to: EpochMs } | undefined;
  readonly order: OrderView | undefined;
  readonly good: number;
  /** What was planned for the shift: order share or target × planned time. */
  readonly planned: number;
  readonly plannedSoFar: number;
  /** Target × planned time so far. */
  readonly possible: number;
  /** Positive is behind plan. */
  readonly behind: number;
  /** At the shift's end; undefined while it cannot be told (say why in words: held, too short to tell). */
  readonly finish:
    | { readonly short: number; readonly shortLow: number; readonly shortHigh: number }
    | undefined;
  /** Rate needed from now to make the plan; undefined at the shift's end, and while the finish is not known. */
  readonly needed: number | undefined;
  /** The pause that is still to begin: `at` may be past, and does not move. One that is being or was taken is none. */
  readonly nextPause: { readonly name: string; readonly at: EpochMs; readonly allowance: Millis } | undefined;
}

export interface ChangeoverView {
  readonly current: boolean;
  readonly kind: 'size' | 'artwork' | 'startUp';
  /** The size before it; undefined where the size stays. */
  readonly from: string | undefined;
  readonly to: string | undefined;
  readonly began: EpochMs | undefined;
  readonly firstGood: EpochMs | undefined;
  readonly atRate: EpochMs | undefined;
  /** Began to at rate. */
  readonly lasted: Millis | undefined;
  readonly trialCartons: number;
}

export type LossCause =
  | 'stopped'
  | 'slow'
  | 'notLoaded'
  | 'missedPick'
  | 'reject'
  | 'crushed'
  | 'changeover'
  | 'pauseOver'
  | 'unknown';

/** Cartons lost this shift; between shifts nothing is planned, and nothing can be lost. All numbers are whole and add up: total = possible − good, without a rest. */
export interface PathView {
  readonly total: number;
  readonly possible: number;
  readonly good: number;
  readonly stations: readonly StationView[];
  /** What belongs to no one station. */
  readonly none: { readonly lost: number; readonly causes: readonly LossPart[] };
  /** Sums over stations, for the key of patterns. */
  readonly causes: readonly LossPart[];
}

export interface LossPart {
  readonly cause: LossCause;
  /** May be negative for `slow`: the line ran faster than its target. */
  readonly cartons: number;
}

export interface StationView {
  readonly id: string;
  readonly number: number;
  readonly name: string;
  readonly drawing: string;
  readonly lost: number;
  /** Largest first; only those that are not zero. */
  readonly causes: readonly LossPart[];
  /** firstFault: it holds the line now. abnormal: outside its own normal. */
  readonly mark: 'none' | 'firstFault' | 'abnormal';
  /** Present only outside its own normal. */
  readonly rejects: { readonly inLast: number; readonly of: number; readonly normal: number } | undefined;
  readonly stops: number;
}

/** One loading position's own pockets; never set beside another's. */
export interface PositionView {
  readonly id: string;
  readonly name: string;
  readonly side: Side;
  readonly notLoadedThisShift: number;
  /** Of the last 100 pockets, newest first: true was not loaded here. Shorter after a start. */
  readonly last: readonly boolean[];
}

export interface OrderView {
  readonly number: string;
  readonly size: string;
  readonly sizeId: string;
  readonly blend: string;
  readonly quantity: number;
  readonly due: EpochMs | undefined;
  readonly state: 'running' | 'next' | 'open' | 'ended';
  readonly good: number;
  readonly perCase: number | undefined;
  /** Cases that its good cartons fill; undefined where nobody says how many a case holds. */
  readonly cases: number | undefined;
  /** Kind of changeover from what runs now. */
  readonly change: 'none' | 'artwork' | 'size';
  /** What that kind of changeover usually takes; undefined when not seen often enough. */
  readonly usual: Millis | undefined;
  /** When it ended; undefined where it has not. */
  readonly ended: EpochMs | undefined;
  /** Crew that counts from its beginning on, where somebody said. */
  readonly crew: number | undefined;
  /** Cartons handed over, as counted by people, and how many more than counted as good. */
  readonly handedOver: number | undefined;
  readonly apart: number | undefined;
}

export interface CrewView {
  readonly people: number;
  readonly note: string;
  /** By size id. */
  readonly targets: { readonly [size: string]: number };
  readonly now: boolean;
}
