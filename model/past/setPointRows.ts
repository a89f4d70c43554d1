import type { LineIndex } from '../fold/lineIndex.ts';
import type { FoldState } from '../fold/state.ts';
import type { Adjustment } from '../line/line.ts';
import type { RecordBodies } from '../records/records.ts';
import type { SetRun } from '../setpoints/settled.ts';
import { bookNumber, stepsApart } from '../setpoints/standing.ts';
import { epochMs } from '../units/units.ts';
import { datumOf, readingOf, scaleOf } from './adjustmentsNow.ts';
import { stationRef } from './past.ts';
import type { Approval, Learned, SetPointRow, SetPointSums, SetPointsPast, Stands } from './setPointsPast.ts';
import type { SettledCounts } from './settledCounts.ts';

export interface RowsAsked {
  readonly index: LineIndex;
  readonly state: Readonly<FoldState>;
  readonly size: string;
  /** The newest runs of the size, the oldest first. */
  readonly runs: readonly SetRun[];
  /** What runs taught, by adjustment. */
  readonly learned: ReadonlyMap<string, Learned>;
  /** Approvals of this size, by adjustment: the newest. */
  readonly approved: (adjustment: string) => RecordBodies['entry'] | undefined;
  /** Of a station with all its cartons: how many a size's runs told of. */
  readonly counts: readonly SettledCounts[];
}

/** [BK2] The book of a size, row by row in the order of the line. */
export function setPointsPast(asked: RowsAsked): SetPointsPast {
  const { index, state, size, runs, counts } = asked;
  const rows = index.line.adjustments.map((adjustment) => rowOf(asked, adjustment));
  const { sizes } = index.line;
  return {
    size: { id: size, name: index.sizeById.get(size)?.name ?? size },
    sizes: sizes.map(({ id, name }) => ({ id, name })),
    runs: state.size === size ? 'now' : runs.length > 0 ? 'before' : 'never',
    from: {
      runs: runs.length,
      since: runs[0] && epochMs(runs[0].from),
      lots: named(runs.map(({ lot }) => lot)),
      parts: named(runs.map(({ parts }) => parts)),
      cartons: counts.reduce((sum, { cartons }) => sum + cartons, 0),
    },
    rows,
    sums: sumsOf(rows),
  };
}

/** What the screens of a station and of a sheet say of one row, too. */
export function approvalOf(record: RecordBodies['entry'] | undefined): Approval | undefined {
  if (record?.entry.kind !== 'book') return undefined;
  const { value, why, seen, author } = record.entry;
  return { value: value ?? undefined, at: epochMs(record.at), author, why, seen };
}

function rowOf(asked: RowsAsked, adjustment: Adjustment): SetPointRow {
  const { index, state, size, learned } = asked;
  const { number, name, unit, decimals, min, max, station } = adjustment;
  const book = bookNumber(index.line, state, size, number);
  const known = learned.get(number);
  const stands = standsOf(asked, adjustment, book, known);
  const approval = approvalOf(asked.approved(number));
  return {
    ...{ number, name, unit, decimals, min, max },
    station: stationRef(index, station)!,
    drawing: index.line.stations.find(({ id }) => id === station)?.drawing ?? station,
    book,
    approved: approval?.value === undefined ? undefined : approval,
    stands,
    datum: datumOf(state, number),
    scale: scaleOf(adjustment, book, stands.value),
    learned: known,
  };
}

/** As it stands now where the size runs, else where it stood when its newest run at rate ended. */
function standsOf(
  { index, state, size }: RowsAsked,
  adjustment: Adjustment,
  book: number | undefined,
  learned: Learned | undefined,
): Stands {
  const { decimals, number } = adjustment;
  const off = (value: number | undefined) =>
    value === undefined || book === undefined ? undefined : stepsApart(value, book, decimals);
  if (state.size !== size) {
    const ran = state.ranAt.find((one) => one.size === size && one.adjustment === number);
    if (!ran) return { value: undefined, known: 'none', at: undefined, off: undefined, tried: undefined };
    const { value, how, at } = ran;
    return {
      value,
      known: how,
      at: epochMs(at),
      off: off(value),
      tried: triedAt(value, off(value), learned),
    };
  }
  const { value, known, since, beforeSize } = readingOf(index, state, adjustment);
  const reads = known !== 'silent' && known !== 'none' && !beforeSize;
  const by = reads ? off(value) : undefined;
  return {
    value: beforeSize ? undefined : value,
    known: beforeSize ? 'none' : known,
    at: beforeSize ? undefined : since,
    off: by,
    tried: reads ? triedAt(value, by, learned) : undefined,
  };
}

/** Undefined where it stands as the book says, and where nobody can say what was tried. */
function triedAt(
  value: number | undefined,
  off: number | undefined,
  learned: Learned | undefined,
): Stands['tried'] {
  if (value === undefined || off === undefined || off === 0 || !learned) return undefined;
  const { ranWell, marks } = learned;
  if (ranWell && value >= ranWell.from && value <= ranWell.to) return 'well';
  const [first, last] = [marks[0], marks.at(-1)];
  if (!first || !last || value < first.at || value > last.at) return 'never';
  return ranWell ? 'badly' : undefined;
}

function sumsOf(rows: readonly SetPointRow[]): SetPointSums {
  const count = (is: (row: SetPointRow) => boolean) => rows.filter(is).length;
  return {
    adjustments: rows.length,
    off: count(({ stands }) => stands.off !== undefined && stands.off !== 0),
    neverTried: count(({ stands }) => stands.tried === 'never'),
    silent: count(({ stands }) => stands.known === 'silent'),
    confirmed: count(({ stands }) => stands.known === 'confirmed'),
    unknown: count(({ stands }) => stands.known === 'none'),
  };
}

function named(names: readonly (string | null)[]): readonly string[] {
  return [...new Set(names.filter((name) => name !== null))];
}
