import { actingOn, type SettledCounts, settledCounts } from '../../model/past/settledCounts.ts';
import type { RecordBodies } from '../../model/records/records.ts';
import { bookSubject, changedSubject, movedSubject, settingSubject } from '../../model/records/subjects.ts';
import { type SetAt, setHistories } from '../../model/setpoints/history.ts';
import { settledStretches, type SetRun } from '../../model/setpoints/settled.ts';
import type { Instant } from '../../model/units/units.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { type FittedSaid, lotsSaid, partsAt, partsSaid } from './fittedPast.ts';
import { begunOf } from './pastAsked.ts';
import { runsOf, talliesOf } from './pastTallies.ts';

/** What people said of one station, and what one sensor told: the newest of it. */
const SAID_MOST = 2_000;
/** Runs of a size that its book is learned from: the newest. */
export const RUNS_MOST = 60;

export interface SetPointEvidence {
  /** The newest runs of the size, the oldest first; the one that goes on is the last. */
  readonly runs: readonly SetRun[];
  readonly histories: ReadonlyMap<string, readonly SetAt[]>;
  /** What the adjustments that act on a station brought there, in stretches in which none of them moved. */
  readonly countsAt: (station: string) => readonly SettledCounts[];
}

/** [SP8] All that runs of a size tell of where adjustments stood and what came of it. */
export function setPointEvidence(records: RecordsRead, live: LineRead, size: string): SetPointEvidence {
  const now = live.now();
  const { index } = live.fold();
  const { line } = live;
  const begun = begunOf(records, live, { to: now });
  const parts = partsSaid(records, live, now, SAID_MOST);
  const lots = lotsSaid(records, live, now, SAID_MOST);
  const sheets = records.ask({ line: line.id, kind: 'sheet', from: begun, to: now });
  const runs = runsOf(records, live, { to: now, begun })
    .filter((run) => run.size === size && run.to > run.from)
    .slice(-RUNS_MOST)
    .map(({ from, to }): SetRun => {
      const sheet = sheets.find(
        (one) => one.size === size && one.begin <= from && (one.ended === null || one.ended.at >= from),
      );
      const told = records.last(line.id, 'size', (from + 1) as Instant)?.lot;
      return {
        from,
        to,
        saidSince: sheet ? sheet.begin : from,
        lot: lotIn(lots, from, to) ?? told ?? null,
        parts: partsAt(line, parts, to) ?? null,
      };
    });
  const histories = historiesOf(records, live);
  const tallyAt = talliesOf(records, live, now);
  const attributedAt = attributedBy(records, live);
  const countsAt = (station: string): readonly SettledCounts[] => {
    const acting = actingOn(line.adjustments, station).map(({ number }) => histories.get(number) ?? []);
    return runs.flatMap((run) => {
      const make = () => {
        const within = { line: line.id, from: run.from, to: (run.to + 1) as Instant };
        const asked = {
          index,
          tallyAt,
          attributedAt,
          stops: records.ask({ ...within, kind: 'stop' }),
          gaps: records.ask({ ...within, kind: 'gap' }).filter(({ kind }) => kind === 'unknown'),
        };
        return settledStretches([run], acting).map((settled) => settledCounts(asked, station, settled));
      };
      // entries that come later may say where it stood then: what is remembered is told apart by them
      const key = `settled ${station} ${run.from} ${run.to} ${saidOf(run, acting)}`;
      return run.to < now ? records.remember(line.id, key, (run.to + 1) as Instant, make) : make();
    });
  };
  return { runs, histories, countsAt };
}

/** Where every adjustment stood, as far back as it is held. */
export function historiesOf(records: RecordsRead, live: LineRead): ReadonlyMap<string, readonly SetAt[]> {
  const { line } = live;
  const all = { line: line.id, from: begunOf(records, live, { to: live.now() }), to: live.now() };
  const sheets = records.ask({ ...all, kind: 'sheet' }).filter(({ kind }) => kind === 'size');
  const sizes = records.ask({ ...all, kind: 'size' });
  return setHistories(live.fold().index, {
    entries: line.stations
      .flatMap(({ id }) => [
        ...newestOf(records, live, settingSubject(id)),
        ...newestOf(records, live, changedSubject(id)),
      ])
      .sort((a, b) => a.at - b.at),
    anew: [...sheets.map(({ begin }) => begin), ...sizes.map(({ at }) => at)].sort((a, b) => a - b),
    moves: line.adjustments.flatMap(({ number }) =>
      records.newestOf({ line: line.id, kind: 'move', subject: movedSubject(number) }, live.now(), SAID_MOST),
    ),
  });
}

/** The book's number for a size at a moment: as it was approved by then, else as the line's file says now. */
export function bookThen(records: RecordsRead, live: LineRead, size: string | null) {
  return (adjustment: string, at: Instant): number | undefined => {
    if (size === null) return undefined;
    const entry = records
      .newestOf(
        { line: live.line.id, kind: 'entry', subject: bookSubject(size, adjustment) },
        (at + 1) as Instant,
        1,
      )
      .at(-1)?.entry;
    if (entry?.kind === 'book' && entry.value !== null) return entry.value;
    return live.line.adjustments.find(({ number }) => number === adjustment)?.book.get(size);
  };
}

/** All that is known of where they stood in a run, and what a datum's offset changes is no part of it. */
function saidOf(run: SetRun, acting: readonly (readonly SetAt[])[]): string {
  return acting
    .map((history) =>
      history
        .filter(({ at }) => at < run.to)
        .map(({ at, value, known }) => `${at}:${value}:${known[0]}`)
        .slice(-12)
        .join(','),
    )
    .join(' ')
    .concat(` ${run.saidSince} ${run.lot} ${run.parts}`);
}

function newestOf(records: RecordsRead, live: LineRead, subject: string): readonly RecordBodies['entry'][] {
  return records.newestOf({ line: live.line.id, kind: 'entry', subject }, live.now(), SAID_MOST);
}

/** What people said last of the lot in a run: what was said before it began the PLC may have told otherwise since. */
function lotIn(lots: readonly FittedSaid[], from: Instant, to: Instant): string | undefined {
  return lots.findLast(({ at }) => at >= from && at < to)?.name;
}

function attributedBy(records: RecordsRead, live: LineRead) {
  const known = new Map<Instant, readonly number[] | undefined>();
  const { state } = live.fold();
  return (at: Instant): readonly number[] | undefined => {
    if (at >= state.at) return state.attribution.parts;
    if (!known.has(at)) known.set(at, records.last(live.line.id, 'minute', (at + 1) as Instant)?.attributed);
    return known.get(at);
  };
}
