import type { ClosedChange, DoneRow } from '../../model/past/donePast.ts';
import { changedRow, noticeRow } from '../../model/past/donePast.ts';
import { targetThen } from '../../model/past/crewAt.ts';
import { held, type HeldAnswer, type HeldRun } from '../../model/past/held.ts';
import { loadedByHand } from '../../model/past/loadedByHand.ts';
import type { PastAsked } from '../../model/past/past.ts';
import { runAt } from '../../model/past/worsePast.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { changedSubject } from '../../model/records/subjects.ts';
import { after, HOUR, type Instant, type Span } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { lotsSaid } from './fittedPast.ts';
import { begunOf, recordsIn } from './pastAsked.ts';
import { crewBefore } from './pastChangeovers.ts';
import { runToldBy } from './pastNormal.ts';
import { runsOf } from './pastTallies.ts';

/** Changes of a station that are held against one another, the newest of them. */
const CHANGES_MOST = 100;
/** Runs before a change that are looked at, and after it: of all sizes, so that there are enough of one. */
const RUNS_BEFORE = 60;
const RUNS_AFTER = 150;
/** A change is judged up to so long after it. */
const LOOKED = (120 * 24 * HOUR) as Span;

type Run = ReturnType<typeof runsOf>[number];

/** [HE1] What was done in a stretch at one station or at all of them, the newest first; and whether it held by now. */
export function doneOf(
  records: RecordsRead,
  live: LineRead,
  { from, to }: Pick<PastAsked, 'from' | 'to'>,
  station: string | undefined,
): readonly DoneRow[] {
  const { index } = live.fold();
  const line = index.line.id;
  const judge = judgeOf(records, live);
  const stations = index.line.stations.filter(({ id }) => station === undefined || id === station);
  const rows = stations.flatMap(({ id }) => {
    const changes = records.newestOf({ line, kind: 'entry', subject: changedSubject(id) }, to, CHANGES_MOST);
    return changes
      .filter(({ at }) => at >= from)
      .flatMap(
        (record) =>
          changedRow(
            index,
            record,
            (entry) =>
              entry.expects &&
              judge({ at: record.at, id: entry.id, station: id, measure: entry.expects.measure }, changes),
          ) ?? [],
      );
  });
  const notices = recordsIn(records, line, { from, to })('notice');
  const closed = notices.flatMap(
    (notice) =>
      noticeRow(index, notice, notices, (change) =>
        judge(
          change,
          records.newestOf(
            { line, kind: 'entry', subject: changedSubject(change.station) },
            to,
            CHANGES_MOST,
          ),
        ),
      ) ?? [],
  );
  return [...rows, ...closed.filter((row) => station === undefined || row.station.id === station)].sort(
    (a, b) => b.at - a.at,
  );
}

/** Of whole runs alone: the one that goes on says nothing yet. */
function judgeOf(records: RecordsRead, live: LineRead) {
  const now = live.now();
  const begun = begunOf(records, live, { to: now });
  const { index } = live.fold();
  const all = runsOf(records, live, { to: now, begun }).filter((run) => run.to > run.from && run.to < now);
  const told = runToldBy(records, live, { index, from: begun, to: now, begun });
  const lots = lotsOf(records, live, now);
  return (
    { at, id, station, measure }: ClosedChange,
    changes: readonly RecordBodies['entry'][],
  ): HeldAnswer | undefined => {
    if (measure === 'rejects' && loadedByHand(index, station)) return undefined;
    const before = all.filter((run) => run.from < at).slice(-RUNS_BEFORE);
    const later = all.filter((run) => run.from >= at && run.from < after(at, LOOKED)).slice(0, RUNS_AFTER);
    const heldRun = (run: Run): readonly HeldRun[] => {
      const key = `run ${run.from} ${run.to} false`;
      const whole = records.remember(index.line.id, key, after(run.to, 1 as Span), () => told(run, false));
      const counted = runAt(index, station, measure, whole);
      const { crew } = targetThen(index, crewBefore(records, live, run.to), run.size, run.to);
      return counted
        ? [{ ...counted, from: run.from, to: run.to, size: run.size, crew, lot: lots(run) }]
        : [];
    };
    const others = changes.flatMap((other) =>
      other.entry.kind === 'changed' && other.entry.id !== id ? [other.at] : [],
    );
    return held({ measure, at, runs: [...before, ...later].flatMap(heldRun), others });
  };
}

/** Lots of board that ran in a run: by the PLC at its beginning, and as people entered since. */
function lotsOf(records: RecordsRead, live: LineRead, now: Instant): (run: Run) => string | null {
  const { id } = live.line;
  const entered = lotsSaid(records, live, now, CHANGES_MOST);
  return ({ from, to }) => {
    const told = records.last(id, 'size', after(from, 1 as Span))?.lot;
    const since = entered.filter(({ at }) => at > from && at < to).map(({ name }) => name);
    const first = told ?? entered.findLast(({ at }) => at <= from)?.name;
    const all = [...new Set([...(first === undefined ? [] : [first]), ...since])];
    return all.length === 0 ? null : all.join(', ');
  };
}
