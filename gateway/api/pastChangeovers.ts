import { z } from 'zod';
import { EARLIER_MOST } from '../../model/past/changeoverOpened.ts';
import { type ChangeoverNumbers, changeoverNumbers } from '../../model/past/changeoverNumbers.ts';
import { type ChangeoversPast, changeoversPast } from '../../model/past/changeoversPast.ts';
import { type CrewChange, crewChanges, type TargetChange, targetChanges } from '../../model/past/crewAt.ts';
import type { PastAsked } from '../../model/past/past.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { changeoverSubject, CREW, TARGET } from '../../model/records/subjects.ts';
import { type Instant, instantFromMs } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { bookThen, historiesOf } from './setPointEvidence.ts';
import { askedOf, begunOf, periodQuery, recordsIn, text } from './pastAsked.ts';

export const changeoversQuery = periodQuery.extend({
  kind: z.enum(['size', 'artwork', 'startUp']).optional(),
  pair: text,
  /** Beginning of the one to open: milliseconds since 1970. */
  at: text,
  most: z.coerce.number().int().min(0).max(200).default(20),
});

/** Changeovers of a stretch, one of them opened beside the earlier ones of its pair. */
export function changeoversOf(
  records: RecordsRead,
  live: LineRead,
  query: z.infer<typeof changeoversQuery>,
): ChangeoversPast {
  const asked = askedOf(records, live, query);
  const { line } = live;
  const { kind, pair, at, most } = query;
  return changeoversPast({
    ...asked,
    now: live.now(),
    changeovers: known(records, live, asked, at),
    alike: (one) =>
      records.newestOf(
        { line: line.id, kind: 'changeover', subject: changeoverSubject(one) },
        one.begin,
        EARLIER_MOST,
      ),
    near: (from, to) => {
      const near = recordsIn(records, line.id, { from, to });
      return { minutes: near('minute'), stops: near('stop'), gaps: near('gap') };
    },
    remember: (key, to, make) => records.remember(line.id, key, to, make),
    numbers: numbersBy(records, live),
    gaps: recordsIn(records, line.id, asked)('gap'),
    begun: begunOf(records, live, asked),
    crew: (then) => crewBefore(records, live, then),
    filter: { kind, pair },
    open: at,
    most,
  });
}

/** [CH4] What each of them did to the numbers; of those that are over it is worked out once. */
export function numbersBy(records: RecordsRead, live: LineRead) {
  let known: ReturnType<typeof historiesOf> | undefined;
  const histories = () => {
    known ??= historiesOf(records, live);
    return known;
  };
  return (record: RecordBodies['changeover'], over: Instant): ChangeoverNumbers => {
    const make = () => numbersOf(records, live, record, over, histories());
    if (over >= live.now()) return make();
    return records.remember(live.line.id, `numbers ${record.begin} ${over}`, (over + 1) as Instant, make);
  };
}

function numbersOf(
  records: RecordsRead,
  live: LineRead,
  record: RecordBodies['changeover'],
  over: Instant,
  histories: ReturnType<typeof historiesOf>,
): ChangeoverNumbers {
  const { index } = live.fold();
  const sheets = records.ask({ line: live.line.id, kind: 'sheet', from: record.begin, to: over });
  const sheet = sheets.find(({ changeover }) => changeover === record.begin);
  return changeoverNumbers({
    index,
    record,
    over,
    saidSince: sheet?.begin ?? record.begin,
    histories,
    bookAt: bookThen(records, live, record.to),
  });
}

/** Targets for a size and a crew that people entered, the newest of them. */
const TARGETS_MOST = 50;

/** What people said last of the crew up to a moment, by itself or with an order that began; and of targets. */
export function crewBefore(
  records: RecordsRead,
  live: LineRead,
  then: Instant,
): readonly (CrewChange | TargetChange)[] {
  const { index } = live.fold();
  const last = <Kind extends 'entry' | 'order'>(kind: Kind, subject: string, most: number) =>
    records.newestOf({ line: index.line.id, kind, subject }, (then + 1) as Instant, most);
  return [
    ...crewChanges(index, last('entry', CREW, 1), last('order', CREW, 1)),
    ...targetChanges(last('entry', TARGET, TARGETS_MOST)),
  ];
}

/**
 * Those of the stretch, the newest of all, and the one to open. The record of the one that goes on is as it began: the
 * line itself knows what came of it since.
 */
function known(
  records: RecordsRead,
  live: LineRead,
  { from, to }: PastAsked,
  open: string | undefined,
): readonly RecordBodies['changeover'][] {
  const { id } = live.line;
  const ask = (span: { readonly from: Instant; readonly to: Instant }) =>
    recordsIn(records, id, span)('changeover');
  const opened = open === undefined ? Number.NaN : Number(open);
  const all = [
    ...ask({ from, to }),
    ...records.newest(id, 'changeover', 1),
    ...(Number.isSafeInteger(opened)
      ? ask({ from: instantFromMs(opened), to: instantFromMs(opened + 1) })
      : []),
  ];
  const { changeover } = live.fold().state;
  const once = new Map([...all, ...(changeover ? [changeover] : [])].map((one) => [one.begin, one]));
  return [...once.values()].sort((a, b) => a.begin - b.begin);
}
