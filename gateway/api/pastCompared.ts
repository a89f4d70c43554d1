import type { Router } from 'express';
import { z } from 'zod';
import type { ShiftRecord } from '../../model/fold/state.ts';
import { ALIGNMENTS } from '../../model/past/compared/aligned.ts';
import { type Compared, compared, type SideAsked } from '../../model/past/compared/compared.ts';
import { goodPlaces, type Sums, sumsOf } from '../../model/past/compared/sums.ts';
import { minutesUp } from '../../model/past/compared/windows.ts';
import { type PastRun, runsPast } from '../../model/past/runsPast.ts';
import { gainedBetween, sumOf } from '../../model/past/stationCounts.ts';
import type { Stretch } from '../../model/past/stretches.ts';
import { HOUR, type Instant, instantFromMs, MINUTE } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import type { Doors } from './past.ts';
import { asMoment, begunOf, gapsIn, recordsIn } from './pastAsked.ts';
import { talliesOf } from './pastTallies.ts';

const words = wordsIn('en').gateway.api.compared;

/** A day with the hour that a zone may put back in it. */
const LONGEST_MS = 25 * 3_600_000;

export const comparedQuery = z
  .object({
    from: asMoment.describe(words.from),
    to: asMoment.describe(words.to),
    otherFrom: asMoment.describe(words.otherFrom),
    otherTo: asMoment.describe(words.otherTo),
    align: z.enum(ALIGNMENTS).default('clock').describe(words.align),
    at: asMoment.optional().describe(words.at),
  })
  .refine(({ from, to }) => isLongEnough(from, to), { path: ['to'], message: words.long })
  .refine(({ otherFrom, otherTo }) => isLongEnough(otherFrom, otherTo), {
    path: ['otherTo'],
    message: words.long,
  });

/** Runs and earlier shifts that are looked at, at most. */
const RUNS_LISTED = 60;
const SHIFTS_MOST = 40;
/** A shift that ended before a stretch is known by what ended so long before. */
const ENDED_BEFORE = 48 * HOUR;

/** `/runs`: what ran, size by size; `/compared`: two stretches, one over the other. */
export function comparedRoutes(router: Router, { past, read }: Doors): void {
  router.get('/runs', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(runsIn(records, live));
  });
  router.get('/compared', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(comparedIn(records, live, read(comparedQuery, request.query)));
  });
}

function runsIn(records: RecordsRead, live: LineRead): readonly PastRun[] {
  return runsPast(live.fold().index, records.newest(live.line.id, 'size', RUNS_LISTED), live.now());
}

function comparedIn(records: RecordsRead, live: LineRead, query: z.infer<typeof comparedQuery>): Compared {
  const here = sideOf(records, live, query.from, query.to);
  const there = sideOf(records, live, query.otherFrom, query.otherTo);
  return compared({
    index: live.fold().index,
    alignment: query.align,
    at: query.at === undefined ? here.to : instantFromMs(query.at),
    here,
    there,
    earlier: earlierThan(records, live, [here, there]),
  });
}

function sideOf(records: RecordsRead, live: LineRead, fromMs: number, toMs: number): SideAsked {
  const { id } = live.line;
  const from = Math.min(instantFromMs(fromMs), live.now()) as Instant;
  const to = Math.min(instantFromMs(toMs), live.now()) as Instant;
  const span = { from, to };
  const of = recordsIn(records, id, span);
  const { changeover } = live.fold().state;
  const before = records.last(id, 'size', from);
  const changeovers = of('changeover').map((one) => (one.begin === changeover?.begin ? changeover : one));
  return {
    ...span,
    stops: of('stop'),
    gaps: gapsIn(records, live, span),
    sizes: [...(before ? [before] : []), ...of('size').filter(({ at }) => at >= from)],
    begun: begunOf(records, live, span),
    tallyAt: talliesOf(records, live, to),
    toldAt: (at) => records.last(id, 'minute', (at + 1) as Instant)?.account,
    ended: of('shift', { from: (from - ENDED_BEFORE) as Instant, to: (to + 1) as Instant }),
    made: madeIn(records, live, span),
    changeover: changeovers.find(({ firstGood }) => firstGood !== null && firstGood >= from && firstGood < to)
      ?.firstGood as Instant | undefined,
  };
}

function madeIn(records: RecordsRead, live: LineRead, { from, to }: Stretch): SideAsked['made'] {
  const good = goodPlaces(live.fold().index);
  const begin = minutesUp(from) as Instant;
  const first = records.last(live.line.id, 'minute', (begin + 1) as Instant)?.tally ?? [];
  const minutes = recordsIn(records, live.line.id, {
    from: (begin + 1) as Instant,
    to: (to + 1) as Instant,
  })('minute');
  return [
    { at: begin, cartons: 0 },
    ...minutes.map(({ at, tally }) => ({ at, cartons: sumOf(gainedBetween(first, tally), good) ?? 0 })),
  ];
}

/** The newest shifts that had ended by the end of the later of the two, without any that has a part in them. */
function earlierThan(records: RecordsRead, live: LineRead, sides: readonly Stretch[]): readonly Sums[] {
  const { id } = live.line;
  const { index } = live.fold();
  const by = Math.max(...sides.map(({ to }) => to));
  const begun = records.first(id) ?? by;
  return records
    .newest(id, 'shift', 4 * SHIFTS_MOST)
    .filter((record) => isEarlier(record, by as Instant, begun as Instant, sides))
    .slice(-SHIFTS_MOST)
    .map(({ shift }) => {
      const span = { from: shift!.from, to: shift!.to };
      const key = `compared ${span.from}`;
      return records.remember(id, key, (span.to + MINUTE) as Instant, () =>
        sumsOf([span], {
          index,
          stops: recordsIn(records, id, span)('stop'),
          gaps: recordsIn(records, id, span)('gap'),
          tallyAt: talliesOf(records, live, span.to),
        }),
      );
    });
}

function isEarlier({ shift }: ShiftRecord, by: Instant, begun: Instant, sides: readonly Stretch[]): boolean {
  if (!shift || shift.from < begun || shift.to > by) return false;
  return sides.every(({ from, to }) => shift.to <= from || shift.from >= to);
}

function isLongEnough(from: number, to: number): boolean {
  return to > from && to - from <= LONGEST_MS;
}
