import { z } from 'zod';
import { type ChangeoversPast, changeoversPast } from '../../model/past/changeoversPast.ts';
import { crewChanges } from '../../model/past/crewAt.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { HOUR, type Instant, type Span } from '../../model/units/units.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import { askedOf, begunOf, periodQuery, recordsIn, text } from './pastAsked.ts';

export const changeoversQuery = periodQuery.extend({
  kind: z.enum(['size', 'artwork', 'startUp']).optional(),
  pair: text,
  /** Beginning of the one to open: milliseconds since 1970. */
  at: text,
  most: z.coerce.number().int().min(0).max(200).default(20),
});

/** Changeovers known at all: of more, the older ones are neither listed nor compared. */
const KNOWN_MOST = 500;
/** What people said about the crew is looked for so long before the stretch, and not further. */
const CREW_BEFORE = (30 * 24 * HOUR) as Span;

/** Changeovers of a stretch, one of them opened beside the earlier ones of its pair. */
export function changeoversOf(
  records: Records,
  live: LiveLine,
  query: z.infer<typeof changeoversQuery>,
): ChangeoversPast {
  const asked = askedOf(live, query);
  const { line } = live;
  const now = live.now();
  const changeovers = known(records, live);
  const crewFrom = (asked.from - CREW_BEFORE) as Instant;
  const of = recordsIn(records, line.id, { from: crewFrom, to: now });
  const { kind, pair, at, most } = query;
  return changeoversPast({
    ...asked,
    now,
    changeovers,
    near: (from, to) => {
      const near = recordsIn(records, line.id, { from, to });
      return { minutes: near('minute'), stops: near('stop'), gaps: near('gap') };
    },
    gaps: of('gap', asked),
    begun: begunOf(records, live, asked),
    crew: crewChanges(asked.index, of('entry'), of('order')),
    filter: { kind, pair },
    open: at,
    most,
  });
}

/** The record of the one that goes on is as it began: the line itself knows what came of it since. */
function known(records: Records, live: LiveLine): readonly RecordBodies['changeover'][] {
  const ended = records.newest(live.line.id, 'changeover', KNOWN_MOST);
  const { changeover } = live.fold().state;
  if (!changeover) return ended;
  return [...ended.filter(({ begin }) => begin !== changeover.begin), changeover];
}
