import type { Router } from 'express';
import { type Course, courseOf } from '../../model/past/course.ts';
import { targetThen } from '../../model/past/crewAt.ts';
import { seenTime } from '../../model/past/past.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { notedSubjects } from '../../model/records/subjects.ts';
import { after, type Instant, type Span } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import type { Doors } from './past.ts';
import { askedOf, begunOf, gapsIn, type PeriodQuery, periodQuery, recordsIn } from './pastAsked.ts';
import { crewBefore } from './pastChangeovers.ts';
import { stripOf } from './pastReport.ts';

export const courseQuery = periodQuery;

/** A chart gets no more points than this; of what is cut out of it, so many of the longest. */
const MOST = { points: 480, cuts: 400 };
/** Of the notes about moments of one day, so many that were written last. */
const NOTES_MOST = 500;

/** `/course`: a stretch as a strip, and what can be gone to in it. */
export function courseRoutes(router: Router, { past, read }: Doors): void {
  router.get('/course', async (request, response) => {
    const { records, live } = await past(request, response);
    response.json(courseIn(records, live, read(courseQuery, request.query)));
  });
}

export function courseIn(records: RecordsRead, live: LineRead, query: PeriodQuery): Course {
  const asked = askedOf(records, live, query);
  const { index, from, to } = asked;
  const { changeover } = live.fold().state;
  const of = recordsIn(records, index.line.id, asked);
  const begun = begunOf(records, live, asked);
  const before = records.last(index.line.id, 'size', from);
  const sizes = of('size').filter(({ at }) => at >= from);
  const targetAt = (size: string, at: Instant) => targetThen(index, crewBefore(records, live, at), size, at);
  const all = [...(before ? [before] : []), ...sizes];
  const targets = all.map(({ size, at }) => targetAt(size, Math.max(at, from) as Instant).perMinute);
  const target = Math.max(0, ...targets);
  return courseOf({
    ...asked,
    seen: seenTime(asked, gapsIn(records, live, asked), begun),
    strip: stripOf(records, live, {
      period: { from, to },
      stretches: [{ from, to }],
      target: target > 0 ? target : undefined,
      most: MOST,
    }),
    sizes: all,
    targetAt,
    stops: of('stop'),
    presses: of('press'),
    // the record of the one that goes on is as it began
    changeovers: of('changeover').map((one) => (one.begin === changeover?.begin ? changeover : one)),
    notices: of('notice'),
    entries: [...of('entry'), ...notedIn(records, live, asked)],
    correctable: new Set(live.fold().state.said.map(({ first }) => first.id)),
  });
}

/** [RP21] Notes about moments of a stretch, whatever day they were written. */
function notedIn(
  records: RecordsRead,
  live: LineRead,
  { from, to }: { readonly from: Instant; readonly to: Instant },
): readonly RecordBodies['entry'][] {
  const line = live.line.id;
  const before = after(live.now(), 1 as Span);
  return notedSubjects(from, to).flatMap((subject) =>
    records.newestOf({ line, kind: 'entry', subject }, before, NOTES_MOST),
  );
}
