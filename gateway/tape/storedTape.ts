import { setImmediate } from 'node:timers/promises';
import type { Database, Statement } from 'better-sqlite3';
import type { Change } from '../../model/signals/signals.ts';
import { decode } from '../../model/tape/codec.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { wordsIn } from '../../model/words/words.ts';
import { Checkpoints } from './checkpoints.ts';
import { openToRead, statement } from './database.ts';
import { onDisk } from './diskTrouble.ts';
import { formatOf } from './schema.ts';
import { opened, unseal } from './segments.ts';
import type { Span } from './spans.ts';

const words = wordsIn('en').tape;

/** One line of a tape, as it lies in the file. */
export interface StoredLine {
  readonly id: string;
  readonly number: number;
  /** Ids of its signals, by the tape's own numbers for them. */
  readonly signals: readonly string[];
  /** Position of the oldest change, and the one after the newest. */
  readonly begin: number;
  readonly end: number;
}

interface Row {
  readonly start: number;
  readonly count: number;
  readonly body: Buffer;
}

/** Formats of a tape since which it tells when segments are, and has states as they are read here. */
const SPANS_SINCE = 2;
const STATES_SINCE = 3;
/** How long it waits for a writer that brings its log into the file. Milliseconds. */
const BUSY_MS = 5000;

/**
 * A tape as it lies in its file, read alone, whoever writes to it meanwhile, and without a line file: its changes bear the
 * tape's own numbers of signals, so that nothing is left out. Nothing is held open between two reads, so that a gateway
 * that runs is never held up for long.
 */
export class StoredTape {
  private readonly database: Database;
  private readonly format: number;
  private readonly segmentAt: Statement<[number, number], Row>;
  private readonly batchAt: Statement<[number, number], Row>;

  constructor(file: string) {
    this.database = onDisk(file, () => openToRead(file, BUSY_MS));
    try {
      this.format = onDisk(file, () => formatOf(this.database));
    } catch (error) {
      this.database.close();
      throw error;
    }
    const at = (table: string) =>
      statement<[number, number], Row>(
        this.database,
        `SELECT start, count, body FROM ${table} WHERE line = ? AND start <= ? ORDER BY start DESC LIMIT 1`,
      );
    this.segmentAt = at('segment');
    this.batchAt = at('batch');
  }

  /** Every line of it, as far as it goes now. */
  lines(): readonly StoredLine[] {
    return onDisk(this.database.name, () =>
      statement<[], { readonly id: string; readonly number: number }>(
        this.database,
        'SELECT id, number FROM line ORDER BY number',
      )
        .all()
        .map((line) => ({ ...line, signals: this.signalsOf(line.number), ...this.reachOf(line.number) })),
    );
  }

  /**
   * Changes of positions [from, to) in order of arrival. Other work gets its turn between two pieces. A piece that is damaged
   * is a trouble, unless `unread` takes it: then it is told how many positions are missing, and reading goes on behind them.
   */
  async *read(
    line: StoredLine,
    from = line.begin,
    to = line.end,
    unread?: (from: number, to: number) => void,
  ): AsyncGenerator<readonly Change[]> {
    let position = Math.max(from, line.begin);
    const until = Math.min(to, line.end);
    while (position < until) {
      const row = onDisk(this.database.name, () => this.rowAt(line, position));
      const next = Math.min(until, row.start + row.count);
      const changes = opened(row.body, row.open);
      if (changes?.length === row.count)
        yield position === row.start && next === row.start + row.count
          ? changes
          : changes.slice(position - row.start, next - row.start);
      else if (unread) unread(position, next);
      else throw damaged(line, row);
      position = next;
      await setImmediate();
    }
  }

  /**
   * Positions in which changes of a stretch of line time may lie, in order; all others hold none. Where an older version did
   * not write down when a segment is, it is among them.
   */
  within(line: StoredLine, { least, most }: Span): readonly { readonly from: number; readonly to: number }[] {
    return onDisk(this.database.name, () => {
      if (this.format < SPANS_SINCE) return line.begin < line.end ? [{ from: line.begin, to: line.end }] : [];
      const rows = statement<[number, number, number], { readonly start: number; readonly count: number }>(
        this.database,
        `SELECT start, count FROM span WHERE line = ?
           AND (at_least IS NULL OR (at_least <= ? AND at_most >= ?)) ORDER BY start`,
      ).all(line.number, most, least);
      const sealed = statement<[number], number | null>(
        this.database,
        'SELECT max(start + count) FROM span WHERE line = ?',
      )
        .pluck()
        .get(line.number);
      const open = Math.max(line.begin, sealed ?? line.begin);
      return [
        ...rows.map(({ start, count }) => ({ from: start, to: start + count })),
        { from: open, to: line.end },
      ]
        .map(({ from, to }) => ({ from, to: Math.min(to, line.end) }))
        .filter(({ from, to }) => from < to);
    });
  }

  /** The newest saved state of a version at or before a position. */
  nearest(line: StoredLine, position: number, version: string): ReturnType<Checkpoints['nearest']> {
    // a tape of an earlier format has none that are read here
    if (this.format < STATES_SINCE) return undefined;
    const found = onDisk(this.database.name, () =>
      new Checkpoints(this.database).nearest(line.number, Math.min(position, line.end), version),
    );
    return found && found.position >= line.begin ? found : undefined;
  }

  close(): void {
    this.database.close();
  }

  private rowAt(line: StoredLine, position: number): Row & { readonly open: typeof unseal } {
    // between two looks what was a batch may have become a segment
    for (const [find, open] of [
      [this.segmentAt, unseal],
      [this.batchAt, decode],
      [this.segmentAt, unseal],
    ] as const) {
      const row = find.get(line.number, position);
      if (row && row.start + row.count > position) return { ...row, open };
    }
    throw new LineError(words.missing(line.id, position), {
      why: words.missingWhy,
      mend: words.damagedMend,
    });
  }

  private signalsOf(line: number): readonly string[] {
    return statement<[number], string>(this.database, 'SELECT id FROM signal WHERE line = ? ORDER BY number')
      .pluck()
      .all(line);
  }

  private reachOf(line: number): { readonly begin: number; readonly end: number } {
    const row = statement<[number, number], { readonly begin: number | null; readonly end: number | null }>(
      this.database,
      `SELECT min(start) AS begin, max(start + count) AS end FROM (
        SELECT start, count FROM segment WHERE line = ? UNION ALL SELECT start, count FROM batch WHERE line = ?
      )`,
    ).get(line, line);
    return { begin: row?.begin ?? 0, end: row?.end ?? 0 };
  }
}

function damaged({ id }: StoredLine, { start, count }: Row): LineError {
  return new LineError(words.damaged(id, start, start + count), {
    why: words.damagedWhy,
    mend: words.damagedMend,
  });
}
