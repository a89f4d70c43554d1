import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import type { Database } from 'better-sqlite3';
import type { Change, Signal } from '../../model/signals/signals.ts';
import { assert, type LineError } from '../../model/trouble/trouble.ts';
import { Checkpoints } from './checkpoints.ts';
import { openDatabase, set } from './database.ts';
import { onDisk } from './diskTrouble.ts';
import { lockFolder } from './folderLock.ts';
import { inPieces } from './inPieces.ts';
import type { Tables } from './historyStore.ts';
import { LineStore, type Written } from './lineStore.ts';
import { prepare } from './schema.ts';
import { SegmentTable } from './segmentTable.ts';
import { SegmentTimes } from './segmentTimes.ts';
import type { Checkpoint, Damage, HiddenHistory, Placed, StoredPiece, Tape } from './tape.ts';
import { damageTrouble } from './unread.ts';

/** Signals of each line by the line's id, in the order of the line's file. */
export type SignalsByLine = ReadonlyMap<string, readonly Signal[]>;

/** How long a writer waits for another program, such as one that copies the file. Milliseconds; it blocks everything. */
const BUSY_MS = 200;

export interface TapeParts {
  /** Called when it was closed. */
  readonly closed?: () => void;
  /** Told, once for each, of what is found that cannot be read. */
  readonly told?: (trouble: LineError) => void;
}

/** Opens the tape in a data folder, making both where they are missing; the folder is this process's until `close`. */
export async function openSqliteTape(
  folder: string,
  lines: SignalsByLine,
  told?: TapeParts['told'],
): Promise<Tape> {
  onDisk(folder, () => mkdirSync(folder, { recursive: true }));
  const lock = lockFolder(folder);
  const file = join(folder, 'tape.sqlite');
  try {
    const database = onDisk(file, () => openDatabase(file, BUSY_MS));
    return tapeOn(database, lines, { closed: () => lock.release(), ...(told ? { told } : {}) });
  } catch (error) {
    lock.release();
    throw error;
  }
}

/** A tape on a database that is open already; closing the tape closes it. */
export function tapeOn(database: Database, lines: SignalsByLine, parts: TapeParts = {}): Tape {
  try {
    return onDisk(database.name, () => new SqliteTape(database, lines, parts));
  } catch (error) {
    database.close();
    throw error;
  }
}

/** Two commits are at least so far apart; what comes between waits for the next. Milliseconds. */
const GROUP_MS = 10;

interface Waiting {
  readonly line: LineStore;
  readonly changes: readonly Change[];
  readonly resolve: (position: number) => void;
  readonly reject: (error: unknown) => void;
}

class SqliteTape implements Tape {
  private readonly database: Database;
  private readonly closed: () => void;
  private readonly states: Checkpoints;
  private readonly lines: ReadonlyMap<string, LineStore>;
  /** Something was sealed: the log is written back before the next append, where a refusal has someone to tell. */
  private writeBackDue = false;
  private closing: Promise<void> | undefined;
  private readonly stopping = new AbortController();
  private readonly timing: Promise<void>;
  private group: Waiting[] = [];
  private committedAt = 0;
  private readonly transact: (lines: ReadonlyMap<LineStore, readonly Change[]>) => [LineStore, Written][];

  constructor(database: Database, lines: SignalsByLine, { closed = () => {}, told = () => {} }: TapeParts) {
    this.database = database;
    this.closed = closed;
    prepare(database);
    this.states = new Checkpoints(database);
    const segments = new SegmentTable(database);
    const tables: Tables = { database, segments, checkpoints: this.states };
    this.transact = database.transaction((lines: ReadonlyMap<LineStore, readonly Change[]>) =>
      [...lines].map(([line, changes]): [LineStore, Written] => [line, line.write(changes)]),
    ).immediate;
    this.lines = database
      .transaction(
        () =>
          new Map(
            [...lines].map(([id, signals]) => {
              const store = new LineStore(tables, id, signals, (damage) => told(damageTrouble(id, damage)));
              return [id, store];
            }),
          ),
      )
      .immediate();
    this.timing = new SegmentTimes(database, segments, ({ line, start }) =>
      [...this.lines.values()].find(({ number }) => number === line)?.foundDamaged(start),
    ).work(this.stopping.signal);
  }

  async append(id: string, changes: readonly Change[]): Promise<number> {
    const line = this.lineOf(id);
    while (line.importing) await Promise.allSettled([line.importing]);
    if (changes.length === 0) return line.end;
    return new Promise((resolve, reject) => {
      this.group.push({ line, changes, resolve, reject });
      if (this.group.length > 1) return;
      const rest = this.committedAt + GROUP_MS - performance.now();
      if (rest > 0) setTimeout(() => this.commit(), rest);
      else globalThis.setImmediate(() => this.commit());
    });
  }

  /** What waits is made durable at one go, however many lines it belongs to: one sync of the disk for all of it. */
  private commit(): void {
    const { group } = this;
    if (group.length === 0) return;
    this.group = [];
    try {
      this.together(group);
    } catch (error) {
      for (const { reject } of group) reject(error);
    } finally {
      this.committedAt = performance.now();
    }
  }

  private together(group: readonly Waiting[]): void {
    const lines = new Map<LineStore, Change[]>();
    for (const { line, changes } of group) {
      const all = lines.get(line) ?? [];
      if (all.length === 0) lines.set(line, all);
      for (const change of changes) all.push(change);
    }
    const reached = new Map<LineStore, number>();
    const ends = group.map(({ line, changes }) => {
      const end = (reached.get(line) ?? line.end) + changes.length;
      reached.set(line, end);
      return end;
    });
    this.writeAll(lines);
    for (const [place, { resolve }] of group.entries()) resolve(ends[place]!);
  }

  private writeAll(lines: ReadonlyMap<LineStore, readonly Change[]>): void {
    this.guarded(() => {
      if (this.writeBackDue) this.writeBack();
      const written = this.transact(lines);
      for (const [line, division] of written) if (line.moved(division)) this.writeBackDue = true;
    });
  }

  async *read(id: string, from: number, to: number): AsyncGenerator<readonly Change[]> {
    for await (const { changes } of this.placed(id, from, to)) if (changes.length > 0) yield changes;
  }

  async *placed(id: string, from: number, to: number): AsyncGenerator<Placed> {
    const line = this.lineOf(id);
    const until = Math.min(to, line.end);
    let position = Math.max(line.begin, from);
    while (position < until) {
      // its beginning may be taken away meanwhile
      position = Math.max(position, line.begin);
      const piece = this.guarded(() => line.piece(position, until));
      position = piece.next;
      yield piece;
      if (position < until) await setImmediate();
    }
  }

  begin(id: string): number {
    return this.lineOf(id).begin;
  }

  end(id: string): number {
    return this.lineOf(id).end;
  }

  pieces(id: string, from: number, to: number): StoredPiece[] {
    const line = this.lineOf(id);
    return this.guarded(() => line.pieces(from, to));
  }

  pieceBytes(id: string, start: number): Uint8Array | undefined {
    const line = this.lineOf(id);
    return this.guarded(() => line.pieceBytes(start));
  }

  standInBytes(id: string, start: number): Uint8Array | undefined {
    const line = this.lineOf(id);
    return this.guarded(() => line.standInBytes(start));
  }

  numbersOf(id: string): ReadonlyMap<number, number> {
    return this.lineOf(id).places();
  }

  follow(id: string, after: number, tell: (position: number) => void): () => void {
    return this.lineOf(id).followers.add(after, tell);
  }

  damages(id: string): readonly Damage[] {
    const line = this.lineOf(id);
    return this.guarded(() => line.damages());
  }

  async keep(id: string, checkpoint: Checkpoint): Promise<void> {
    const line = this.lineOf(id);
    assert(
      checkpoint.position >= line.begin && checkpoint.position <= line.end,
      'a checkpoint beyond the tape',
    );
    this.guarded(() => this.states.keep(line.number, checkpoint));
  }

  async keepBefore(id: string, checkpoint: Checkpoint): Promise<void> {
    const { history } = this.lineOf(id);
    assert(history, 'a state of a history that is not being brought in');
    this.guarded(() => history.keep(checkpoint));
  }

  async keepOnly(id: string, version: string): Promise<void> {
    const line = this.lineOf(id);
    this.guarded(() => this.states.keepOnly(line.number, version));
  }

  nearest(id: string, position: number, version: string): ReturnType<Tape['nearest']> {
    const line = this.lineOf(id);
    const found = this.guarded(() => this.states.nearest(line.number, Math.min(position, line.end), version));
    // one before it is there only because later ones are told by it
    return found && found.position >= line.begin ? found : undefined;
  }

  dropBefore(id: string, position: number): void {
    const line = this.lineOf(id);
    assert(!line.importing && !line.history, 'a tape is cut while something is brought in');
    this.guarded(() => line.dropBefore(position));
  }

  checkpoints(id: string, version: string, from: number, to: number): number[] {
    const line = this.lineOf(id);
    return this.guarded(() => this.states.positions(line.number, version, Math.max(from, line.begin), to));
  }

  async importSealed(
    id: string,
    chunks: AsyncIterable<readonly Change[]> | Iterable<readonly Change[]>,
  ): Promise<number> {
    const line = this.lineOf(id);
    while (line.importing) await Promise.allSettled([line.importing]);
    const importing = this.importInto(line, chunks);
    line.importing = importing;
    try {
      return await importing;
    } finally {
      line.importing = undefined;
    }
  }

  async importBefore(
    id: string,
    chunks: AsyncIterable<readonly Change[]> | Iterable<readonly Change[]>,
    check: (hidden: HiddenHistory) => Promise<void> = async () => {},
  ): Promise<number> {
    const line = this.lineOf(id);
    assert(line.begin <= 0, 'a history before what was taken away');
    assert(!line.history, 'two histories at once');
    const history = line.beginHistory();
    try {
      await inPieces(chunks, (changes) => this.guarded(() => history.write(changes)));
      await check(this.guarded(() => history.seal()));
      return this.guarded(() => line.endHistory(history));
    } catch (error) {
      this.guarded(() => history.clear());
      throw error;
    } finally {
      line.history = undefined;
    }
  }

  close(): Promise<void> {
    this.closing ??= this.finish();
    return this.closing;
  }

  private async importInto(
    line: LineStore,
    chunks: AsyncIterable<readonly Change[]> | Iterable<readonly Change[]>,
  ): Promise<number> {
    await inPieces(chunks, (changes) => void this.write(line, changes));
    return line.end;
  }

  /** Everything of an append happens in here, at one go: it is durable or has not happened. */
  private write(line: LineStore, changes: readonly Change[]): number {
    if (changes.length > 0) this.writeAll(new Map([[line, changes]]));
    return line.end;
  }

  /** Brings the log into the main file and empties it. Whoever reads the file just then makes it wait until next time. */
  private writeBack(): void {
    set(this.database, 'wal_checkpoint(TRUNCATE)');
    this.writeBackDue = false;
  }

  private async finish(): Promise<void> {
    const lines = [...this.lines.values()];
    this.stopping.abort();
    await this.timing;
    await Promise.allSettled(lines.map(({ importing }) => importing));
    if (this.group.length > 0) this.commit();
    for (const { followers } of lines) followers.clear();
    try {
      this.guarded(() => this.writeBack());
    } finally {
      this.database.close();
      this.closed();
    }
  }

  private lineOf(id: string): LineStore {
    assert(this.database.open, 'the tape is closed');
    const line = this.lines.get(id);
    assert(line, `the tape was opened without the line ${id}`);
    return line;
  }

  private guarded<Result>(act: () => Result): Result {
    assert(this.database.open, 'the tape is closed');
    return onDisk(this.database.name, act);
  }
}
