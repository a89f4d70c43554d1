import type { Router } from 'express';
import { z } from 'zod';
import { type EntriesPast, entriesPast } from '../../model/past/entriesPast.ts';
import type { Instant } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { correctableBody } from './entrySchema.ts';
import { author } from './noticeViewSchema.ts';
import type { Doors } from './past.ts';
import { askedOf, periodQuery, recordsIn } from './pastAsked.ts';
import { list, moment, momentIfKnown, named } from './viewParts.ts';

export const entriesQuery = periodQuery.extend({
  most: z.coerce.number().int().min(0).max(500).default(100),
});

/** `/entries`: what people said in a stretch, and how it was corrected. */
export function entryRoutes(router: Router, { past, read }: Doors): void {
  router.get('/entries', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(entriesOf(records, live, read(entriesQuery, request.query)));
  });
}

/** A stop's id is its beginning, in the digits and letters that numbers have to the base of 36. */
export function entriesOf(
  records: RecordsRead,
  live: LineRead,
  { most, ...query }: z.infer<typeof entriesQuery>,
): EntriesPast {
  const asked = askedOf(records, live, query);
  const { state } = live.fold();
  const stopAt = (stop: string) => {
    const begin = Number.parseInt(stop, 36) as Instant;
    return Number.isSafeInteger(begin) ? begin : undefined;
  };
  const entries = recordsIn(records, live.line.id, asked)('entry').filter(({ at }) => at >= asked.from);
  const correctable = new Set(state.said.map(({ first }) => first.id));
  const { answers, stations } = live.line;
  const all = [...answers, ...stations.flatMap((station) => station.answers)];
  return {
    ...entriesPast(entries, correctable, stopAt, most),
    answers: [...new Map(all.map(({ id, name }) => [id, { id, name }])).values()],
  };
}

const correction = z.strictObject({
  id: z.string(),
  at: moment,
  by: author,
  body: correctableBody.nullable(),
  why: z.string().nullable(),
});

/** Bodies are described as they are entered, which is why this is not held to the model key by key. */
export const entryRow = z.strictObject({
  id: z.string(),
  at: moment,
  by: author,
  first: correctableBody,
  corrections: list(correction),
  stopAt: momentIfKnown,
  correctable: z.boolean(),
});

export const entriesAnswer = z.strictObject({
  list: list(entryRow),
  entries: z.number(),
  answers: list(named),
});
