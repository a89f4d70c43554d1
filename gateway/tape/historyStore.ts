import type { Database, Statement } from 'better-sqlite3';
import type { Change } from '../../model/signals/signals.ts';
import { statement } from './database.ts';
import { divide, seal } from './segments.ts';
import type { SignalNumbers } from './signalNumbers.ts';

/**
 * A history that lies before what a line's tape holds, while it is being brought in: sealed segments under a number that
 * nobody reads, the line's own below zero. Only when it is whole do they become the line's, all at once.
 */
export class HistoryStore {
  private readonly hidden: number;
  private readonly numbers: SignalNumbers;
  private readonly insert: Statement<[number, number, number, Buffer]>;
  private readonly take: (line: number, begin: number) => void;
  private readonly forget: () => void;
  private tail: readonly Change[] = [];
  private end = 0;

  constructor(database: Database, line: number, numbers: SignalNumbers) {
    this.hidden = -line;
    this.numbers = numbers;
    this.insert = statement(database, 'INSERT INTO segment (line, start, count, body) VALUES (?, ?, ?, ?)');
    const moved = statement<[number, number, number]>(
      database,
      'UPDATE segment SET line = ?, start = start + ? WHERE line = ?',
    );
    const states = statement<[number]>(database, 'DELETE FROM checkpoint WHERE line = ?');
    const gone = statement<[number]>(database, 'DELETE FROM segment WHERE line = ?');
    this.forget = () => void gone.run(this.hidden);
    this.take = database.transaction((number: number, begin: number) => {
      moved.run(number, begin, this.hidden);
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
    for (const segment of sealed) this.seal(segment);
    this.tail = sealed.length > 0 ? rest : this.tail.concat(rest);
  }

  /** It becomes the line's own, ending where the line's begins. Answers the position of its first change. */
  finish(line: number): number {
    if (this.tail.length > 0) this.seal(this.tail);
    this.tail = [];
    this.take(line, -this.end);
    return -this.end;
  }

  private seal(segment: readonly Change[]): void {
    this.insert.run(this.hidden, this.end, segment.length, seal(segment));
    this.end += segment.length;
  }
}
