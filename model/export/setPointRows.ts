import type { Entry } from '../entries/entries.ts';
import type { LineIndex } from '../fold/lineIndex.ts';
import { settingsSaid } from '../fold/settings.ts';
import type { RecordBodies } from '../records/records.ts';
import type { Row } from './columns.ts';
import { byOf, sizeName, stationName } from './happenedRows.ts';

/** What a sensor told of an adjustment's being moved: it stands when the move was over. */
export function moveRow(index: LineIndex, move: RecordBodies['move']): Row<'setPoints'> {
  return {
    ...base(index, move.adjustment),
    line_time: move.end,
    event: 'sensor',
    value: move.to,
    before: move.from,
    moving_since: move.begin,
    datum: move.datum,
  };
}

/** What an entry says of set points, as it counts now; none where it was withdrawn or says nothing of them. */
export function settingRows(
  index: LineIndex,
  { at, entry }: RecordBodies['entry'],
): readonly Row<'setPoints'>[] {
  const by = byOf(entry.author);
  const row = (adjustment: string, event: string, more: Partial<Row<'setPoints'>>) => ({
    ...base(index, adjustment),
    line_time: at,
    event,
    by,
    ...more,
  });
  switch (entry.kind) {
    case 'reading':
    case 'asBook':
    case 'changed':
      return settingsSaid(entry).map(({ adjustment, value, how, found }) =>
        row(adjustment, how, { value, before: found, words: wordsOf(entry) }),
      );
    case 'datum':
      return [row(entry.adjustment, entry.why, { words: entry.words ?? null })];
    case 'datumOffset':
      return [row(entry.adjustment, 'offset', { value: entry.offset, datum: entry.datum, words: entry.why })];
    case 'book':
      return [
        row(entry.adjustment, 'book', {
          value: entry.value,
          size: sizeName(index, entry.size),
          words: entry.why,
        }),
      ];
    default:
      return [];
  }
}

function wordsOf(entry: Entry): string | null {
  return entry.kind === 'changed' ? entry.words : null;
}

function base(index: LineIndex, number: string): Row<'setPoints'> {
  const adjustment = index.line.adjustments.find((one) => one.number === number);
  return {
    line_time: null,
    adjustment: number,
    adjustment_name: adjustment?.name ?? null,
    station: stationName(index, adjustment?.station ?? null),
    unit: adjustment?.unit ?? null,
    event: null,
    value: null,
    before: null,
    moving_since: null,
    datum: null,
    size: null,
    by: null,
    words: null,
  };
}
