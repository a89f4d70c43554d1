import type { LineIndex } from '../fold/lineIndex.ts';
import type { ChangeoverRecord, StopRecord } from '../fold/state.ts';
import type { RecordBodies } from '../records/records.ts';
import { type Instant, MINUTE, type Span } from '../units/units.ts';
import { type CrewChange, type TargetChange, type TargetThen, targetThen } from './crewAt.ts';
import { joined, lengthWithout, outsideShifts, type Stretch, without } from './stretches.ts';

/** What the records hold of a stretch, and of some minutes before and after it. */
export interface Nearby {
  readonly minutes: readonly RecordBodies['minute'][];
  readonly stops: readonly StopRecord[];
  readonly gaps: readonly RecordBodies['gap'][];
}

/** A changeover as it was measured. All lengths are without its idle time. */
export interface Measured {
  readonly record: ChangeoverRecord;
  /** At rate; where it never was, when the next one began; where it goes on, now. */
  readonly over: Instant;
  readonly target: TargetThen;
  /** Time outside every shift, and of planned pauses within their allowance. */
  readonly idle: readonly Stretch[];
  /** Whole minutes that were not seen in part or at all. */
  readonly unseen: readonly Stretch[];
  /** Stops of the run-up; what it stood before is no stop. */
  readonly stops: readonly StopRecord[];
  readonly nearby: Nearby;
  readonly lasted: Span;
  readonly untilTrial: Span;
  readonly trial: Span | undefined;
  readonly runUp: Span | undefined;
  readonly untilFirstGood: Span | undefined;
  readonly lost: LostCartons | undefined;
}

/**
 * Cartons that it cost: its target × its time, less good cartons, both without idle time and what was not seen. In
 * cartons, not whole; the four add up to `all`.
 */
export interface LostCartons {
  readonly all: number;
  readonly stood: number;
  readonly stops: number;
  /** Rejected, not loaded, missed or crushed in the run-up. */
  readonly spoiled: number;
  readonly slow: number;
}

export function measure(
  index: LineIndex,
  record: ChangeoverRecord,
  nearby: Nearby,
  crew: readonly (CrewChange | TargetChange)[],
  now: Instant,
): Measured {
  const over = record.atRate ?? record.end ?? now;
  const back = record.productionBack;
  const whole = { from: record.begin, to: over };
  const idle = idleIn(index, whole, nearby.stops);
  const long = (from: Instant, to: Instant) => lengthWithout({ from, to }, idle);
  const trialEnd = back ?? over;
  const measured = {
    record,
    over,
    target: targetThen(index, crew, record.to, back ?? over),
    idle,
    unseen: joined(nearby.gaps.filter(({ kind }) => kind === 'unknown').map(wholeMinutes)),
    stops: nearby.stops.filter(
      (stop) => back !== null && stop.begin >= back && stop.begin < over && stop.class !== 'changeover',
    ),
    nearby,
    lasted: long(record.begin, over),
    untilTrial: long(record.begin, record.trialBegan ?? trialEnd),
    trial: record.trialBegan === null ? undefined : long(record.trialBegan, trialEnd),
    runUp: back === null ? undefined : long(back, over),
    untilFirstGood: record.firstGood === null ? undefined : long(record.begin, record.firstGood),
  };
  return { ...measured, lost: lostIn(index, measured) };
}

function lostIn(index: LineIndex, measured: Omit<Measured, 'lost'>): LostCartons | undefined {
  const { record, over, target, idle, unseen, stops } = measured;
  const back = record.productionBack ?? over;
  const good = goodBetween(index, measured, record.begin, over);
  const spoiled = countedBetween(spoiledPlaces(index), measured, back, over);
  if (target.perMinute <= 0 || good === undefined || spoiled === undefined) return undefined;
  const left = joined([...idle, ...unseen]);
  const possible = (from: Instant, to: Instant) =>
    (lengthWithout({ from, to }, left) * target.perMinute) / MINUTE;
  const all = possible(record.begin, over) - good;
  const stood = possible(record.begin, back);
  const inStops = stops.reduce(
    (sum, { begin, end }) => sum + possible(begin, Math.min(over, end ?? over) as Instant),
    0,
  );
  return { all, stood, stops: inStops, spoiled, slow: all - stood - inStops - spoiled };
}

/** Good cartons between two moments, without what was not seen; undefined where the records do not reach. */
export function goodBetween(
  index: LineIndex,
  measured: Pick<Measured, 'nearby' | 'unseen'>,
  from: Instant,
  to: Instant,
): number | undefined {
  const places = index.tallied.flatMap((signal, place) =>
    index.line.signals[signal]?.role === 'goodCount' ? [place] : [],
  );
  return countedBetween(places, measured, from, to);
}

function spoiledPlaces(index: LineIndex): readonly number[] {
  return index.tallied.flatMap((signal, place) => {
    const role = index.line.signals[signal]?.role;
    const counts =
      role === 'rejectCount' ||
      role === 'missedPickCount' ||
      role === 'crushedCount' ||
      (role === 'notLoadedCount' && index.notLoadedFrom === 'positions');
    return counts ? [place] : [];
  });
}

function countedBetween(
  places: readonly number[],
  { nearby, unseen }: Pick<Measured, 'nearby' | 'unseen'>,
  from: Instant,
  to: Instant,
): number | undefined {
  let sum = 0;
  for (const seen of without({ from, to }, unseen)) {
    const [before, after] = [tallyAt(nearby, places, seen.from), tallyAt(nearby, places, seen.to)];
    if (before === undefined || after === undefined) return undefined;
    sum += after - before;
  }
  return sum;
}

/**
 * What counters had counted at a moment. They are kept by the minute: within one, what was counted is spread over the
 * time in which the line did not stand.
 */
function tallyAt({ minutes, stops }: Nearby, places: readonly number[], at: Instant): number | undefined {
  const place = minutes.findLastIndex((minute) => minute.at <= at);
  const [before, after] = [minutes[place], minutes[place + 1]];
  if (!before) return undefined;
  const sum = ({ tally }: RecordBodies['minute']) =>
    places.reduce((total, counter) => total + (tally[counter] ?? 0), 0);
  if (!after) return sum(before);
  const stood = stops.map(({ begin, end }) => ({ from: begin, to: end ?? after.at }));
  const ran = (to: Instant) => lengthWithout({ from: before.at, to }, stood);
  const all = ran(after.at);
  const share = all > 0 ? ran(at) / all : (at - before.at) / (after.at - before.at);
  return sum(before) + share * (sum(after) - sum(before));
}

function idleIn({ line }: LineIndex, whole: Stretch, stops: readonly StopRecord[]): readonly Stretch[] {
  const pauses = stops
    .filter((stop) => stop.class === 'pause')
    .map(({ begin, end, allowance }) => ({
      from: Math.max(begin, whole.from) as Instant,
      to: Math.min(begin + allowance, end ?? whole.to, whole.to) as Instant,
    }));
  return joined([...outsideShifts(line.calendar, line.zone, whole), ...pauses]);
}

function wholeMinutes({ from, to }: Stretch): Stretch {
  return {
    from: (Math.floor(from / MINUTE) * MINUTE) as Instant,
    to: (Math.ceil(to / MINUTE) * MINUTE) as Instant,
  };
}
