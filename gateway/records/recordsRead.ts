import type { RecordBodies, RecordKind } from '../../model/records/records.ts';
import { type Instant, MINUTE } from '../../model/units/units.ts';

/** What is asked of the records of one kind: all that have a part in [from, to). */
export interface RecordQuestion<Kind extends RecordKind> {
  readonly line: string;
  readonly kind: Kind;
  readonly from: Instant;
  readonly to: Instant;
}

/** What is asked of lines' records: as they are known now, or as they were at a position of the tape. */
export interface RecordsRead {
  /** The oldest first. */
  ask<Kind extends RecordKind>(question: RecordQuestion<Kind>): RecordBodies[Kind][];
  /** The newest that began before a moment. */
  last<Kind extends RecordKind>(line: string, kind: Kind, before: Instant): RecordBodies[Kind] | undefined;
  /** So many of the newest, the oldest of them first. */
  newest<Kind extends RecordKind>(line: string, kind: Kind, most: number): RecordBodies[Kind][];
  /** So many of the newest of one subject that began before a moment, the oldest of them first. */
  newestOf<Kind extends RecordKind>(
    of: { readonly line: string; readonly kind: Kind; readonly subject: string },
    before: Instant,
    most: number,
  ): RecordBodies[Kind][];
  /** What `make` works out of a line's records that began before `to`, once until one of them changes. */
  remember<Value>(line: string, key: string, to: Instant, make: () => Value): Value;
  /** From when on there are records at all. */
  first(line: string): Instant | undefined;
}

/** What is read of a stored record. */
export interface RowRead {
  readonly until: number | null;
  readonly body: string;
}

/** The rows of one line. */
export interface RowsRead {
  /** Those that began in [from, to), the oldest first. */
  within(kind: RecordKind, from: number, to: number): readonly RowRead[];
  /** So many that began before a moment, the newest first. */
  earlier(kind: RecordKind, before: number, most: number): readonly RowRead[];
  bySubject(kind: RecordKind, subject: string, before: number, most: number): readonly RowRead[];
  /** When the oldest began. */
  oldest(kind: RecordKind): number | undefined;
}

/** Of what began before a stretch of time, so many of the newest are looked at: they may reach into it. */
const REACHING = 8;

/** Answers what is asked from a line's rows; `rowsOf` answers undefined for a line that has no records. */
export function answersFrom(rowsOf: (line: string) => RowsRead | undefined): Omit<RecordsRead, 'remember'> {
  return {
    ask: ({ line, kind, from, to }) => {
      const rows = rowsOf(line);
      if (!rows || to <= from) return [];
      const reaching = rows
        .earlier(kind, from, REACHING)
        .filter(({ until }) => until === null || until > from)
        .reverse();
      return [...reaching, ...rows.within(kind, from, to)].map(bodyOf);
    },
    last: (line, kind, before) => rowsOf(line)?.earlier(kind, before, 1).map(bodyOf)[0],
    newest: (line, kind, most) =>
      (rowsOf(line)?.earlier(kind, Number.MAX_SAFE_INTEGER, most) ?? []).map(bodyOf).reverse(),
    newestOf: ({ line, kind, subject }, before, most) =>
      (rowsOf(line)?.bySubject(kind, subject, before, most) ?? []).map(bodyOf).reverse(),
    first: (line) => {
      const end = rowsOf(line)?.oldest('minute');
      // a minute's record bears its end
      return end === undefined ? undefined : ((end - MINUTE) as Instant);
    },
  } as Omit<RecordsRead, 'remember'>;
}

function bodyOf({ body }: RowRead): unknown {
  return JSON.parse(body);
}
