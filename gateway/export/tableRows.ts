import { setImmediate } from 'node:timers/promises';
import { changeRows } from '../../model/export/changeRow.ts';
import { type Cell, COLUMNS, type ExportTable } from '../../model/export/columns.ts';
import { type Counted, minuteRow, runRow } from '../../model/export/countedRows.ts';
import {
  changeoverRow,
  entryRow,
  gapRow,
  noticeRow,
  pressRow,
  stopRow,
} from '../../model/export/happenedRows.ts';
import { moveRow, settingRows } from '../../model/export/setPointRows.ts';
import type { RecordBodies, RecordKind } from '../../model/records/records.ts';
import { HOUR, type Instant, MINUTE } from '../../model/units/units.ts';
import type { ExportSource, Period } from './source.ts';

type Cells = readonly Cell[];

/** Some rows of a table, and how much of it is done with them, 0 to 1. */
export interface RowsPiece {
  readonly rows: readonly Cells[];
  readonly share: number;
}

/** Rows made at one go, before other work gets its turn. */
const AT_ONCE = 4000;
/** Records of so long a time are read at one go. */
const DAY = 24 * HOUR;

/** Rows of a table that begin in a period, piece by piece: what is held at once does not grow with the period. */
export function rowsOf(table: ExportTable, source: ExportSource, period: Period): AsyncGenerator<RowsPiece> {
  switch (table) {
    case 'changes':
      return changes(source, period);
    case 'runs':
      return runs(source, period);
    case 'minutes':
      return minutes(source, period);
    case 'gaps':
      return gaps(source, period);
    default:
      return derived(table, source, period);
  }
}

async function* changes(source: ExportSource, { from, to }: Period): AsyncGenerator<RowsPiece> {
  const { tape, stored, index } = source;
  const ranges = tape.within(stored, { least: from, most: (to - 1) as Instant });
  const of = ranges.reduce((sum, range) => sum + range.to - range.from, 0);
  const rowOf = changeRows(index, stored.signals);
  let done = 0;
  for (const range of ranges) {
    let position = range.from;
    const skip = (begin: number, end: number) => {
      source.unread.push({ from: begin, to: end });
      position += end - begin;
      done += end - begin;
    };
    for await (const piece of tape.read(stored, range.from, range.to, skip))
      for (let place = 0; place < piece.length; place += AT_ONCE) {
        const rows: Cells[] = [];
        for (const change of piece.slice(place, place + AT_ONCE)) {
          if (change.at >= from && change.at < to) rows.push(cellsOf('changes', rowOf(position, change)));
          position += 1;
          done += 1;
        }
        yield { rows, share: done / of };
        await setImmediate();
      }
  }
}

type Derived = Exclude<ExportTable, 'changes' | 'runs' | 'minutes' | 'gaps'>;

async function* derived(table: Derived, source: ExportSource, period: Period): AsyncGenerator<RowsPiece> {
  for await (const { from, to, share } of days(source, period))
    yield { rows: happened(table, source, { from, to }), share };
}

function happened(table: Derived, source: ExportSource, period: Period): readonly Cells[] {
  const { index } = source;
  const begun = beginning(source, period);
  switch (table) {
    case 'stops':
      return begun('stop', ({ begin }) => begin).map((stop) => cellsOf(table, stopRow(index, stop)));
    case 'presses':
      return begun('press', ({ pressed }) => pressed).map((press) => cellsOf(table, pressRow(index, press)));
    case 'changeovers':
      return begun('changeover', ({ begin }) => begin).map((one) =>
        cellsOf(table, changeoverRow(index, one)),
      );
    case 'notices':
      return begun('notice', ({ at }) => at).map((notice) => cellsOf(table, noticeRow(index, notice)));
    case 'entries':
      return begun('entry', ({ at }) => at).map((entry) => cellsOf(table, entryRow(entry)));
    case 'setPoints':
      return [
        ...begun('move', ({ begin }) => begin).map((move) => moveRow(index, move)),
        ...begun('entry', ({ at }) => at).flatMap((entry) => settingRows(index, entry)),
      ]
        .sort((a, b) => Number(a.line_time) - Number(b.line_time))
        .map((row) => cellsOf(table, row));
  }
}

async function* gaps(source: ExportSource, period: Period): AsyncGenerator<RowsPiece> {
  for await (const { from, to, share } of days(source, period))
    yield {
      rows: beginning(source, { from, to })('gap', (gap) => gap.from).map((gap) =>
        cellsOf('gaps', gapRow(gap)),
      ),
      share,
    };
  const { openGap } = source;
  if (openGap !== undefined && openGap >= period.from && openGap < period.to)
    yield { rows: [cellsOf('gaps', gapRow({ from: openGap, to: null, kind: 'unknown' }))], share: 1 };
}

async function* runs(source: ExportSource, { from, to }: Period): AsyncGenerator<RowsPiece> {
  const { index, records, until } = source;
  const line = index.line.id;
  const after = (until + 1) as Instant;
  // the run's end may lie beyond the period
  const sizes = records.ask({ line, kind: 'size', from, to: after }).filter(({ at }) => at >= from);
  const rows = sizes.flatMap((size, place) => {
    if (size.at >= to) return [];
    const next = sizes[place + 1];
    const newest = next ?? records.last(line, 'minute', after);
    const counted = newest?.tally && newest.at >= size.at ? (newest as Counted) : undefined;
    return [cellsOf('runs', runRow(index, size, next, counted))];
  });
  yield { rows, share: 1 };
}

/** A minute's record bears its end. */
async function* minutes(source: ExportSource, period: Period): AsyncGenerator<RowsPiece> {
  const { index, records } = source;
  const line = index.line.id;
  let before: Counted | undefined = records.last(line, 'minute', (period.from + MINUTE) as Instant);
  for await (const { from, to, share } of days(source, period)) {
    const ends = { from: (from + MINUTE) as Instant, to: (to + MINUTE) as Instant };
    const rows = beginning(source, ends)('minute', ({ at }) => at).map((minute) => {
      const row = minuteRow(index, minute, before);
      before = minute;
      return row;
    });
    yield { rows, share };
  }
}

/** Records of a kind that begin in a period, the oldest first. */
function beginning({ records, index }: ExportSource, { from, to }: Period) {
  return <Kind extends RecordKind>(
    kind: Kind,
    begin: (body: RecordBodies[Kind]) => Instant,
  ): readonly RecordBodies[Kind][] =>
    records
      .ask({ line: index.line.id, kind, from, to })
      .filter((body) => begin(body) >= from && begin(body) < to);
}

/** A period day by day; of the time before there were records, and after now, there is nothing to read in pieces. */
async function* days(
  { records, index, until }: ExportSource,
  { from, to }: Period,
): AsyncGenerator<Period & { readonly share: number }> {
  const end = Math.min(to, until + DAY);
  let begin: number = from;
  for (let next = Math.max(from, records.first(index.line.id) ?? end); begin < end; next += DAY) {
    next = Math.min(next, end);
    if (next > begin)
      yield { from: begin as Instant, to: next as Instant, share: (next - from) / (end - from) };
    begin = next;
    await setImmediate();
  }
}

function cellsOf(table: ExportTable, row: Readonly<Record<string, Cell>>): Cells {
  return names(table).map((name) => row[name]!);
}

const namesOf = new Map<ExportTable, readonly string[]>();

function names(table: ExportTable): readonly string[] {
  const known = namesOf.get(table) ?? Object.keys(COLUMNS[table]);
  namesOf.set(table, known);
  return known;
}
