import type { LineIndex } from '../fold/lineIndex.ts';
import type { ChangeoverRecord } from '../fold/state.ts';
import type { SetAt } from '../setpoints/history.ts';
import { stepsApart } from '../setpoints/standing.ts';
import { type EpochMs, epochMs, type Instant } from '../units/units.ts';
import { type StationRef, stationRef } from './past.ts';

/** What a changeover did to one adjustment. */
export interface ChangedNumber {
  readonly number: string;
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  readonly station: StationRef;
  /** Where it stood before it, and when it was over; undefined where nobody said and no sensor told. */
  readonly was: number | undefined;
  readonly stood: number | undefined;
  readonly known: SetAt['known'] | undefined;
  /** The book's number then for the size that follows. */
  readonly book: number | undefined;
  /** Where it stood, less the book. */
  readonly off: number | undefined;
  /** Each time it was set or said, the oldest first; `again`: after the first good carton. */
  readonly moves: readonly { readonly at: EpochMs; readonly to: number; readonly again: boolean }[];
}

/** What was changed in a changeover: numbers that were told of, apart from those that went to the book in one move. */
export interface ChangeoverNumbers {
  readonly told: readonly ChangedNumber[];
  /** One move, or said once, and it stood as the book says. */
  readonly toBook: readonly ChangedNumber[];
  /** The same before as after, and never moved. */
  readonly same: readonly ChangedNumber[];
  /** Nobody said where they stood. */
  readonly unknown: readonly ChangedNumber[];
  readonly movedAgain: number;
}

export interface NumbersAsked {
  readonly index: LineIndex;
  readonly record: ChangeoverRecord;
  readonly over: Instant;
  /** From when on what people said is of the size that follows: its sheet may have been begun before. */
  readonly saidSince: Instant;
  readonly histories: ReadonlyMap<string, readonly SetAt[]>;
  readonly bookAt: (adjustment: string, at: Instant) => number | undefined;
}

/** [CH4] By the sensors, and by what people said. */
export function changeoverNumbers(asked: NumbersAsked): ChangeoverNumbers {
  const all = asked.index.line.adjustments.map(({ number }) => changed(asked, number));
  const isUnknown = ({ stood }: ChangedNumber) => stood === undefined;
  const isSame = ({ moves, was, stood, off }: ChangedNumber) =>
    moves.length === 0 && stood !== undefined && was === stood && (off === undefined || off === 0);
  const isToBook = ({ moves, off }: ChangedNumber) => moves.length === 1 && off === 0;
  return {
    told: all.filter((one) => !isUnknown(one) && !isSame(one) && !isToBook(one)),
    toBook: all.filter(isToBook),
    same: all.filter(isSame),
    unknown: all.filter(isUnknown),
    movedAgain: all.filter(({ moves }) => moves.some(({ again }) => again)).length,
  };
}

function changed(
  { index, record, over, saidSince, histories, bookAt }: NumbersAsked,
  number: string,
): ChangedNumber {
  const { name, unit, decimals, station } = index.line.adjustments.find((one) => one.number === number)!;
  const history = histories.get(number) ?? [];
  const since = Math.min(record.begin, saidSince) as Instant;
  const before = history.findLast(({ at }) => at < since);
  const within = history.filter(({ at, value }) => at >= since && at <= over && value !== undefined);
  const last = within.at(-1) ?? (before?.known === 'sensor' ? before : undefined);
  const book = bookAt(number, over);
  const firstGood = record.firstGood ?? (Number.POSITIVE_INFINITY as Instant);
  return {
    number,
    name,
    unit,
    decimals,
    station: stationRef(index, station)!,
    was: before?.value,
    stood: last?.value,
    known: last?.known,
    book,
    off: last?.value === undefined || book === undefined ? undefined : stepsApart(last.value, book, decimals),
    moves: within.map(({ at, value }) => ({ at: epochMs(at), to: value!, again: at > firstGood })),
  };
}
