import type { Router } from 'express';
import { figureValues } from '../../model/figures/figureValues.ts';
import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import { figureStretches, shiftsWithin } from '../../model/past/figureStretches.ts';
import type { FiguresPast } from '../../model/past/figuresPast.ts';
import { figuresOver } from '../../model/past/figuresOver.ts';
import { seenTime } from '../../model/past/past.ts';
import type { Stretch } from '../../model/past/stretches.ts';
import { type EpochMs, epochMs, type Instant, instantFromMs } from '../../model/units/units.ts';
import type { z } from 'zod';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { wordsIn } from '../../model/words/words.ts';
import { isoMoment } from './csvText.ts';
import { figuresCsv } from './figuresCsv.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, periodQuery, gapsIn, recordsIn, text } from './pastAsked.ts';
import { stationsOf } from './pastStations.ts';
import { talliesOf } from './pastTallies.ts';

export const figuresQuery = periodQuery.extend({ size: text, order: text, shift: text });
export type FiguresQuery = z.infer<typeof figuresQuery>;

const words = wordsIn('en').screen.past.figures.screen;

/** `/figures`: every key figure of a period, or of what ran of one size, order or kind of shift in it. */
export function figureRoutes(router: Router, { past, read }: Doors): void {
  router.get('/figures', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(figuresOf(records, live, read(figuresQuery, request.query)));
  });
  router.get('/figures.csv', async (request, response) => {
    const { records, live } = await past(request, response);
    const { id, zone } = live.line;
    const answer = figuresOf(records, live, read(figuresQuery, request.query));
    const date = (at: EpochMs) => isoMoment(at, zone).slice(0, 10);
    const name = words.file(id, date(answer.seen.from), date(answer.seen.to));
    response.attachment(name).type('text/csv').send(figuresCsv(answer));
  });
}

export function figuresOf(records: RecordsRead, live: LineRead, query: FiguresQuery): FiguresAnswer {
  const asked = askedOf(records, live, query);
  const { index, from, to } = asked;
  const { stretches, sum, shifts } = summed(records, live, query);
  const { size, order, shift } = query;
  const filtered = size !== undefined || order !== undefined || shift !== undefined;
  const whole = !filtered && isWhole(stretches[0], shifts, to, live.now());
  const begun = begunOf(records, live, asked);
  const account = whole ? stationsOf(records, live, query).lost : undefined;
  return {
    seen: seenTime(asked, gapsIn(records, live, asked), begun),
    parts: stretches.length,
    shifts: shifts.filter((one) => one.from < to && one.to > from).length,
    first: stretches[0] && epochMs(stretches[0].from),
    last: stretches.at(-1) && epochMs(stretches.at(-1)!.to),
    values: figureValues({ index, sum, account }),
    ideal: index.line.sizes.map(({ id, name, ideal }) => ({ id, name, ideal })),
    minorStopMinutes: index.line.settings.minorStopMinutes,
  };
}

/** What a period's figures are made of. */
export function summed(
  records: RecordsRead,
  live: LineRead,
  query: FiguresQuery,
): {
  readonly stretches: readonly Stretch[];
  readonly sum: FiguresPast;
  readonly shifts: ReturnType<typeof shiftsWithin>;
} {
  const asked = askedOf(records, live, query);
  const { index, from, to } = asked;
  const { calendar, zone } = index.line;
  const of = recordsIn(records, live.line.id, asked);
  const sizes = of('size');
  const shifts = shiftsWithin(calendar, zone, asked);
  const stretches = figureStretches({ from, to }, query, { shifts, sizes, orders: of('order') });
  const sum = figuresOver({
    index,
    stretches,
    stops: of('stop'),
    presses: of('press'),
    gaps: gapsIn(records, live, asked),
    sizes,
    tallyAt: talliesOf(records, live, to),
    begun: begunOf(records, live, asked),
    // what is told at the end of a period that goes on is told now
    now: isNow(query, to, live.now()) ? to : live.now(),
  });
  return { stretches, sum, shifts };
}

/** Whether a stretch begins and ends with shifts, or ends now: then cartons lost are accounted for all of it. */
function isWhole(
  stretch: Stretch | undefined,
  shifts: readonly { readonly from: Instant; readonly to: Instant }[],
  to: Instant,
  now: Instant,
): boolean {
  if (!stretch || shifts.length === 0) return false;
  const [first, last] = [shifts[0]!, shifts.at(-1)!];
  return first.from >= stretch.from && (last.to <= to || to >= now);
}

/** Whether a period ends with now, as it was when it was asked for. */
function isNow({ to: asked }: FiguresQuery, to: Instant, now: Instant): boolean {
  return asked === undefined || instantFromMs(asked) > to || to >= now;
}
