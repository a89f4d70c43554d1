import { z } from 'zod';
import { adjustmentsNow } from '../../model/past/adjustmentsNow.ts';
import { batchLimit } from '../../model/normal/batchLimit.ts';
import { type BatchesAsked, batchTrend, type Run } from '../../model/past/batches.ts';
import { loadedByHand } from '../../model/past/loadedByHand.ts';
import { PIECE_MOST } from '../../model/past/pieces.ts';
import { gainedBetween, judgedBy } from '../../model/past/stationCounts.ts';
import type { StationTrend } from '../../model/past/stationPast.ts';
import { type StationsAsked, type StationsPast, stationsPast } from '../../model/past/stationsPast.ts';
import { stopsPast } from '../../model/past/stopsPast.ts';
import { wholeShifts } from '../../model/past/wholeShifts.ts';
import type { StationsTold, StationTold } from '../../model/past/worsePast.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import { pathView } from '../../model/view/pathView.ts';
import { seenAt } from '../../model/view/seen.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { askedOf, begunOf, periodQuery, gapsIn, recordsIn, text } from './pastAsked.ts';
import { normalOf, scatterBefore, worseOf } from './pastNormal.ts';
import { runsOf, talliesOf } from './pastTallies.ts';

export const stationsQuery = periodQuery;
export const stationQuery = periodQuery.extend({
  size: text,
  most: z.coerce.number().int().min(0).max(500).default(20),
  batches: z.coerce.number().int().min(1).max(480).default(160),
});

/** Runs with the size that tell what is normal, at most: the newest before those that are shown. */
const RUNS_MOST = 80;

/** Every station in a stretch of whole shifts. */
export function stationsOf(
  records: RecordsRead,
  live: LineRead,
  query: z.infer<typeof stationsQuery>,
): StationsPast {
  return stationsPast(stationsAsked(records, live, query));
}

/** The same, with which of them are worse than their own normal in the newest run. */
export function stationsToldOf(
  records: RecordsRead,
  live: LineRead,
  query: z.infer<typeof stationsQuery>,
): StationsTold {
  const asked = stationsAsked(records, live, query);
  return { ...stationsPast(asked), worse: worseOf(records, live, asked) };
}

/** One station in a stretch of whole shifts; undefined where the line has none of this id. */
export function stationOf(
  records: RecordsRead,
  live: LineRead,
  id: string,
  query: z.infer<typeof stationQuery>,
): StationTold | undefined {
  const { index, state } = live.fold();
  if (!index.stationAt.has(id)) return undefined;
  const asked = stationsAsked(records, live, query);
  const of = recordsIn(records, live.line.id, asked);
  const all = stationsPast(asked);
  const { stops, stood, list, minorMinutes } = stopsPast({
    ...asked,
    presses: of('press'),
    guards: of('guard'),
    filter: { station: id },
    before: [],
    most: query.most,
  });
  return {
    seen: all.seen,
    shifts: all.shifts,
    sum: all.stations.find(({ station }) => station.id === id)!,
    trend: trendOf(records, live, asked, id, query),
    normal: normalOf(records, live, asked, { station: id, size: query.size }),
    judged: judgedBy(index, id)?.kind,
    stops: { stops, stood, list, minorMinutes },
    adjustments: {
      size: index.sizeById.get(state.size ?? '')?.name,
      list: adjustmentsNow(index, state, id),
    },
  };
}

function stationsAsked(
  records: RecordsRead,
  live: LineRead,
  query: z.infer<typeof stationsQuery>,
): StationsAsked {
  const now = live.now();
  const wished = askedOf(records, live, query);
  const running = live.fold().state.shift.shift;
  const ended = recordsIn(records, live.line.id, wished)('shift');
  const touched = [
    ...ended.flatMap(({ shift }) => (shift ? [shift] : [])),
    ...(running && running.from < wished.to ? [running] : []),
  ];
  const asked = wholeShifts(wished, touched, now);
  const tallyAt = talliesOf(records, live, asked.to);
  const of = recordsIn(records, live.line.id, asked);
  return {
    ...asked,
    shifts: ended,
    running: running && running.from < asked.to ? pathView(seenAt(live.fold(), now)) : undefined,
    gained: gainedBetween(tallyAt(asked.from), tallyAt(asked.to)),
    stops: of('stop'),
    gaps: gapsIn(records, live, asked),
    begun: begunOf(records, live, asked),
  };
}

function trendOf(
  records: RecordsRead,
  live: LineRead,
  asked: StationsAsked,
  station: string,
  query: z.infer<typeof stationQuery>,
): StationTrend | undefined {
  const { index } = asked;
  const judged = judgedBy(index, station);
  const runs = runsOf(records, live, asked);
  const from = Math.max(asked.from, asked.to - PIECE_MOST) as Instant;
  const shown = runs.filter((run) => run.to > from);
  const sizes = index.line.sizes
    .filter(({ id }) => shown.some(({ size }) => size === id))
    .map(({ id, name }) => ({ id, name }));
  const wished = query.size ?? shown.at(-1)?.size;
  const size = sizes.find(({ id }) => id === wished);
  if (!judged || !size) return undefined;
  const own = runs.filter((run) => run.size === size.id);
  const first = own.findIndex((run) => run.to > from);
  const trend = batchTrend({
    judged,
    runs: own.slice(Math.max(0, first - RUNS_MOST)),
    from,
    tallyAt: talliesOf(records, live, asked.to),
    minutesOf: (run) => minutesOf(records, live, run),
    gaps: asked.gaps.filter(({ kind }) => kind === 'unknown'),
    limitOf: limitsOf(records, live, asked, { station, size: size.id }),
    most: query.batches,
  });
  return {
    ...trend,
    kind: judged.kind,
    size,
    sizes,
    since: from > asked.from ? epochMs(from) : undefined,
    byHand: loadedByHand(index, station),
  };
}

/** The line of each run's batches, worked out once; none where empty cartons are what people left. */
function limitsOf(
  records: RecordsRead,
  live: LineRead,
  asked: StationsAsked,
  of: { readonly station: string; readonly size: string },
): BatchesAsked['limitOf'] {
  if (loadedByHand(asked.index, of.station)) return () => undefined;
  const scatter = scatterBefore(records, live, asked, of);
  const { uneven, spread } = scatter;
  return (run, earlier) => {
    const key = `batches ${of.station} ${run.from} ${uneven} ${spread} ${earlier.length}`;
    return records.remember(live.line.id, key, (run.from + 1) as Instant, () => batchLimit(earlier, scatter));
  };
}

function minutesOf(records: RecordsRead, live: LineRead, run: Run): readonly RecordBodies['minute'][] {
  return records.ask({ line: live.line.id, kind: 'minute', from: run.from, to: (run.to + 1) as Instant });
}
