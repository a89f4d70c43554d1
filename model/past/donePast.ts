import type { Author, Entry } from '../entries/entries.ts';
import type { Changed, Measure } from '../entries/saidEntries.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import type { Done, Found, NoticeRecord } from '../notices/notice.ts';
import type { RecordBodies } from '../records/records.ts';
import { type EpochMs, epochMs } from '../units/units.ts';
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
  | { readonly kind: 'notice'; readonly found: Found; readonly done: Done }
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

/** A notice that a person closed, saying what was found and done. */
export function noticeRow(index: LineIndex, { id, station: of, ended }: NoticeRecord): DoneRow | undefined {
  const station = stationRef(index, of);
  if (!station || !ended?.said) return undefined;
  const { at, by, found, done, words } = ended.said;
  return { kind: 'notice', id, at: epochMs(at), station, by, found, done, words: words ?? undefined };
}
