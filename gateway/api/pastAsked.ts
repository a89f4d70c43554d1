import { z } from 'zod';
import type { PastAsked } from '../../model/past/past.ts';
import type { RecordBodies, RecordKind } from '../../model/records/records.ts';
import { HOUR, type Instant, instantFromMs, type Span } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';

/** 2048-01-01: until then moments are exact, and what lies beyond is no moment of a line. */
const MOMENT_MOST = 2_461_449_600_000;
/** A moment in a question. */
export const asMoment = z.coerce.number().int().min(0).max(MOMENT_MOST).describe('milliseconds since 1970');
/** A stretch of the past, in milliseconds since 1970: up to now, and the last week, unless it is said otherwise. */
export const periodQuery = z.object({
  from: asMoment.optional(),
  to: asMoment.optional(),
});
export type PeriodQuery = z.infer<typeof periodQuery>;
/** A name in a question. */
export const text = z.string().max(100).optional();

const USUAL = (7 * 24 * HOUR) as Span;

/**
 * What is asked, up to now. Of the time before there were records no more than a week is looked at: that there is nothing is
 * said of it, and hundreds of years of nothing would hold up everyone else.
 */
export function askedOf(records: RecordsRead, live: LineRead, query: PeriodQuery): PastAsked {
  const now = live.now();
  const to = query.to === undefined ? now : (Math.min(now, instantFromMs(query.to)) as Instant);
  const from = query.from === undefined ? to - USUAL : instantFromMs(query.from);
  const least = begunOf(records, live, { to }) - USUAL;
  return { index: live.fold().index, from: Math.min(Math.max(from, least), to) as Instant, to };
}

/** Records of one line that have a part in a stretch. */
export function recordsIn(
  records: RecordsRead,
  line: string,
  span: { readonly from: Instant; readonly to: Instant },
) {
  return <Kind extends RecordKind>(kind: Kind, of = span): RecordBodies[Kind][] =>
    records.ask({ line, kind, from: of.from, to: of.to });
}

/** From when on there are records at all; the end of the stretch where there are none. */
export function begunOf(records: RecordsRead, live: LineRead, { to }: Pick<PastAsked, 'to'>): Instant {
  return records.first(live.line.id) ?? to;
}

/** Gaps that have a part in a stretch; one that lasts, too, which is a record only when it is over. */
export function gapsIn(
  records: RecordsRead,
  live: LineRead,
  span: { readonly from: Instant; readonly to: Instant },
): readonly RecordBodies['gap'][] {
  const { gap, tally } = live.fold().state;
  const ended = recordsIn(records, live.line.id, span)('gap');
  if (!gap || gap.from >= span.to) return ended;
  const to = live.now();
  const gained = tally.map((counted, place) => counted - (gap.tally[place] ?? 0));
  return [
    ...ended,
    { from: gap.from, to: Math.max(to, gap.from) as Instant, kind: 'unknown', gained, counted: to },
  ];
}
