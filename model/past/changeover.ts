import type { LineIndex } from '../fold/lineIndex.ts';
import type { ChangeoverKind, ChangeoverRecord } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import {
  type EpochMs,
  epochMs,
  type Instant,
  type Millis,
  MINUTE,
  millis,
  minutes,
  type Span,
} from '../units/units.ts';
import type { ChangeoverNumbers } from './changeoverNumbers.ts';
import { type Measured, measure, type Nearby } from './changeoverMeasure.ts';
import type { CrewChange, TargetChange } from './crewAt.ts';
import type { PastAsked } from './past.ts';
import { lengthWithout } from './stretches.ts';

export interface PastChangeover {
  /** Its beginning: milliseconds since 1970. */
  readonly id: string;
  readonly kind: ChangeoverKind;
  readonly from: string | undefined;
  readonly to: string | undefined;
  readonly fromBlend: string | undefined;
  readonly at: EpochMs;
  readonly trialBegan: EpochMs | undefined;
  readonly productionBack: EpochMs | undefined;
  readonly firstGood: EpochMs | undefined;
  readonly over: EpochMs;
  /** atRate: run up to its target. replaced: the next began before. goesOn: not over yet. */
  readonly ends: 'atRate' | 'replaced' | 'goesOn';
  /** All lengths are without `idle`: time outside shifts, and of planned pauses within their allowance. */
  readonly lasted: Millis;
  readonly stood: Millis;
  readonly untilTrial: Millis;
  readonly trial: Millis | undefined;
  readonly runUp: Millis | undefined;
  readonly untilFirstGood: Millis | undefined;
  readonly idle: Millis;
  /** Whole minutes of it that were not seen: they cost nothing, for want of sight. */
  readonly unseen: Millis;
  readonly trialCartons: number;
  readonly stops: number;
  /** Cartons per minute of the new size; 0 where the size is not known. */
  readonly target: number;
  readonly crew: number;
  /** False where nobody said how many loaded: it is the usual crew. */
  readonly crewSaid: boolean;
  /** Whole cartons; undefined where records or target are missing. */
  readonly lost: number | undefined;
}

/** Which changeovers are wanted; all that is left out does not matter. */
export interface ChangeoverFilter {
  readonly kind?: ChangeoverKind | undefined;
  /** Id of a pair of sizes, as `pairs` gives it. */
  readonly pair?: string | undefined;
}

export interface ChangeoversAsked extends PastAsked {
  readonly now: Instant;
  /** Those of the stretch, the newest of all and the one to open; the oldest first, the running one as it is now. */
  readonly changeovers: readonly ChangeoverRecord[];
  /** Those before one of them that are of its kind and pair, the newest at least; the oldest first. */
  readonly alike: (one: ChangeoverRecord) => readonly ChangeoverRecord[];
  readonly near: (from: Instant, to: Instant) => Nearby;
  /** What `make` works out of records that began before `to`; it may have been worked out before. */
  readonly remember: <Value>(key: string, to: Instant, make: () => Value) => Value;
  readonly gaps: readonly RecordBodies['gap'][];
  /** [CH4] What was changed in one of them. */
  readonly numbers: (record: ChangeoverRecord, over: Instant) => ChangeoverNumbers;
  /** From when on there are records at all. */
  readonly begun: Instant;
  /** What was said of the crew up to a moment, the newest at least. */
  readonly crew: (at: Instant) => readonly (CrewChange | TargetChange)[];
  readonly filter: ChangeoverFilter;
  /** Id of the one to open; without it the newest that is wanted. */
  readonly open?: string | undefined;
  /** So many of the list at most. */
  readonly most: number;
}

/** Minutes looked at before and after a changeover. */
export const MARGIN = minutes(6);

/** Those of the same kind and, of sizes, of the same pair, before one of them; the oldest first. */
export function alikeBefore(
  changeovers: readonly ChangeoverRecord[],
  one: ChangeoverRecord,
): readonly ChangeoverRecord[] {
  return changeovers.filter(
    ({ begin, atRate, kind, from, to }) =>
      begin < one.begin &&
      atRate !== null &&
      kind === one.kind &&
      (kind !== 'size' || (from === one.from && to === one.to)),
  );
}

export function measuredIn(asked: ChangeoversAsked, record: ChangeoverRecord, further = 0 as Span): Measured {
  const ended = record.atRate ?? record.end;
  const over = ended ?? asked.now;
  const to = reachOf(over, further);
  const make = () =>
    measure(
      asked.index,
      record,
      asked.near((record.begin - MARGIN - 2 * MINUTE) as Instant, to),
      asked.crew(record.productionBack ?? over),
      asked.now,
    );
  return ended === null ? make() : asked.remember(`changeover ${record.begin} ${further}`, to, make);
}

/** Up to where records are looked at for one that was over by a moment. */
export function reachOf(over: Instant, further: Span): Instant {
  return (over + MARGIN + further) as Instant;
}

export function pastChangeover(index: LineIndex, measured: Measured): PastChangeover {
  const { record, over, target, lost } = measured;
  const name = (id: string | null) => index.sizeById.get(id ?? '')?.name ?? id ?? undefined;
  const moment = (at: Instant | null) => (at === null ? undefined : epochMs(at));
  const long = (span: Span | undefined) => (span === undefined ? undefined : millis(span));
  return {
    id: String(epochMs(record.begin)),
    kind: record.kind,
    from: name(record.from),
    to: name(record.to),
    fromBlend: record.fromBlend ?? undefined,
    at: epochMs(record.begin),
    trialBegan: moment(record.trialBegan),
    productionBack: moment(record.productionBack),
    firstGood: moment(record.firstGood),
    over: epochMs(over),
    ends: record.atRate !== null ? 'atRate' : record.end !== null ? 'replaced' : 'goesOn',
    lasted: millis(measured.lasted),
    stood: millis((measured.untilTrial + (measured.trial ?? 0)) as Span),
    untilTrial: millis(measured.untilTrial),
    trial: long(measured.trial),
    runUp: long(measured.runUp),
    untilFirstGood: long(measured.untilFirstGood),
    idle: millis((over - record.begin - measured.lasted) as Span),
    unseen: millis(
      (over - record.begin - lengthWithout({ from: record.begin, to: over }, measured.unseen)) as Span,
    ),
    trialCartons: record.trialCartons,
    stops: measured.stops.filter((stop) => stop.class !== 'pause').length,
    target: target.perMinute,
    crew: target.crew,
    crewSaid: target.said,
    lost: lost && Math.round(lost.all),
  };
}
