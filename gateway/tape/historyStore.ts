import type { Database } from 'better-sqlite3';
import type { Change } from '../../model/signals/signals.ts';
import type { Checkpoints } from './checkpoints.ts';
import { LastValues } from './lastValues.ts';
import type { SegmentTable } from './segmentTable.ts';
import { type Division, divide } from './segments.ts';
import type { SignalNumbers } from './signalNumbers.ts';
import type { Checkpoint, HiddenHistory } from './tape.ts';

/** What all lines of a tape share. */
export interface Tables {
  readonly database: Database;
  readonly segments: SegmentTable;
  readonly checkpoints: Checkpoints;
}

/**
 * A history that lies before what a line's tape holds, while it is being brought in: sealed segments, and saved states on the way,
 * under a number that nobody reads, the line's own below zero. Only when it is whole do they become the line's, all at once.
 */
export class HistoryStore {
  private readonly hidden: number;
  private readonly numbers: SignalNumbers;
  private readonly tables: Tables;
  private readonly put: (sealed: Division['sealed']) => void;
  private readonly take: (line: number, begin: number) => void;
  private readonly forget: () => void;
  private tail: readonly Change[] = [];
  private last: LastValues;
  private end = 0;

  constructor(tables: Tables, line: number, numbers: SignalNumbers) {
    this.hidden = -line;
    this.numbers = numbers;
    this.tables = tables;
    this.last = new LastValues(numbers.entries);
    const { database, segments, checkpoints } = tables;
    this.forget = database.transaction(() => {
      segments.clear(this.hidden);
      checkpoints.clear(this.hidden);
    });
    this.put = database.transaction((sealed: Division['sealed']) => {
      for (const changes of sealed) {
        this.last = segments.add({ line: this.hidden, start: this.end }, changes, this.last);
        this.end += changes.length;
      }
    });
    this.take = database.transaction((number: number, begin: number) => {
      segments.move(this.hidden, number, begin);
      // saved states were folded without it; those that were made on the way stand in its positions
      checkpoints.clear(number);
      checkpoints.move(this.hidden, number, begin);
    }).immediate;
  }

  /** Drops what an import that came to no end left behind. */
  clear(): void {
    this.forget();
  }

  write(changes: readonly Change[]): void {
    const { sealed, rest } = divide(this.tail, this.numbers.toTape(changes));
    if (sealed.length > 0) this.put(sealed);
    this.tail = sealed.length > 0 ? rest : this.tail.concat(rest);
  }

  /** Keeps a state after so many changes of the history. */
  keep(checkpoint: Checkpoint): void {
    this.tables.checkpoints.keep(this.hidden, checkpoint);
  }

  /** All of it is on the disk then. Answers where it stands until it is the line's. */
  seal(): HiddenHistory {
    if (this.tail.length > 0) this.put([this.tail]);
    this.tail = [];
    return { number: this.hidden, count: this.end };
  }

  /** It becomes the line's own, ending where the line's begins. Answers the position of its first change. */
  finish(line: number, begin: number): number {
    this.seal();
    this.take(line, begin - this.end);
    return begin - this.end;
  }
}
