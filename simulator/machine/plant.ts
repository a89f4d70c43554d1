import type { Instant, Span } from '../../model/units/units.ts';
import type { LedgerEntry, ModeName } from '../ledger/entries.ts';
import type { ReasonKind } from '../lines/cartoner.ts';
import type { Position, Variant } from '../lines/variant.ts';
import type { Pockets } from './cartons.ts';
import type { Noted } from './notebook.ts';
import type { Settled } from './options.ts';
import type { PlannedOrder } from './orders.ts';
import type { Plc } from './plc.ts';
import { type Draw, stream } from './random.ts';
import type { Setpoints } from './setpoints.ts';

/** States the cartoner goes through, with their numbers in OPC 30050. */
export const stateNumbers = {
  Clearing: 1,
  Stopped: 2,
  Starting: 3,
  Idle: 4,
  Suspended: 5,
  Execute: 6,
  Stopping: 7,
  Aborting: 8,
  Aborted: 9,
  Holding: 10,
  Held: 11,
  Unholding: 12,
  Suspending: 13,
  Unsuspending: 14,
  Resetting: 15,
} as const;
export type StateName = keyof typeof stateNumbers;

/** Something that happens over time: it does a piece of work, then says when it goes on. */
export type Script<Result = void> = Generator<Instant, Result, void>;

/** Waits until somebody wakes the script. */
export const NEVER = Number.POSITIVE_INFINITY as Instant;

export interface Slot {
  next: Instant;
  script: Script;
}

/** Why production was left. */
export interface Cause {
  readonly number: number;
  readonly kind: ReasonKind;
  readonly station?: string;
  readonly by: 'machine' | 'surroundings' | 'people';
  readonly truth?: string;
  /** It comes of a trouble that was not cleared well. */
  readonly again?: boolean;
}

/** A jam that has just happened at a pocket. */
export interface Fault {
  readonly number: number;
  readonly station: string;
  readonly distance: number;
  readonly again: boolean;
}

export interface OpenStop {
  readonly begin: Instant;
  readonly cause: Cause;
  readonly episode: number;
  readonly attempt: number;
}

export interface OpenPress {
  readonly device: string;
  readonly button: string;
  readonly pressed: Instant;
  readonly role: 'caused' | 'during';
  readonly why: 'jam' | 'alone' | 'test';
  readonly tag: string;
  released?: Instant;
  reset?: Instant;
  restarted?: Instant;
}

export interface OpenGuard {
  readonly guard: string;
  readonly tag: string;
  readonly opened: Instant;
  running: boolean;
  readonly enabling: boolean;
}

export interface OpenChangeover {
  readonly begin: Instant;
  readonly from: PlannedOrder;
  readonly to: PlannedOrder;
  trialCartons: number;
}

/** How one loading position is doing. */
export interface Loader {
  readonly position: Position;
  /** Share of pockets missed even on a good day. */
  readonly slips: number;
  /** Pockets for which the hands are still behind. */
  behind: number;
}

const concerns = [
  'crank',
  'picks',
  'folds',
  'loading',
  'clearing',
  'lock-outs',
  'presses',
  'people',
  'incidents',
  'breaks',
  'setter',
  'notebook',
  'speed',
  'guards',
  'drift',
  'vacuum',
  'air',
  'drive',
  'heart',
  'sensors',
  'handling',
] as const;
export type Concern = (typeof concerns)[number];
export type Draws = Readonly<Record<Concern, Draw>>;

/**
 * Everything the machine is at one moment. It is changed in place by the scripts of this folder and by nobody else:
 * the face of it, `machine.ts`, gives out only what was told and recorded.
 */
export interface Plant {
  readonly options: Settled;
  readonly variant: Variant;
  readonly draw: Draws;
  readonly plc: Plc;
  readonly pockets: Pockets;
  readonly setpoints: Setpoints;
  readonly loaders: readonly Loader[];
  readonly crew: number;
  readonly slots: { readonly life: Slot; readonly crank: Slot };
  entries: LedgerEntry[];
  /** What people wrote down. */
  notebook: Noted[];
  now: Instant;
  state: StateName;
  mode: ModeName;
  /** The crank turns. */
  driving: boolean;
  angle: number;
  cycles: number;
  cartons: number;
  /** Set speed in cartons per minute, and the share of it that is reached. */
  speedSet: number;
  factor: number;
  dip: number;
  rampFrom: number;
  rampBegan: Instant;
  rampLasts: Span;
  fault: Fault | undefined;
  stop: OpenStop | undefined;
  episodes: number;
  /** Place in the order plan, and good cartons made of it. */
  place: number;
  order: PlannedOrder;
  orderGood: number;
  orderDone: boolean;
  lotLeft: number;
  missesInRow: number;
  missesToCome: number;
  /** Rests of a jam that was not cleared well. */
  residue: { station: string; cartons: number; episode: number; attempt: number } | undefined;
  /** The guide that works loose: adjustment number and tolerances per hour. */
  loose: { readonly number: string; readonly perHour: number; carried: number } | undefined;
  jamsOfLate: { readonly station: string; readonly at: Instant }[];
  presses: OpenPress[];
  guards: OpenGuard[];
  changeover: OpenChangeover | undefined;
  pause: { readonly rule: string; readonly begin: Instant } | undefined;
  darkSince: Instant | undefined;
}

export function drawsOf(seed: number): Draws {
  return Object.fromEntries(concerns.map((concern) => [concern, stream(seed, concern)])) as Record<
    Concern,
    Draw
  >;
}

export function record(plant: Plant, entry: LedgerEntry): void {
  plant.entries.push(entry);
}

/** The line produces: what the model calls production, as the machine itself knows it. */
export function producing(plant: Plant): boolean {
  return plant.state === 'Execute' && plant.mode === 'produce';
}

/** The moment so many seconds from now, to the tick. */
export function inSeconds(plant: Plant, seconds: number): Instant {
  return (plant.now + Math.max(1, Math.round(seconds * 10_000_000))) as Instant;
}
