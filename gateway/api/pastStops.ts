import type { Router } from 'express';
import { z } from 'zod';
import { type StopsPast, stopsPast } from '../../model/past/stopsPast.ts';
import { epochMs, HOUR, type Instant, type Span } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { isoMoment } from './csvText.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, periodQuery, gapsIn, recordsIn, text } from './pastAsked.ts';
import { stopsFile } from './stopsFile.ts';

const words = wordsIn('en').screen.past.stops.csv;

/** The file has all of them. */
export const stopsFileQuery = periodQuery.extend({ station: text, size: text, shift: text, order: text });
export const stopsQuery = stopsFileQuery.extend({
  most: z.coerce.number().int().min(0).max(1000).default(200),
});

/** `/stops` for the screen, `/stops.csv` for a file that other programs read. */
export function stopRoutes(router: Router, { past, read }: Doors): void {
  router.get('/stops', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(stopsOf(records, live, read(stopsQuery, request.query)));
  });
  router.get('/stops.csv', async (request, response) => {
    const { records, live } = await past(request, response);
    const { id, zone } = live.line;
    const query = read(stopsFileQuery, request.query);
    const { from, to } = askedOf(records, live, query);
    const date = (at: Instant) => isoMoment(epochMs(at), zone).slice(0, 10);
    response.attachment(words.file(id, date(from), date(to))).type('text/csv');
    for await (const part of stopsFile(records, live, query)) {
      if (response.destroyed) return;
      response.write(part);
    }
    response.end();
  });
}

/** As long stretches before that tell what is ordinary; of longer ones than a week there are too few. */
const BEFORE = 8;
const ORDINARY_MOST = (8 * 24 * HOUR) as Span;

/** Stops of a stretch, and of as long ones before, which tell what is ordinary. `begun`: without those that went on from before. */
export function stopsOf(
  records: RecordsRead,
  live: LineRead,
  query: z.infer<typeof stopsQuery>,
  which: 'all' | 'begun' = 'all',
): StopsPast {
  const asked = askedOf(records, live, query);
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
    stops: which === 'all' ? of('stop') : of('stop').filter(({ begin }) => begin >= from),
    presses: of('press'),
    guards: of('guard'),
    gaps: gapsIn(records, live, asked),
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
