import type { Database, Statement } from 'better-sqlite3';
import type { Change } from '../../model/signals/signals.ts';
import { statement } from './database.ts';
import type { SegmentIndex } from './segmentIndex.ts';
import { type Division, divide, seal } from './segments.ts';
import type { SignalNumbers } from './signalNumbers.ts';

/**
 * A history that lies before what a line's tape holds, while it is being brought in: sealed segments under a number that
 * nobody reads, the line's own below zero. Only when it is whole do they become the line's, all at once.
 */
export class HistoryStore {
  private readonly hidden: number;
  private readonly numbers: SignalNumbers;
  private readonly index: SegmentIndex;
  private readonly insert: Statement<[number, number, number, Buffer]>;
  private readonly take: (line: number, begin: number) => void;
  private readonly forget: () => void;
  private readonly put: (sealed: Division['sealed']) => void;
  private tail: readonly Change[] = [];
  private end = 0;

  constructor(database: Database, line: number, numbers: SignalNumbers, index: SegmentIndex) {
    this.hidden = -line;
    this.numbers = numbers;
    this.index = index;
    this.insert = statement(database, 'INSERT INTO segment (line, start, count, body) VALUES (?, ?, ?, ?)');
    const moved = statement<[number, number, number]>(
      database,
      'UPDATE segment SET line = ?, start = start + ? WHERE line = ?',
    );
    const states = statement<[number]>(database, 'DELETE FROM checkpoint WHERE line = ?');
    const gone = statement<[number]>(database, 'DELETE FROM segment WHERE line = ?');
    this.forget = database.transaction(() => {
      gone.run(this.hidden);
      index.clear(this.hidden);
    });
    this.put = database.transaction((sealed: Division['sealed']) => {
      for (const segment of sealed) this.seal(segment);
    });
    this.take = database.transaction((number: number, begin: number) => {
      moved.run(number, begin, this.hidden);
      index.move(this.hidden, number, begin);
      // saved states were folded without it
      states.run(number);
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

  /** It becomes the line's own, ending where the line's begins. Answers the position of its first change. */
  finish(line: number): number {
    if (this.tail.length > 0) this.put([this.tail]);
    this.tail = [];
    this.take(line, -this.end);
    return -this.end;
  }

  private seal(segment: readonly Change[]): void {
    const body = seal(segment);
    this.insert.run(this.hidden, this.end, segment.length, body);
    this.index.add({ line: this.hidden, start: this.end }, segment, body.length);
    this.end += segment.length;
  }
}
