import type { PackmlState } from '../packml/packml.ts';
import type { Signal } from '../signals/signals.ts';

/**
 * What a line is made of: the checked and completed content of a line file. Everything the model knows of a
 * particular line is in here; it reads nothing else.
 */
export interface Line {
  readonly id: string;
  readonly name: string;
  /** What it packs, for people: "tea sachets". */
  readonly product: string;
  /** IANA time zone of the shift calendar. */
  readonly zone: string;
  readonly machines: readonly Machine[];
  /** The machine whose state is the line's state. */
  readonly pace: string;
  /** In process order; the last one is discharge. */
  readonly stations: readonly Station[];
  readonly sizes: readonly Size[];
  readonly loading: Loading;
  readonly rejects: readonly RejectReason[];
  readonly reasons: readonly StopReason[];
  /** Answers for stops at no one station, or at one without answers of its own. */
  readonly answers: readonly Answer[];
  readonly devices: readonly StopDevice[];
  readonly guards: readonly Guard[];
  readonly adjustments: readonly Adjustment[];
  /** What a changeover asks for beside its numbers: parts, checks and approvals, as the line's file says. */
  readonly changeoverSteps: readonly ChangeoverStep[];
  readonly conditions: readonly Condition[];
  readonly calendar: Calendar;
  readonly settings: Settings;
  readonly servers: readonly string[];
  /** In the order that decides equal times; what people and the gateway write comes last. */
  readonly signals: readonly Signal[];
}

export interface Machine {
  readonly id: string;
  readonly name: string;
  /** Numbers of the state tag; empty when the machine has none and stops are derived from cycles. */
  readonly states: ReadonlyMap<number, PackmlState>;
  readonly modes: ReadonlyMap<number, Mode>;
}

/** produce: cartons count. setup: changeover and trial cartons. manual, maintenance: never production. */
export type Mode = 'produce' | 'setup' | 'manual' | 'maintenance';

export interface Station {
  readonly id: string;
  readonly number: number;
  readonly name: string;
  readonly machine: string;
  /** Machine cycles from this station to the discharge check. */
  readonly pocketsToDischarge: number;
  /** Which of the bundled drawings shows it: `magazine`, `bottom-major` … */
  readonly drawing: string;
  /** Answers offered when a stop here has no reason. Four fit a panel. */
  readonly answers: readonly Answer[];
}

/** One answer to "why did it stop?". */
export interface Answer {
  readonly id: string;
  readonly name: string;
  /** Drawing id of the carton as it looks then, `-off` for folded off its score. */
  readonly drawing: string;
}

export interface Size {
  readonly id: string;
  readonly name: string;
  /** Number of the size tag. */
  readonly code: number;
  /** Target in cartons per minute by crew at loading; tenths are allowed, finer is not. */
  readonly targets: ReadonlyMap<number, number>;
  /** Ideal rate in cartons per minute: what the machine would make of this size if nothing held it up. */
  readonly ideal: number;
  /** Cartons in a shipping case; undefined where the line file does not say. */
  readonly perCase?: number;
}

export interface Loading {
  readonly station: string;
  /** Crew assumed until an entry or a tag says otherwise. */
  readonly crew: number;
  /** Crews that can be chosen, with what they mean in words. */
  readonly crews: readonly { readonly people: number; readonly note: string }[];
  readonly positions: readonly { readonly id: string; readonly name: string; readonly side: Side }[];
}

export type Side = 'front' | 'back';

/** A coarse reason the discharge check knows. `station` is whom the carton is charged to until more is known. */
export interface RejectReason {
  readonly id: string;
  readonly name: string;
  readonly station: string;
  /** Every station that may have spoiled such a carton, that one among them; undefined where the line file does not say. */
  readonly from?: readonly string[];
  /** An empty carton is no reject: it was not loaded. */
  readonly means: 'reject' | 'notLoaded';
}

/** machine: its own fault. starved, blocked: from outside. The rest are people's doing. */
export type StopKind = 'machine' | 'starved' | 'blocked' | 'changeover' | 'operator' | 'safety' | 'pause';

export interface StopReason {
  readonly number: number;
  readonly kind: StopKind;
  /** What a person reads: "tuck jam". */
  readonly name: string;
  /** Where; undefined for what belongs to no one station. */
  readonly station?: string;
}

export interface StopDevice {
  readonly id: string;
  readonly name: string;
  /** A circuit is several buttons in series behind one bit: which one was pressed is asked, never guessed. */
  readonly kind: 'button' | 'circuit';
  /** Station it hangs beside; undefined for the main panel. */
  readonly station?: string;
  readonly side: Side;
  /** Loading position it belongs to, if any. */
  readonly position?: string;
  /** The places a circuit may stand for. Empty for a button. */
  readonly candidates: readonly string[];
}

export interface Guard {
  readonly id: string;
  readonly name: string;
  readonly side: Side;
  /** First and last station behind it. */
  readonly from: string;
  readonly to: string;
}

export interface Adjustment {
  /** Number on the machine: "5.2". */
  readonly number: string;
  readonly name: string;
  readonly station: string;
  readonly unit: string;
  readonly decimals: number;
  readonly min: number;
  readonly max: number;
  /** The book's number for each size id. */
  readonly book: ReadonlyMap<string, number>;
  /** Which way its wheel moves the number, and how far one turn does; undefined where the line file does not say. */
  readonly wheel?: Wheel;
  /** From which side the number is come up to, against the play of its screw. */
  readonly approach?: 'below' | 'above';
  /** It is clamped: loosened before it is moved, and tightened after. */
  readonly clamp?: boolean;
  /** Other stations whose rejects and stops it acts on, beside its own. */
  readonly actsOn?: readonly string[];
}

export interface Wheel {
  /** What turning it clockwise does to the number. */
  readonly clockwise: 'up' | 'down';
  /** By so much, in the adjustment's unit. */
  readonly perTurn: number;
}

/** [SH1] A step of a changeover that is no number. */
export interface ChangeoverStep {
  readonly id: string;
  readonly kind: 'part' | 'check' | 'approval';
  readonly name: string;
  /** Where; undefined for what belongs to no one station: it comes last. */
  readonly station?: string;
  /** In which kinds of changeover it is asked for. */
  readonly in: readonly ('size' | 'artwork' | 'startUp')[];
  /** Which part each size id takes; a size that is not named takes none. Undefined where it is the same for all. */
  readonly parts?: ReadonlyMap<string, string>;
  /** [SP4] Of a part: it is the board, and which lot of it is asked. */
  readonly lot?: boolean;
}

export interface Condition {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  readonly normal: readonly [number, number];
}

export interface Calendar {
  readonly shifts: readonly ShiftRule[];
  readonly pauses: readonly PauseRule[];
}

/** Wall-clock times in the line's zone; an end not after its start belongs to the next day. */
export interface ShiftRule {
  readonly id: string;
  readonly name: string;
  /** "06:00" */
  readonly from: string;
  readonly to: string;
  /** ISO weekdays on which it begins, 1 Monday to 7 Sunday. */
  readonly days: readonly number[];
}

/** A planned pause: taken somewhere in its window, for no longer than its allowance. */
export interface PauseRule {
  readonly id: string;
  readonly name: string;
  readonly shift: string;
  /** Window in wall-clock time. */
  readonly from: string;
  readonly to: string;
  readonly allowanceMinutes: number;
}

export interface Settings {
  /** A stop shorter than this is a minor stop. Minutes. */
  readonly minorStopMinutes: number;
  /** Stops at one station within this many cartons of restart are one episode. */
  readonly rejamCartons: number;
  /** Nobody is asked about a stop shorter than this. Seconds. */
  readonly askAfterSeconds: number;
  /** A changeover is over when the last this-many minutes brought `atRateShare` of target. */
  readonly atRateMinutes: number;
  readonly atRateShare: number;
  /** [CH5] So many cartons after a changeover are run to be looked at; 0 unless set. */
  readonly trialCartons: number;
  /** Below this, the order of two moments is not certain. Milliseconds: PLC scan or revised sampling. */
  readonly orderCertainMs: number;
  /** Share of the target that the plan expects; 1 unless set. */
  readonly planShare: number;
  /** A value older than this is stale, and older than the second is no data. Seconds. */
  readonly staleSeconds: number;
  readonly lostSeconds: number;
  /** Where a heartbeat is bound: a server that tells nothing for longer is not heard, though it answers. Seconds. */
  readonly heartbeatSeconds: number;
  /** A counter step above this many per minute (with margin) is a reset, never production. */
  readonly rateMax: number;
  /** Number people call when someone is hurt, as the site gives it; undefined shows no number. */
  readonly emergencyNumber?: string;
}

/** An order to make: a number, a size, how many, by when. */
export interface Order {
  readonly number: string;
  readonly size: string;
  readonly blend: string;
  readonly quantity: number;
  /** ISO 8601 moment; undefined when no date was given. */
  readonly due?: string;
}
