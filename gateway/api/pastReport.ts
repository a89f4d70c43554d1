import type { z } from 'zod';
import type { FigureId } from '../../model/figures/figures.ts';
import type { FigureValue } from '../../model/figures/figureValues.ts';
import type { PastChangeover } from '../../model/past/changeover.ts';
import type { Stretch } from '../../model/past/stretches.ts';
import type { Report } from '../../model/report/report.ts';
import { reportNotes, reportStops, reportUnseen, sizeShares } from '../../model/report/reportParts.ts';
import { momentOf, type ReportPeriod, reportPeriod } from '../../model/report/reportPeriod.ts';
import { reportStations } from '../../model/report/reportStations.ts';
import { reportStrip } from '../../model/report/reportStrip.ts';
import { bySize } from '../../model/past/figureStretches.ts';
import { safetyPast } from '../../model/past/safetyPast.ts';
import { stationRef } from '../../model/past/past.ts';
import { type StationsPast, sumOfCauses } from '../../model/past/stationsPast.ts';
import {
  type EpochMs,
  epochMs,
  HOUR,
  type Instant,
  type Millis,
  type Span,
} from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { begunOf, gapsIn, recordsIn } from './pastAsked.ts';
import { attributedIn } from './pastAttributed.ts';
import { changeoversOf } from './pastChangeovers.ts';
import { figuresOf, summed } from './pastFigures.ts';
import { safetyAsked } from './pastSafety.ts';
import { stationsOf } from './pastStations.ts';
import { stopsOf } from './pastStops.ts';
import { talliesOf } from './pastTallies.ts';
import type { reportQuery } from './reportSchema.ts';

export type ReportQuery = z.infer<typeof reportQuery>;

/** Runs with the same size that tell what is usual: of so long before, at most. */
const USUAL_FROM = (60 * 24 * HOUR) as Span;
/** Uses and changeovers that find room on a page. */
const USES_MOST = 3;
const CHANGEOVERS_MOST = 3;
/** All there are: what finds no room is counted from them. */
const LISTED_MOST = 1_000_000;

/** From when to when a report is asked for; undefined where there is no such shift, order or size. */
export function periodAsked(
  records: RecordsRead,
  live: LineRead,
  query: ReportQuery,
): ReportPeriod | undefined {
  const { calendar, zone, id, sizes } = live.fold().index.line;
  const now = live.now();
  if (query.size !== undefined && !sizes.some((size) => size.id === query.size)) return undefined;
  const first = records.first(id) ?? now;
  return reportPeriod({
    kind: query.kind,
    at: momentOf(query.at, now),
    now,
    calendar,
    zone,
    order: query.order,
    size: query.size,
    orders: query.kind === 'order' ? records.ask({ line: id, kind: 'order', from: first, to: now }) : [],
  });
}

/** The page of a period, as is known now. */
export function reportOf(records: RecordsRead, live: LineRead, period: ReportPeriod): Report {
  const { index } = live.fold();
  const { line } = index;
  const { kind, from, to, filter } = period;
  const asked = { index, from, to };
  const query = { from: epochMs(from), to: epochMs(to), ...filter, shift: undefined };
  const figures = figuresOf(records, live, query);
  const { stretches } = summed(records, live, query);
  const of = recordsIn(records, line.id, asked);
  const isWhole = kind === 'shift' || kind === 'week' || kind === 'month';
  const stations = isWhole ? stationsOf(records, live, query) : undefined;
  const begun = begunOf(records, live, asked);
  const seenFigures =
    begun > from ? figuresOf(records, live, { ...query, from: epochMs(begun) }).values : figures.values;
  const all = { ...query, station: undefined, most: LISTED_MOST };
  const changeovers = changeoversIn(records, live, query, isWhole ? undefined : stretches);
  const ran = new Set(stretches.flatMap((stretch) => bySize(stretch, of('size'))).map(({ size }) => size));
  return {
    format: 1,
    line: { id: line.id, name: line.name, product: line.product },
    zone: line.zone,
    kind,
    shift: period.shift,
    size: index.sizeById.get(filter.size ?? '')?.name,
    order: filter.order,
    from: epochMs(from),
    to: epochMs(to),
    goesOn: period.goesOn,
    sizes: line.sizes.filter(({ id }) => ran.has(id)).map(({ name }) => name),
    seen: figures.seen,
    figures: figures.values,
    lost: stations && {
      possible: stations.lost.possible,
      total: stations.lost.total,
      causes: sumOfCauses(stations),
      none: stations.none.lost,
    },
    strip: stripOf(records, live, {
      period,
      // before the records too: that nobody looked is drawn
      stretches: isWhole ? [period] : stretches,
      target: stations && meanTarget(stations.lost.possible, seenFigures),
    }),
    stations: stationsIn(records, live, period, stations),
    stops: reportStops(stopsOf(records, live, all, 'begun'), stopsOf(records, live, all).list, {
      from: epochMs(from),
      listed: kind === 'shift',
    }),
    safety: safetyIn(records, live, query, isWhole ? undefined : stretches),
    changeovers: changeovers.slice(-CHANGEOVERS_MOST),
    moreChangeovers: Math.max(0, changeovers.length - CHANGEOVERS_MOST),
    ...reportUnseen(gapsIn(records, live, asked), isWhole ? [period] : stretches, begun),
    ...withCounts(live, reportNotes(index, of('entry'))),
    model: live.version,
    position: live.position(),
    made: epochMs(live.now()),
  };
}

function stationsIn(
  records: RecordsRead,
  live: LineRead,
  period: ReportPeriod,
  account: StationsPast | undefined,
): Report['stations'] {
  const { index } = live.fold();
  const { from, to, filter } = period;
  const { stretches } = summed(records, live, {
    from: epochMs(from),
    to: epochMs(to),
    ...filter,
    shift: undefined,
  });
  const before = recordsIn(records, index.line.id, { from: (from - USUAL_FROM) as Instant, to: from });
  const shares = sizeShares(
    stretches,
    recordsIn(records, index.line.id, period)('size'),
    before('size'),
    talliesOf(records, live, to),
  );
  const laid = stretches.map((stretch) => attributedIn(records, live, stretch));
  const laidTo = (id: string) =>
    laid.reduce((sum, one) => sum + (one?.stations.find(({ station }) => station === id)?.cartons ?? 0), 0);
  return reportStations(index, shares).map((one) => {
    const sum = account?.stations.find(({ station }) => station.id === one.id);
    return {
      ...one,
      station: stationRef(index, one.id)!,
      laid: laid.some((part) => part !== undefined) ? laidTo(one.id) : undefined,
      lost: sum?.lost,
      stops: sum?.stops ?? 0,
      stood: sum?.stood ?? (0 as Millis),
    };
  });
}

export function stripOf(
  records: RecordsRead,
  live: LineRead,
  {
    period: { from, to },
    stretches,
    target,
    most,
  }: {
    readonly period: Stretch;
    readonly stretches: readonly Stretch[];
    readonly target: number | undefined;
    readonly most?: { readonly points: number; readonly cuts: number };
  },
): Report['strip'] {
  const { index } = live.fold();
  return reportStrip({
    from,
    to,
    stretches,
    tallyAt: talliesOf(records, live, to),
    good: index.tallied.flatMap((signal, place) =>
      index.line.signals[signal]!.role === 'goodCount' ? [place] : [],
    ),
    stops: recordsIn(records, live.line.id, { from, to })('stop'),
    gaps: gapsIn(records, live, { from, to }),
    begun: begunOf(records, live, { to }),
    target,
    stationOf: (id) => stationRef(index, id),
    ...(most ? { most } : {}),
  });
}

/** Of whole shifts: what was possible over the time that was planned, whatever sizes and crews there were. */
function meanTarget(possible: number, values: readonly FigureValue[]): number | undefined {
  const of = (id: FigureId) => values.find((one) => one.id === id)?.value ?? 0;
  const planned = of('plannedOperationTime') - of('plannedDownTime');
  return planned < 1 ? undefined : Math.round((10 * possible) / planned) / 10;
}

/** Presses and readings in a period; of an order or a size those that came while it ran. */
function safetyIn(
  records: RecordsRead,
  live: LineRead,
  { from, to }: { readonly from: number; readonly to: number },
  stretches: readonly Stretch[] | undefined,
): Report['safety'] {
  const asked = safetyAsked(records, live, { from, to, device: undefined, most: LISTED_MOST });
  const past = safetyPast({ ...asked, standstills: new Map() });
  const inIt = ({ at, until }: { readonly at: EpochMs; readonly until?: EpochMs | undefined }) =>
    at < to && (until ?? to) >= from && isIn(stretches, at);
  const pressed = past.list.filter((use) => use.kind === 'pressed' && inIt(use));
  const ranOn = past.ranOn.filter(inIt);
  return {
    list: pressed
      .slice(0, USES_MOST)
      .reverse()
      .map((use) => ({ ...use, candidates: [] })),
    uses: pressed.length,
    caused: pressed.filter(({ role }) => role === 'caused').length,
    ranOn: ranOn.length,
    notExplained: ranOn.filter(({ reading }) => reading === 'lasts' || reading === 'open').length,
  };
}

/** The oldest first; of an order or a size those after which it ran. */
function changeoversIn(
  records: RecordsRead,
  live: LineRead,
  query: { readonly from: number; readonly to: number },
  stretches: readonly Stretch[] | undefined,
): readonly PastChangeover[] {
  const { from, to } = query;
  const asked = { from, to, kind: undefined, pair: undefined, at: undefined, most: LISTED_MOST };
  return (
    changeoversOf(records, live, asked)
      .list.filter((one) => isIn(stretches, one.productionBack ?? one.at))
      // a report has the changeover itself; how many numbers stood off the book is the screen's
      .map(({ offBook: _, ...one }) => one)
      .toReversed()
  );
}

/** Whether a moment lies in one of some stretches; where there are none to ask, it does. */
function isIn(stretches: readonly Stretch[] | undefined, at: EpochMs): boolean {
  return stretches?.some((stretch) => at >= epochMs(stretch.from) && at < epochMs(stretch.to)) ?? true;
}

/** Counted cartons of orders that were handed over, where the line still remembers them. */
function withCounts(live: LineRead, parts: ReturnType<typeof reportNotes>): ReturnType<typeof reportNotes> {
  const { orders } = live.fold().state;
  return {
    ...parts,
    handedOver: parts.handedOver.map((one) => ({
      ...one,
      counted: orders.find(({ number }) => number === one.order)?.good,
    })),
  };
}
