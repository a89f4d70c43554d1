import { setImmediate } from 'node:timers/promises';
import type { PastAsked } from '../../model/past/past.ts';
import { type StopFilter, stopsPast } from '../../model/past/stopsPast.ts';
import { HOUR, type Instant, minutes, type Span } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { askedOf, begunOf, type PeriodQuery, gapsIn, recordsIn } from './pastAsked.ts';
import { type StopsPart, stopsCsv, stopsCsvTitles } from './stopsCsv.ts';

/** Stops of so long a time are worked out at once: a few hundred. */
const PART = (7 * 24 * HOUR) as Span;
/** A press that caused a stop came before it, by less than this. */
const AROUND = minutes(1);

/** A file of stops, part by part: live views come in between, however long the stretch is. */
export async function* stopsFile(
  records: RecordsRead,
  live: LineRead,
  { from, to, ...filter }: PeriodQuery & StopFilter,
): AsyncGenerator<string> {
  const asked = askedOf(records, live, { from, to });
  const begun = begunOf(records, live, asked);
  const seenFrom = Math.min(asked.to, Math.max(asked.from, begun)) as Instant;
  yield stopsCsvTitles;
  if (seenFrom > asked.from)
    yield stopsCsv({ ...NOTHING, line: live.line, unseen: [{ from: asked.from, to: seenFrom }] });
  // what came in the first minute was kept before there was a minute of records
  for (let end = seenFrom, begin = asked.from; begin < asked.to; begin = end) {
    end = Math.min(asked.to, end + PART) as Instant;
    const part = { from: begin, to: end };
    yield stopsCsv(partOf(records, live, { asked, begun, filter }, part));
    await setImmediate();
  }
}

const NOTHING = { list: [], stops: [], gapEnds: new Set<Instant>() } as const;

interface Wanted {
  readonly asked: PastAsked;
  readonly begun: Instant;
  readonly filter: StopFilter;
}

/** What began in a part; in the first one also what began before. A stop has all that came with it, wherever it ends. */
function partOf(
  records: RecordsRead,
  live: LineRead,
  { asked, begun, filter }: Wanted,
  part: { readonly from: Instant; readonly to: Instant },
): StopsPart {
  const { line } = live;
  const first = part.from === asked.from;
  const of = recordsIn(records, line.id, part);
  const stops = of('stop').filter(({ begin }) => first || begin >= part.from);
  const around = {
    from: ((stops[0]?.begin ?? part.from) - AROUND) as Instant,
    to: Math.max(part.to, ...stops.map(({ end }) => end ?? asked.to)) as Instant,
  };
  const gaps = gapsIn(records, live, around).filter(({ kind }) => kind === 'unknown');
  const { list } = stopsPast({
    ...asked,
    stops,
    presses: recordsIn(records, line.id, around)('press'),
    guards: recordsIn(records, line.id, around)('guard'),
    gaps: [],
    begun,
    filter,
    before: [],
    most: Number.POSITIVE_INFINITY,
  });
  return {
    line,
    list,
    stops,
    unseen: gaps.filter(
      (gap) => gap.to > part.from && gap.from < part.to && (first || gap.from >= part.from),
    ),
    gapEnds: new Set(gaps.map(({ to }) => to)),
  };
}
