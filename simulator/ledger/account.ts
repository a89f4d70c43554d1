import type { Line, StopKind } from '../../model/line/line.ts';
import { after, type Instant, type Span } from '../../model/units/units.ts';
import { changeoversAtRate } from './atRate.ts';
import type { TargetEntry } from './entries.ts';
import type { Ledger } from './ledger.ts';
import { payerAt, type Payer, payersOf } from './payers.ts';
import { type TakenPause, takenPauses } from './pauses.ts';

/** A carton in parts: a tenth of a carton per minute for one tick is one part. */
export const partsPerCarton = 6_000_000_000;

/** What a stretch of time could have made, what it made, and who lost the rest; in parts, without a rest. */
export interface Account {
  /** Parts. */
  readonly possible: number;
  /** Whole cartons. */
  readonly good: number;
  /** Parts by `station|cause`; the station is empty for what belongs to no one. Zeroes are left out. */
  readonly lost: ReadonlyMap<string, number>;
  /** Ticks by class of time. */
  readonly classes: ReadonlyMap<TimeClass, number>;
  readonly counts: Counts;
}

export type TimeClass =
  | 'producing'
  | 'stopped'
  | 'starved'
  | 'blocked'
  | 'changeover'
  | 'safetyStop'
  | 'plannedPause'
  | 'pauseOver'
  | 'isolated'
  | 'noData';

export interface Counts {
  readonly rejects: ReadonlyMap<string, number>;
  readonly notLoaded: number;
  readonly missed: number;
  readonly crushed: number;
  readonly trialCartons: number;
  /** Stops that began in it. */
  readonly stops: number;
  readonly presses: number;
}

/**
 * The account of `[from, to)` as it stands at `to`, worked out from the whole ledger at once by the rules LO1 to
 * LO8, CH2 and CL1 of model/SPEC.md, read as README.md of this folder says.
 */
export function accountOf(ledger: Ledger, line: Line, from: Instant, to: Instant): Account {
  const pauses = takenPauses(ledger, line, to);
  const payers = payersOf(ledger, line, { changeovers: changeoversAtRate(ledger, line, to), pauses }, to);
  const lost = new Map<string, number>();
  const charge = (key: string, parts: number) => lost.set(key, (lost.get(key) ?? 0) + parts);
  const possible = chargeTime(payers, pauses, ledger, line, from, to, charge);
  const good = chargeCartons(ledger, line, payers, from, to, charge);
  for (const [key, parts] of lost) if (parts === 0) lost.delete(key);
  return {
    possible,
    good,
    lost,
    classes: classesOf(ledger, line, pauses, from, to),
    counts: countsOf(ledger, from, to),
  };
}

/** Charges every tick that is possible time to its payer; answers how many parts that was. */
function chargeTime(
  payers: readonly Payer[],
  pauses: readonly TakenPause[],
  ledger: Ledger,
  line: Line,
  from: Instant,
  to: Instant,
  charge: (key: string, parts: number) => void,
): number {
  let possible = 0;
  for (const piece of pieces(from, to, edges(payers, pauses, ledger.targets))) {
    const payer = payerAt(payers, piece.from);
    const target = targetAt(ledger.targets, piece.from);
    const pause = pauses.find(({ begin, end }) => begin <= piece.from && piece.from < end);
    if (!payer || !target || (pause && piece.from < pause.allowedUntil)) continue;
    const parts = (piece.to - piece.from) * tenths(line, target);
    possible += parts;
    charge(payer.key, parts);
  }
  return possible;
}

/** Charges what was lost in whole cartons to its own station, and credits it, like every good carton, to the payer. */
function chargeCartons(
  ledger: Ledger,
  line: Line,
  payers: readonly Payer[],
  from: Instant,
  to: Instant,
  charge: (key: string, parts: number) => void,
): number {
  let good = 0;
  const within = ({ at, mode }: { readonly at: Instant; readonly mode: string }) =>
    at >= from && at < to && mode === 'produce';
  const credit = (at: Instant, cartons: number) =>
    charge(payerAt(payers, at, true)?.key ?? '|slow', -cartons * partsPerCarton);
  const lose = (key: string, at: Instant, cartons: number) => {
    charge(key, cartons * partsPerCarton);
    credit(at, cartons);
  };
  for (const carton of ledger.cartons) {
    if (!within(carton)) continue;
    if (carton.fate === 'good') {
      good += 1;
      credit(carton.at, 1);
    } else if (carton.fate === 'notLoaded') lose(`${line.loading.station}|notLoaded`, carton.at, 1);
    else if (carton.fate === 'rejected') lose(`${stationOfReject(line, carton.reason)}|reject`, carton.at, 1);
  }
  for (const missed of ledger.missed) if (within(missed)) lose('pick|missedPick', missed.at, 1);
  for (const crushed of ledger.crushed)
    if (within(crushed)) lose(`${crushed.station}|crushed`, crushed.at, crushed.cartons);
  return good;
}

function stationOfReject(line: Line, reason: string | undefined): string {
  return line.rejects.find(({ id }) => id === reason)?.station ?? '';
}

/** Target in tenths of a carton per minute, as the line's file has it for this size and crew. */
function tenths(line: Line, { size, crew }: TargetEntry): number {
  return Math.round((line.sizes.find(({ id }) => id === size)?.targets.get(crew) ?? 0) * 10);
}

/** The target that holds at a moment: the last one written up to then. */
export function targetAt(targets: readonly TargetEntry[], at: Instant): TargetEntry | undefined {
  return targets.findLast((target) => target.at <= at);
}

interface Piece {
  readonly from: Instant;
  readonly to: Instant;
}

/** Cuts a stretch of time at every edge within it. */
function pieces(from: Instant, to: Instant, cuts: readonly Instant[]): Piece[] {
  const inside = [...new Set(cuts.filter((cut) => cut > from && cut < to))].sort((a, b) => a - b);
  const all = [from, ...inside, to];
  return all.slice(1).map((end, index) => ({ from: all[index] as Instant, to: end }));
}

function edges(
  payers: readonly Payer[],
  pauses: readonly TakenPause[],
  targets: readonly TargetEntry[],
): Instant[] {
  return [
    ...payers.flatMap(({ from, to }) => [from, to]),
    ...pauses.flatMap(({ begin, allowedUntil, end }) => [begin, allowedUntil, end]),
    ...targets.map(({ at }) => at),
  ];
}

const classOfKind: Readonly<Record<StopKind, TimeClass>> = {
  machine: 'stopped',
  operator: 'stopped',
  pause: 'stopped',
  starved: 'starved',
  blocked: 'blocked',
  changeover: 'changeover',
  safety: 'safetyStop',
};

/** Every tick in exactly one class. */
function classesOf(
  ledger: Ledger,
  line: Line,
  pauses: readonly TakenPause[],
  from: Instant,
  to: Instant,
): Map<TimeClass, number> {
  const classes = new Map<TimeClass, number>();
  const cuts = [
    ledger.start.at,
    ...ledger.stops.flatMap(({ begin, end }) => [begin, end ?? to]),
    ...ledger.darks.flatMap((dark) => [dark.from, dark.to ?? to]),
    ...pauses.flatMap(({ allowedUntil }) => [allowedUntil]),
  ];
  for (const piece of pieces(from, to, cuts)) {
    const name = classAt(ledger, line, pauses, piece.from);
    classes.set(name, (classes.get(name) ?? 0) + (piece.to - piece.from));
  }
  return classes;
}

function classAt(ledger: Ledger, line: Line, pauses: readonly TakenPause[], at: Instant): TimeClass {
  if (at < ledger.start.at) return 'noData';
  if (ledger.darks.some((dark) => dark.from <= at && at < (dark.to ?? after(at, 1 as Span))))
    return 'isolated';
  const stop = ledger.stops.find(({ begin, end }) => begin <= at && (end === undefined || at < end));
  if (!stop) return 'producing';
  const pause = pauses.find(({ begin }) => begin === stop.begin);
  if (pause) return at < pause.allowedUntil ? 'plannedPause' : 'pauseOver';
  return classOfKind[kindOf(line, stop.number)];
}

/** What a line's file says a first-out number is. */
export function kindOf(line: Line, number: number): StopKind {
  return line.reasons.find((reason) => reason.number === number)?.kind ?? 'machine';
}

function countsOf(ledger: Ledger, from: Instant, to: Instant): Counts {
  const within = ({ at, mode }: { readonly at: Instant; readonly mode: string }) =>
    at >= from && at < to && mode === 'produce';
  const rejects = new Map<string, number>();
  const ended = ledger.cartons.filter(within);
  for (const { reason, fate } of ended) {
    if (fate === 'rejected' && reason !== undefined) rejects.set(reason, (rejects.get(reason) ?? 0) + 1);
  }
  return {
    rejects,
    notLoaded: ended.filter(({ fate }) => fate === 'notLoaded').length,
    missed: ledger.missed.filter(within).length,
    crushed: ledger.crushed.filter(within).reduce((sum, { cartons }) => sum + cartons, 0),
    trialCartons: ledger.cartons.filter(
      ({ at, mode, fate }) => at >= from && at < to && mode === 'setup' && fate === 'good',
    ).length,
    stops: ledger.stops.filter(({ begin }) => begin >= from && begin < to).length,
    presses: ledger.presses.filter(({ pressed }) => pressed >= from && pressed < to).length,
  };
}
