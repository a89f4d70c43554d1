import type { LineIndex } from '../fold/lineIndex.ts';
import * as kpi from '../kpi/kpi.ts';
import { coverageOf, type FiguresPast, producedOf } from '../past/figuresPast.ts';
import { stationCounts } from '../past/stationCounts.ts';
import type { Interval } from '../statistics/interval.ts';
import { mtbfBounds, mtbfLowerBound } from '../statistics/mtbfBounds.ts';
import { clopperPearson } from '../statistics/proportion.ts';
import type { FigureId } from './figures.ts';

/** What a figure comes to over a period. Where it has no value, why; an estimate has its range with `CONFIDENCE`. */
export interface FigureValue {
  readonly id: FigureId;
  readonly value: number | undefined;
  /** Between these; the upper one undefined where nothing bounds it. Both undefined for what is no estimate. */
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly none: NoValue | undefined;
}

/** noTime: over no time. noCartons: none were made. noFailure: then it is no number. noIdealRate: some cartons' size has none. byShift: it is kept by whole shifts, and this is none. noCounter: the line has no counter for it. notSeen: nobody was looking. */
export type NoValue =
  | 'noTime'
  | 'noCartons'
  | 'noFailure'
  | 'noIdealRate'
  | 'byShift'
  | 'noCounter'
  | 'notSeen'
  | 'notKnown';

export const CONFIDENCE = 0.95;

/** What is accounted by whole shifts: undefined where the period is no such. */
export interface ShiftAccount {
  readonly possible: number;
  readonly total: number;
}

export interface ValuesAsked {
  readonly index: LineIndex;
  readonly sum: FiguresPast;
  readonly account: ShiftAccount | undefined;
}

/** [KP4] Every figure that a period has, in the order of the registry; times in minutes, shares 0 to 1. */
export function figureValues(asked: ValuesAsked): readonly FigureValue[] {
  return [...cartons(asked), ...byShift(asked), ...times(asked.sum), ...ratios(asked), ...stops(asked.sum)];
}

function cartons({ index, sum }: ValuesAsked): readonly FigureValue[] {
  const { made, elements, notSeen, outside } = sum;
  const has = countersOf(index);
  // counted: only where there is a counter, and somebody looked or it told later
  const told = (id: FigureId, counter: boolean, value: number) =>
    counter ? counted(sum, id, value) : without(id, 'noCounter');
  const { pq, gq } = elements;
  const first = index.line.stations
    .map(({ id }) => stationCounts(index, sum.gained, id).presented)
    .find((presented) => presented !== undefined);
  return [
    told('good', true, made.good),
    told('rejected', has.rejects, made.rejected),
    told('crushed', has.crushed, made.crushed),
    told('notLoaded', has.notLoaded, made.notLoaded),
    told('missedPick', has.missed, made.missed),
    told('produced', true, producedOf(made)),
    exact('goodNotSeen', notSeen.good),
    exact('goodOutside', outside.good),
    told('goodSeen', true, gq),
    told('producedSeen', true, pq),
    told('presented', first !== undefined, first ?? 0),
    ...(has.rejects
      ? [
          over('qualityRatio', kpi.qualityRatio(elements), 'noCartons'),
          over('scrapRatio', kpi.scrapRatio(elements), 'noCartons'),
          first === undefined
            ? without('fallOffRatio', 'noCounter')
            : share('fallOffRatio', made.rejected, first, 1),
          share('rejectsPerThousand', made.rejected, producedOf(made), 1000),
        ]
      : (['qualityRatio', 'scrapRatio', 'fallOffRatio', 'rejectsPerThousand'] as const).map((id) =>
          without(id, 'noCounter'),
        )),
    over('runningRate', ratio(gq, elements.apt), 'noTime'),
  ];
}

function byShift({ account, sum }: ValuesAsked): readonly FigureValue[] {
  if (!account) return [without('possible', 'byShift'), without('lost', 'byShift')];
  if (sum.pot <= 0) return [without('possible', 'noTime'), without('lost', 'noTime')];
  return [counted(sum, 'possible', account.possible), counted(sum, 'lost', account.total)];
}

function times({ pot, plannedDown, unknown, isolated, elements }: FiguresPast): readonly FigureValue[] {
  const { pbt, apt, aust, adet, adot } = elements;
  return [
    exact('plannedOperationTime', pot),
    exact('plannedDownTime', plannedDown),
    exact('notSeen', unknown),
    exact('isolated', isolated),
    exact('plannedBusyTime', pbt),
    exact('actualProductionTime', apt),
    exact('setupTime', aust),
    exact('delayTime', adet),
    exact('downTime', adot),
    exact('processingTime', kpi.aupt(elements)),
    exact('busyTime', kpi.aubt(elements)),
    over('coverage', coverageOf({ pot, unknown }), 'noTime'),
  ];
}

function ratios({ index, sum: { elements, withoutRate } }: ValuesAsked): readonly FigureValue[] {
  const { rejects } = countersOf(index);
  // a size without an ideal rate would look as if its cartons had taken no time
  const paced = (id: FigureId, value: number | undefined) =>
    withoutRate > 0 ? without(id, 'noIdealRate') : over(id, value, 'noTime');
  return [
    withoutRate > 0 ? without('idealTime', 'noIdealRate') : exact('idealTime', elements.plannedRunTime),
    over('availability', kpi.availability(elements), 'noTime'),
    paced('effectiveness', kpi.effectiveness(elements)),
    // without a counter of rejects every carton would seem to be good
    rejects ? paced('oee', kpi.oee(elements)) : without('oee', 'noCounter'),
    rejects ? paced('nee', kpi.nee(elements)) : without('nee', 'noCounter'),
    over('technicalEfficiency', kpi.technicalEfficiency(elements), 'noTime'),
    over('allocationEfficiency', kpi.allocationEfficiency(elements), 'noTime'),
    over('utilizationEfficiency', kpi.utilizationEfficiency(elements), 'noTime'),
    over('setupRate', kpi.setupRate(elements), 'noTime'),
    over('throughput', kpi.throughputRate(elements), 'noTime'),
  ];
}

function stops(sum: FiguresPast): readonly FigureValue[] {
  const { elements, stops: counts } = sum;
  const seen = (id: FigureId, value: number) => counted(sum, id, value);
  const { failures } = elements;
  const time = kpi.aupt(elements);
  const bounds = mtbfBounds(time, failures, CONFIDENCE);
  return [
    seen('stops', counts.all),
    seen('ownStops', counts.own),
    seen('minorStops', counts.minor),
    seen('stood', counts.stood),
    seen('causedStops', counts.caused),
    seen('guardStops', counts.byGuard),
    seen('failures', failures),
    failures > 0 && bounds
      ? ranged('mtbf', kpi.mtbf(elements, 'failures'), bounds)
      : // no failure is no number: what it exceeds is, one-sided
        {
          ...without('mtbf', failures > 0 ? 'noTime' : 'noFailure'),
          lower: mtbfLowerBound(time, 0, CONFIDENCE),
        },
    over('mtbfOneMore', kpi.mtbf(elements, 'failuresPlusOne'), 'noFailure'),
    over('mttr', kpi.mttr(elements), 'noFailure'),
  ];
}

/** Which counters a line has: what nothing counts is not zero. */
function countersOf({ line, notLoadedFrom }: LineIndex) {
  const has = (role: string) => line.signals.some((signal) => signal.role === role);
  const means = (what: string) =>
    line.signals.some(
      ({ role, of }) => role === 'rejectCount' && line.rejects.find(({ id }) => id === of)?.means === what,
    );
  return {
    rejects: means('reject'),
    crushed: has('crushedCount'),
    missed: has('missedPickCount'),
    notLoaded: notLoadedFrom === 'discharge' ? means('notLoaded') : has('notLoadedCount'),
  };
}

/** None of something, while nobody was looking at all, is not known. */
function counted({ pot, unknown, made }: FiguresPast, id: FigureId, value: number): FigureValue {
  const dark = pot > 0 && unknown >= pot && producedOf(made) === 0;
  return dark && value === 0 ? without(id, 'notSeen') : exact(id, value);
}

function exact(id: FigureId, value: number): FigureValue {
  return { id, value, lower: undefined, upper: undefined, none: undefined };
}

function without(id: FigureId, none: NoValue): FigureValue {
  return { id, value: undefined, lower: undefined, upper: undefined, none };
}

function over(id: FigureId, value: number | undefined, none: NoValue): FigureValue {
  return value === undefined ? without(id, none) : exact(id, value);
}

/** An exact interval, whatever the true share is. */
function share(id: FigureId, count: number, of: number, times: number): FigureValue {
  const interval = clopperPearson(count, of, CONFIDENCE);
  if (!interval || count > of) return without(id, 'noCartons');
  return ranged(id, (count / of) * times, {
    lower: interval.lower * times,
    upper: interval.upper * times,
  });
}

function ranged(id: FigureId, value: number | undefined, { lower, upper }: Interval): FigureValue {
  return { id, value, lower, upper: upper === Infinity ? undefined : upper, none: undefined };
}

function ratio(part: number, whole: number): number | undefined {
  return whole > 0 ? part / whole : undefined;
}
