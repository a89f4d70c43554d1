import type { Database, Statement } from 'better-sqlite3';
import { type RecordKind, TOLD_AT_END } from '../../model/records/records.ts';
import type { Instant } from '../../model/units/units.ts';
import { statement } from '../tape/database.ts';
import type { Edition } from './records.ts';
import { isSame, type Row, type RowStep, type Written } from './rows.ts';

interface Standing extends Row {
  readonly since: number;
}

/** One record on its way: as it stood before, and as it is to stand. */
interface Moved {
  readonly before: Standing | undefined;
  now: Row | undefined;
}

type Key = [edition: number, kind: string, at: number, id: string];

/**
 * Writes what changes of the tape did to a making's records. What stood is kept with the positions at which it did; what is
 * taken back and told again alike, at one position, has stood all the time.
 */
export class RecordsWriter {
  /** All or none; then all up to a position of the tape is in it. Answers from which line time on anything changed. */
  readonly write: (edition: Edition, writes: readonly Written[], position: number) => Instant | undefined;
  private readonly standing: Statement<Key, Standing>;
  private readonly since: Statement<[number, string, number], Standing>;
  private readonly lasting: Statement<[number, string, number], Standing>;
  private readonly put: Statement<[...Key, number | null, number, string, string | null]>;
  private readonly remove: Statement<Key>;
  private readonly keep: Statement<
    [number, number, number, string, number, string, number | null, number, string, string | null]
  >;

  constructor(database: Database) {
    this.standing = statement(
      database,
      'SELECT kind, at, id, until, since, body, subject FROM record WHERE edition = ? AND kind = ? AND at = ? AND id = ?',
    );
    this.since = statement(
      database,
      'SELECT kind, at, id, until, since, body, subject FROM record WHERE edition = ? AND kind = ? AND at >= ?',
    );
    this.lasting = statement(
      database,
      'SELECT kind, at, id, until, since, body, subject FROM record WHERE edition = ? AND kind = ? AND until >= ?',
    );
    this.put = statement(
      database,
      'INSERT OR REPLACE INTO record (edition, kind, at, id, until, since, body, subject) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
    );
    this.remove = statement(
      database,
      'DELETE FROM record WHERE edition = ? AND kind = ? AND at = ? AND id = ?',
    );
    this.keep = statement(
      database,
      `INSERT OR REPLACE INTO replaced (edition, reach, gone, kind, at, id, until, since, body, subject)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    const move = statement<[number, number]>(database, 'UPDATE edition SET position = ? WHERE number = ?');
    this.write = database.transaction(
      (edition: Edition, writes: readonly Written[], position: number): Instant | undefined => {
        let from = Number.POSITIVE_INFINITY;
        for (const one of writes) from = Math.min(from, this.writeOne(edition, one));
        move.run(position, edition.number);
        return Number.isFinite(from) ? (from as Instant) : undefined;
      },
    ).immediate;
  }

  private writeOne({ number, origin }: Edition, { position, steps }: Written): number {
    const moved = new Map<string, Moved>();
    for (const step of steps) this.take(number, step, moved);
    let from = Number.POSITIVE_INFINITY;
    for (const { before, now } of moved.values()) {
      if (isSame(before, now)) continue;
      const { kind, at, id } = (now ?? before)!;
      from = Math.min(from, at);
      if (before) this.keepReplaced(number, before, position - origin);
      if (now) this.put.run(number, kind, at, id, now.until, position - origin, now.body, now.subject);
      else this.remove.run(number, kind, at, id);
    }
    return from;
  }

  private take(number: number, step: RowStep, moved: Map<string, Moved>): void {
    if (step.kind === 'put') {
      const { kind, at, id } = step.row;
      this.movedOf(number, moved, { kind, at, id }).now = step.row;
    } else if (step.kind === 'drop') {
      this.movedOf(number, moved, { kind: step.of, at: step.at, id: step.id }).now = undefined;
    } else {
      for (const kind of step.of)
        this.cut(
          moved,
          this.since.all(number, kind, step.from),
          (row) => row.kind === kind && row.at >= step.from,
        );
      for (const kind of TOLD_AT_END)
        if (step.of.includes(kind))
          this.cut(
            moved,
            this.lasting.all(number, kind, step.from),
            (row) => row.kind === kind && row.until !== null && row.until >= step.from,
          );
    }
  }

  private cut(moved: Map<string, Moved>, standing: readonly Standing[], isCut: (row: Row) => boolean): void {
    for (const one of moved.values()) if (one.now && isCut(one.now)) one.now = undefined;
    for (const row of standing) {
      const key = keyOf(row);
      // what was put or taken back just now is no longer as it stands in the table
      if (!moved.has(key)) moved.set(key, { before: row, now: undefined });
    }
  }

  private movedOf(number: number, moved: Map<string, Moved>, place: Pick<Row, 'kind' | 'at' | 'id'>): Moved {
    const key = keyOf(place);
    const known = moved.get(key);
    if (known) return known;
    const before = this.standing.get(number, place.kind, place.at, place.id);
    const made = { before, now: before };
    moved.set(key, made);
    return made;
  }

  private keepReplaced(number: number, row: Standing, gone: number): void {
    const { kind, at, id, until, since, body, subject } = row;
    if (since < gone)
      this.keep.run(number, reachOf(gone - since), gone, kind, at, id, until, since, body, subject);
  }
}

/** The least power of two that is no less. */
function reachOf(life: number): number {
  let reach = 1;
  while (reach < life) reach *= 2;
  return reach;
}

function keyOf({
  kind,
  at,
  id,
}: {
  readonly kind: RecordKind;
  readonly at: number;
  readonly id: string;
}): string {
  return `${kind} ${at} ${id}`;
}
