import type { Author, Entry } from '../entries/entries.ts';
import type { Changed, Measure } from '../entries/saidEntries.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { Done, Found } from '../notices/answers.ts';
import type { NoticeRecord } from '../notices/notice.ts';
import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';
import type { HeldAnswer } from './held.ts';
import { type StationRef, stationRef } from './past.ts';

/** [HE1] What was done at a station: a change that was entered, or what closed a notice; and whether it held. */
export type DoneRow = {
  readonly id: string;
  readonly at: EpochMs;
  readonly station: StationRef;
  readonly by: Author;
  readonly words: string | undefined;
} & (
  | {
      readonly kind: 'changed';
      readonly changed: Changed;
      /** Name of the adjustment that was changed. */
      readonly adjustment: string | undefined;
      /** It was entered otherwise at first: both stand in the list of entries. */
      readonly corrected: boolean;
      readonly expects: Measure | undefined;
      /** Undefined where nobody said what to expect: then there is nothing to judge. */
      readonly held: HeldAnswer | undefined;
    }
  | {
      readonly kind: 'notice';
      readonly found: Found;
      readonly done: Done;
      /** What is judged; undefined where nothing was changed that could hold. */
      readonly measure: Measure | undefined;
      readonly held: HeldAnswer | undefined;
      /** When the next notice about the same was raised, if it came back. */
      readonly again: EpochMs | undefined;
    }
);

export type ChangedEntry = Extract<Entry, { kind: 'changed' }>;

/** A change as it is known now; undefined where it was withdrawn. */
export function changedRow(
  index: LineIndex,
  { at, entry, said }: RecordBodies['entry'],
  held: (entry: ChangedEntry) => HeldAnswer | undefined,
): DoneRow | undefined {
  if (entry.kind !== 'changed') return undefined;
  const station = stationRef(index, entry.station);
  if (!station) return undefined;
  const { changed } = entry;
  const adjustment = changed.of === 'adjustment' ? changed.adjustment : undefined;
  return {
    ...{ kind: 'changed', id: entry.id, at: epochMs(at), station, by: entry.author, words: entry.words },
    ...{ changed, corrected: said !== undefined, expects: entry.expects?.measure, held: held(entry) },
    adjustment: index.line.adjustments.find(({ number }) => number === adjustment)?.name,
  };
}

/** What was done to a station that could hold: cleared and nothing else is no change. */
const CHANGES: ReadonlySet<Done> = new Set([
  'toBook',
  'otherNumber',
  'partChanged',
  'clamped',
  'cleaned',
  'other',
]);

/** What closing a notice changed at its station, in so far as that can be judged. */
export interface ClosedChange {
  readonly at: Instant;
  readonly id: string;
  readonly station: string;
  readonly measure: Measure;
}

export function changeOf({ id, station, kind, ended }: NoticeRecord): ClosedChange | undefined {
  const said = ended?.said;
  if (!said || station === null || said.found === 'nothing' || !CHANGES.has(said.done)) return undefined;
  return { at: said.at, id, station, measure: kind === 'rejects' ? 'rejects' : 'stops' };
}

/** A notice of a station of which a person said what was found and done. `notices`: all, to see whether it came back. */
export function noticeRow(
  index: LineIndex,
  notice: NoticeRecord,
  notices: readonly NoticeRecord[],
  held: (change: ClosedChange) => HeldAnswer | undefined,
): DoneRow | undefined {
  const station = stationRef(index, notice.station);
  const said = notice.ended?.said;
  if (!station || !said) return undefined;
  const { at, by, found, done, words } = said;
  const change = changeOf(notice);
  const again = notices.find((one) => one.key === notice.key && one.at > at);
  return {
    ...{
      kind: 'notice',
      id: notice.id,
      at: epochMs(at),
      station,
      by,
      found,
      done,
      words: words ?? undefined,
    },
    measure: change?.measure,
    held: change && held(change),
    again: again && epochMs(again.at),
  };
}
