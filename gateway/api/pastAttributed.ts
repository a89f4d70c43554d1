import type { Router } from 'express';
import { z } from 'zod';
import { MEASURED_FOR } from '../../model/attribution/accuracy.ts';
import { type AttributedAnswer, attributedAnswer } from '../../model/past/attributedAnswer.ts';
import { type AttributedPast, attributedPast } from '../../model/past/attributedPast.ts';
import { seenTime as seenIn } from '../../model/past/past.ts';
import type { Stretch } from '../../model/past/stretches.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, type PeriodQuery, periodQuery, gapsIn } from './pastAsked.ts';
import { seenTime, stationRef } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import { list, numberIfKnown } from './viewParts.ts';

/** `/attributed`: which stations may have spoiled the rejects of a period. */
export function attributedRoutes(router: Router, { past, read }: Doors): void {
  router.get('/attributed', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(attributedOf(records, live, read(periodQuery, request.query)));
  });
}

export function attributedOf(records: RecordsRead, live: LineRead, query: PeriodQuery): AttributedAnswer {
  const asked = askedOf(records, live, query);
  const { attribution } = live.fold().state;
  const seen = seenOf(records, live, asked);
  return attributedAnswer(asked.index, attribution, seen, attributedIn(records, live, asked));
}

function seenOf(records: RecordsRead, live: LineRead, asked: Stretch) {
  return seenIn(asked, gapsIn(records, live, asked), begunOf(records, live, asked));
}

/**
 * By the last whole minutes before both ends; where it goes on until now, by what is laid to whom now. Undefined where nobody
 * saw any of it: that nothing was laid then says nothing.
 */
export function attributedIn(
  records: RecordsRead,
  live: LineRead,
  asked: Stretch,
): AttributedPast | undefined {
  const { from, to } = asked;
  const { unknown } = seenOf(records, live, asked);
  if (unknown >= epochMs(to) - epochMs(from)) return undefined;
  const { index, state } = live.fold();
  const at = (moment: Instant) => records.last(live.line.id, 'minute', (moment + 1) as Instant);
  const before = at(from);
  const now = { attributed: state.attribution.parts };
  const after = state.at <= to ? now : at(to);
  return after && attributedPast(index, before, after);
}

export const attributed = sameAs<AttributedAnswer>()(
  z.strictObject({
    seen: seenTime,
    rejects: numberIfKnown,
    unattributed: numberIfKnown,
    reasons: list(
      z.strictObject({
        id: z.string(),
        name: z.string(),
        rejects: z.number(),
        stations: list(z.strictObject({ station: stationRef, cartons: z.number() })),
        nobody: z.number(),
      }),
    ),
    stations: list(z.strictObject({ station: stationRef, cartons: z.number(), charged: z.number() })),
    heldTo: z.enum(MEASURED_FOR).optional(),
    doubted: list(z.strictObject({ station: stationRef, nearer: numberIfKnown })),
  }),
);
