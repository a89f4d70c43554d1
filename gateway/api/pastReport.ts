import type { z } from 'zod';
import type { Report } from '../../model/report/report.ts';
import { reportNotes, reportStops, reportUnseen, sizeShares } from '../../model/report/reportParts.ts';
import { momentOf, type ReportPeriod, reportPeriod } from '../../model/report/reportPeriod.ts';
import { reportStations } from '../../model/report/reportStations.ts';
import { reportStrip } from '../../model/report/reportStrip.ts';
import { bySize } from '../../model/past/figureStretches.ts';
import { safetyPast } from '../../model/past/safetyPast.ts';
import { stationRef } from '../../model/past/past.ts';
import { type StationsPast, sumOfCauses } from '../../model/past/stationsPast.ts';
import { tenthsFor } from '../../model/fold/target.ts';
import { epochMs, HOUR, type Instant, type Millis, type Span } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
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
/** A strip of a longer period than this has no room for its minutes. */
const STRIP_MOST = (9 * 24 * HOUR) as Span;

/** From when to when a report is asked for; undefined where there is no such shift, order or size. */
export function periodAsked(records: Records, live: LiveLine, query: ReportQuery): ReportPeriod | undefined {
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
export function reportOf(records: Records, live: LiveLine, period: ReportPeriod): Report {
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
  const stops = stopsOf(records, live, { ...query, station: undefined, most: 1000 });
  const changeovers = changeoversOf(records, live, {
    ...query,
    kind: undefined,
    pair: undefined,
    at: undefined,
    most: CHANGEOVERS_MOST,
  });
  const ran = new Set(stretches.flatMap((stretch) => bySize(stretch, of('size'))).map(({ size }) => size));
  return {
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
    strip: stripOf(records, live, period),
    stations: stationsIn(records, live, period, stations),
    stops: reportStops(stops, stops.list, kind === 'shift'),
    safety: safetyIn(records, live, query),
    changeovers: changeovers.list.toReversed(),
    moreChangeovers: Math.max(0, changeovers.changeovers - CHANGEOVERS_MOST),
    ...reportUnseen(gapsIn(records, live, asked), period, begunOf(records, live, asked)),
    ...withCounts(live, reportNotes(index, of('entry'))),
    model: live.version,
    position: live.position(),
    made: epochMs(live.now()),
  };
}

function stationsIn(
  records: Records,
  live: LiveLine,
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
  // of a size there are many stretches, and what is laid to stations is kept of all sizes together
  const laid = filter.size === undefined ? attributedIn(records, live, period) : undefined;
  return reportStations(index, shares).map((one) => {
    const sum = account?.stations.find(({ station }) => station.id === one.id);
    return {
      ...one,
      station: stationRef(index, one.id)!,
      laid: laid?.stations.find(({ station }) => station === one.id)?.cartons,
      lost: sum?.lost,
      stops: sum?.stops ?? 0,
      stood: sum?.stood ?? (0 as Millis),
    };
  });
}

function stripOf(records: Records, live: LiveLine, { from, to }: ReportPeriod): Report['strip'] {
  const { index } = live.fold();
  const of = recordsIn(records, live.line.id, { from, to });
  const size = of('size').at(-1)?.size;
  const ran = size === undefined ? undefined : index.sizeById.get(size);
  const places = index.tallied.flatMap((signal, place) =>
    index.line.signals[signal]!.role === 'goodCount' ? [place] : [],
  );
  const short = to - from <= STRIP_MOST;
  return reportStrip({
    from,
    to,
    minutes: short ? of('minute') : [],
    good: places,
    before: talliesOf(records, live, to)(from),
    stops: of('stop'),
    gaps: gapsIn(records, live, { from, to }),
    begun: begunOf(records, live, { to }),
    target: ran && tenthsFor(ran, index.line.loading.crew) / 10,
    stationOf: (id) => stationRef(index, id),
  });
}

function safetyIn(
  records: Records,
  live: LiveLine,
  { from, to }: { readonly from: number; readonly to: number },
): Report['safety'] {
  const asked = safetyAsked(records, live, { from, to, device: undefined, most: 1000 });
  const past = safetyPast({ ...asked, standstills: new Map() });
  return {
    list: past.list
      .filter(({ kind }) => kind === 'pressed')
      .slice(0, USES_MOST)
      .reverse()
      .map((use) => ({ ...use, candidates: [] })),
    uses: past.presses.uses,
    caused: past.presses.caused,
    ranOn: past.ranOn.length,
    notExplained: past.ranOn.filter(({ reading }) => reading === 'lasts' || reading === 'open').length,
  };
}

/** Counted cartons of orders that were handed over, where the line still remembers them. */
function withCounts(live: LiveLine, parts: ReturnType<typeof reportNotes>): ReturnType<typeof reportNotes> {
  const { orders } = live.fold().state;
  return {
    ...parts,
    handedOver: parts.handedOver.map((one) => ({
      ...one,
      counted: orders.find(({ number }) => number === one.order)?.good,
    })),
  };
}
