import type { Database } from 'better-sqlite3';
import type { Change, Signal } from '../../model/signals/signals.ts';
import { assert } from '../../model/trouble/trouble.ts';
import { statement } from './database.ts';

/**
 * A line's signals against the tape's own numbers for them. Ids the tape has not seen get the next numbers; a number
 * is never given twice, so what was recorded keeps its meaning when the line's file changes.
 */
export class SignalNumbers {
  private readonly numberOf: readonly number[];
  private readonly indexOf: readonly (number | undefined)[];
  /** The tape's numbers for what people write. */
  readonly entries: ReadonlySet<number>;
  /** The line's places and the tape's numbers are the same: changes need no translation. */
  private readonly same: boolean;

  constructor(database: Database, line: number, signals: readonly Signal[]) {
    const known = new Map(
      (
        statement(database, 'SELECT id, number FROM signal WHERE line = ?').raw().all(line) as [
          string,
          number,
        ][]
      ).map(([id, number]) => [id, number]),
    );
    const insert = statement(database, 'INSERT INTO signal (line, number, id) VALUES (?, ?, ?)');
    const indexOf: (number | undefined)[] = Array.from({ length: known.size }, () => undefined);
    this.numberOf = signals.map(({ id }, index) => {
      let number = known.get(id);
      if (number === undefined) {
        number = known.size;
        insert.run(line, number, id);
        known.set(id, number);
      }
      assert(indexOf[number] === undefined, `two signals have the id ${id}`);
      indexOf[number] = index;
      return number;
    });
    this.indexOf = indexOf;
    this.entries = new Set(
      signals.flatMap(({ role }, index) => (role === 'entry' ? [this.numberOf[index]!] : [])),
    );
    this.same = indexOf.every((index, number) => index === number);
  }

  /** The line's place for each of the tape's numbers; undefined where they are the same. */
  get translation(): readonly (number | undefined)[] | undefined {
    return this.same ? undefined : this.indexOf;
  }

  /** The line's place for each of the tape's numbers, without those that it no longer has. */
  places(): ReadonlyMap<number, number> {
    return new Map(this.numberOf.map((number, index) => [number, index]));
  }

  /** Changes as the tape stores them. */
  toTape(changes: readonly Change[]): readonly Change[] {
    for (const { signal } of changes) {
      assert(this.numberOf[signal] !== undefined, `the line has no signal ${signal}`);
    }
    if (this.same) return changes;
    return changes.map((change) => ({ ...change, signal: this.numberOf[change.signal]! }));
  }

  /** Changes as the line names them; those of signals it no longer has are left out. */
  fromTape(changes: readonly Change[]): readonly Change[] {
    if (this.same) return changes;
    const kept: Change[] = [];
    for (const change of changes) {
      const signal = this.indexOf[change.signal];
      if (signal !== undefined) kept.push(signal === change.signal ? change : { ...change, signal });
    }
    return kept;
  }
}
