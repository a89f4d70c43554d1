import express, { type Request } from 'express';
import { z } from 'zod';
import type { PastOverview, PastStatus } from '../../model/past/overview.ts';
import { type PastAsked, stationRef } from '../../model/past/past.ts';
import { type StopsPast, stopsPast } from '../../model/past/stopsPast.ts';
import type { RecordKind } from '../../model/records/records.ts';
import { epochMs, HOUR, type Instant, instantFromMs, type Span } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';

export interface PastParts {
  readonly records: Records;
  /** How far the past is made. */
  readonly status: (line: string) => PastStatus;
  /** Ends what goes on in the background. */
  readonly cancel: (line: string) => void;
}

/** What the routes get from the rest of the API. */
interface Doors {
  readonly lineOf: (request: Request) => LiveLine;
  readonly read: <Shape>(schema: z.ZodType<Shape>, value: unknown) => Shape;
}

const moment = z.coerce.number().int();
const text = z.string().max(100).optional();
const periodQuery = z.object({ from: moment.optional(), to: moment.optional() });
const stopsQuery = periodQuery.extend({
  station: text,
  size: text,
  shift: text,
  order: text,
  most: z.coerce.number().int().min(0).max(1000).default(200),
});

/** Unless said, the last week is meant. */
const USUAL = (7 * 24 * HOUR) as Span;
/** As long stretches before that tell what is ordinary; of longer ones than a week there are too few. */
const BEFORE = 8;
const ORDINARY_MOST = (8 * 24 * HOUR) as Span;
/** Shifts that can be chosen by name. */
const SHIFTS_LISTED = 60;

/** The past of a line, from its records: what screens and other programs ask for. */
export function pastRoutes({ records, status, cancel }: PastParts, { lineOf, read }: Doors): express.Router {
  const router = express.Router({ mergeParams: true });
  router.get('/', (request, response) => {
    const live = lineOf(request);
    response.json(overviewOf(records, live, status(live.line.id)));
  });
  router.post('/cancel', (request, response) => {
    cancel(lineOf(request).line.id);
    response.status(202).json({ ok: true });
  });
  router.get('/stops', (request, response) => {
    const live = lineOf(request);
    const query = read(stopsQuery, request.query);
    response.json(stopsOf(records, live, query));
  });
  return router;
}

function overviewOf(records: Records, live: LiveLine, past: PastStatus): PastOverview {
  const { index, state } = live.fold();
  const { line } = live;
  const ended = records
    .newest(line.id, 'shift', SHIFTS_LISTED)
    .flatMap((record) => (record.shift ? [record.shift] : []));
  const { shift } = state.shift;
  const begun = records.first(line.id);
  return {
    past,
    begun: begun === undefined ? null : epochMs(begun),
    now: epochMs(live.now()),
    zone: line.zone,
    shifts: [...ended, ...(shift ? [shift] : [])].map(({ rule, name, from, to }) => ({
      rule,
      name,
      from: epochMs(from),
      to: epochMs(to),
    })),
    sizes: line.sizes.map(({ id, name }) => ({ id, name })),
    stations: line.stations.map(({ id }) => stationRef(index, id)!),
  };
}

function stopsOf(records: Records, live: LiveLine, query: z.infer<typeof stopsQuery>): StopsPast {
  const asked = askedOf(live, query);
  const { from, to } = asked;
  const begun = records.first(live.line.id) ?? to;
  const of = <Kind extends RecordKind>(kind: Kind, span: { from: Instant; to: Instant } = { from, to }) =>
    records.ask({ line: live.line.id, kind, ...span });
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

function askedOf(live: LiveLine, query: z.infer<typeof periodQuery>): PastAsked {
  const now = live.now();
  const to = query.to === undefined ? now : (Math.min(now, instantFromMs(query.to)) as Instant);
  const from = query.from === undefined ? ((to - USUAL) as Instant) : instantFromMs(query.from);
  return { index: live.fold().index, from: Math.min(from, to) as Instant, to };
}
