import { z } from 'zod';
import { type StopsPast, stopsPast } from '../../model/past/stopsPast.ts';
import { HOUR, type Instant, type Span } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { askedOf, begunOf, periodQuery, recordsIn, text } from './pastAsked.ts';

export const stopsQuery = periodQuery.extend({
  station: text,
  size: text,
  shift: text,
  order: text,
  most: z.coerce.number().int().min(0).max(1000).default(200),
});

/** As long stretches before that tell what is ordinary; of longer ones than a week there are too few. */
const BEFORE = 8;
const ORDINARY_MOST = (8 * 24 * HOUR) as Span;

/** Stops of a stretch, and of as long ones before, which tell what is ordinary. */
export function stopsOf(records: Records, live: LiveLine, query: z.infer<typeof stopsQuery>): StopsPast {
  const asked = askedOf(live, query);
  const { from, to } = asked;
  const begun = begunOf(records, live, asked);
  const of = recordsIn(records, live.line.id, asked);
  const long = (to - from) as Span;
  const before = Array.from({ length: long <= ORDINARY_MOST ? BEFORE : 0 }, (_, n) => ({
    from: (from - (n + 1) * long) as Instant,
    to: (from - n * long) as Instant,
  })).filter((span) => span.from >= begun);
  const { most, ...filter } = query;
  const past = stopsPast({
    ...asked,
    stops: of('stop'),
    presses: of('press'),
    guards: of('guard'),
    gaps: of('gap'),
    begun,
    filter,
    before: before.map((span) => of('stop', span)),
    most,
  });
  // what the line itself no longer remembers can be answered no more
  const answerable = new Set(live.fold().state.stops.map(({ id }) => id));
  return {
    ...past,
    list: past.list.map((stop) => (answerable.has(stop.id) ? stop : { ...stop, answers: [] })),
  };
}
