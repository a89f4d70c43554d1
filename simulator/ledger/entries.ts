import type { Instant } from '../../model/units/units.ts';
import type { ReasonKind, RejectId } from '../lines/cartoner.ts';

/** One fact of the truth, as the machine knows it and no PLC tells it. Moments are ticks, as in `model/units`. */
export type LedgerEntry =
  | StartEntry
  | CartonEntry
  | MissedPickEntry
  | CrushedEntry
  | StopEntry
  | PressEntry
  | ChangeoverEntry
  | PauseEntry
  | TargetEntry
  | GuardEntry
  | DarkEntry
  | AdjustedEntry
  | LotEntry;

/** Modes of the machine, by the number that the PLC shows. */
export const modes = { produce: 1, maintenance: 2, manual: 3, setup: 4 } as const;
export type ModeName = keyof typeof modes;

/** Where everything begins: the cartons that already lie in the pockets are numbered like all that follow. */
export interface StartEntry {
  readonly kind: 'start';
  readonly at: Instant;
  readonly seed: number;
  readonly inPockets: number;
}

/** What became of one carton. `mode` is the machine's mode when it was decided: only `produce` is production. */
export interface CartonEntry {
  readonly kind: 'carton';
  readonly id: number;
  readonly picked: Instant;
  readonly at: Instant;
  readonly fate: 'good' | 'rejected' | 'notLoaded' | 'crushed';
  readonly mode: ModeName;
  readonly size: string;
  /** Coarse reason of the discharge check; undefined for a good carton and for one crushed in a jam. */
  readonly reason?: RejectId;
  /** Station that really spoiled it, or `hands` where people's did, and how. */
  readonly spoiledBy?: string;
  readonly how?: string;
  /** Loading position that left it empty. */
  readonly position?: string;
}

export interface MissedPickEntry {
  readonly kind: 'missed';
  readonly at: Instant;
  readonly mode: ModeName;
}

/** Cartons counted as crushed when a station's pockets were cleared. */
export interface CrushedEntry {
  readonly kind: 'crushed';
  readonly at: Instant;
  readonly station: string;
  readonly cartons: number;
  readonly mode: ModeName;
}

export interface StopEntry {
  readonly kind: 'stop';
  readonly begin: Instant;
  /** Undefined while it lasts. */
  readonly end?: Instant;
  /** Number of its first cause, as a first-out word shows it. */
  readonly number: number;
  readonly stopKind: ReasonKind;
  readonly station?: string;
  /** Stops that are tries at one trouble share an episode; the first try is 1. */
  readonly episode: number;
  readonly attempt: number;
  /** Whose doing it was: the machine's, its surroundings', or people's. */
  readonly by: 'machine' | 'surroundings' | 'people';
  /** What people did or lacked: for a stop that the PLC cannot explain. */
  readonly truth?: string;
}

export interface PressEntry {
  readonly kind: 'press';
  /** Stop device as the PLC shows it, and the button that a hand was on. */
  readonly device: string;
  readonly button: string;
  readonly pressed: Instant;
  readonly released?: Instant;
  readonly reset?: Instant;
  readonly restarted?: Instant;
  readonly firstGood?: Instant;
  /** caused: the line still produced. */
  readonly role: 'caused' | 'during';
  readonly why: 'jam' | 'alone' | 'test';
}

export interface ChangeoverEntry {
  readonly kind: 'changeover';
  readonly begin: Instant;
  /** Production returned; undefined while it has not. */
  readonly returned?: Instant;
  readonly change: 'size' | 'artwork';
  readonly fromOrder: string;
  readonly toOrder: string;
  readonly fromSize: string;
  readonly toSize: string;
  /** Good cartons counted in set-up mode. */
  readonly trialCartons: number;
}

/** A break as people took it, whatever its window allowed. */
export interface PauseEntry {
  readonly kind: 'pause';
  readonly rule: string;
  readonly begin: Instant;
  readonly end?: Instant;
}

/** The size tag now says this. */
export interface TargetEntry {
  readonly kind: 'target';
  readonly at: Instant;
  readonly size: string;
  readonly crew: number;
  readonly target: number;
}

export interface GuardEntry {
  readonly kind: 'guard';
  readonly guard: string;
  readonly opened: Instant;
  readonly closed?: Instant;
  /** The machine produced while it was open. */
  readonly running: boolean;
  readonly enabling: boolean;
}

/** The PLC had no power: nothing answered. */
export interface DarkEntry {
  readonly kind: 'dark';
  readonly from: Instant;
  readonly to?: Instant;
}

export interface AdjustedEntry {
  readonly kind: 'adjusted';
  readonly at: Instant;
  readonly number: string;
  readonly from: number;
  readonly to: number;
  /** The hidden right value at that moment. */
  readonly right: number;
  readonly why: 'changeover' | 'trial' | 'repair' | 'drift';
}

export interface LotEntry {
  readonly kind: 'lot';
  readonly at: Instant;
  readonly lot: string;
}
