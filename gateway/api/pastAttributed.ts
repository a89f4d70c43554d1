import type { Router } from 'express';
import { z } from 'zod';
import { type AttributedAnswer, attributedAnswer } from '../../model/past/attributedAnswer.ts';
import { type AttributedPast, attributedPast } from '../../model/past/attributedPast.ts';
import { seenTime as seenIn } from '../../model/past/past.ts';
import type { Instant } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, type PeriodQuery, periodQuery, gapsIn } from './pastAsked.ts';
import { seenTime, stationRef } from './pastParts.ts';
import { sameAs } from './sameAs.ts';
import { list } from './viewParts.ts';

/** `/attributed`: which stations may have spoiled the rejects of a period. */
export function attributedRoutes(router: Router, records: Records, { lineOf, read }: Doors): void {
  router.get('/attributed', (request, response) => {
    response.json(attributedOf(records, lineOf(request), read(periodQuery, request.query)));
  });
}

export function attributedOf(records: Records, live: LiveLine, query: PeriodQuery): AttributedAnswer {
  const asked = askedOf(live, query);
  const begun = begunOf(records, live, asked);
  const seen = seenIn(asked, gapsIn(records, live, asked), begun);
  return attributedAnswer(asked.index, seen, attributedIn(records, live, asked));
}

/** By the last whole minutes before both ends; where it goes on until now, by what is laid to whom now. */
export function attributedIn(
  records: Records,
  live: LiveLine,
  { from, to }: { readonly from: Instant; readonly to: Instant },
): AttributedPast {
  const { index, state } = live.fold();
  const at = (moment: Instant) => records.last(live.line.id, 'minute', (moment + 1) as Instant);
  const before = at(from);
  const now = { attributed: state.attribution.parts };
  const after = state.at <= to ? now : (at(to) ?? { attributed: now.attributed.map(() => 0) });
  return attributedPast(index, before, after);
}

export const attributed = sameAs<AttributedAnswer>()(
  z.strictObject({
    seen: seenTime,
    rejects: z.number(),
    unattributed: z.number(),
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
    nearMisses: z.boolean(),
  }),
);
