import { randomUUID } from 'node:crypto';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { ExportTable } from '../../model/export/columns.ts';
import type { ExportFormat, ExportRow, ExportState } from '../../model/export/job.ts';
import { assert, LineError } from '../../model/trouble/trouble.ts';
import { epochMs } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import { onFile } from '../backup/onFile.ts';
import type { LiveLine } from '../live/liveLine.ts';
import { conflict, notFound, Refused } from '../people/refusals.ts';
import type { Records } from '../records/records.ts';
import type { StoredTape } from '../tape/storedTape.ts';
import { exportTables } from './export.ts';
import type { ExportSource, Period } from './source.ts';
import { ZipParcel } from './zipParcel.ts';

const words = wordsIn('en').exporting.jobs;

export interface ExportAsk {
  readonly period: Period;
  readonly tables: readonly ExportTable[];
  readonly format: ExportFormat;
}

export interface ExportsParts {
  /** Where files lie until they are fetched; what is in it from before goes. */
  readonly folder: string;
  readonly tape: () => StoredTape;
  readonly records: Records;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  readonly bounds?: Partial<typeof BOUNDS>;
}

/** At once, kept for whoever fetches them, for so long (milliseconds), bytes of one and of all that are kept. */
const BOUNDS = { running: 2, kept: 8, keptMs: 24 * 3_600_000, bytes: 1e9, bytesKept: 4e9 };
/** Share of the time that one takes at most: the rest is the line's. */
const BUSY_MOST = 0.5;

interface Job {
  readonly id: string;
  readonly line: string;
  readonly zone: string;
  readonly ask: ExportAsk;
  readonly stopping: AbortController;
  readonly begun: number;
  state: ExportState;
  table: ExportTable | undefined;
  /** Of each table so far. */
  readonly rows: Map<ExportTable, number>;
  share: number;
  bytes: number;
  trouble: LineError | undefined;
  done: Promise<void>;
}

/**
 * Exports that screens and programs asked for: each is worked off beside the line, in one ZIP file, since a browser fetches one
 * file and the definitions have to stay with the tables. They are few, bounded in size, and gone after a day or a restart.
 */
export class ExportJobs {
  private readonly parts: ExportsParts;
  private readonly bounds: typeof BOUNDS;
  private readonly jobs: Job[] = [];
  private tape: StoredTape | undefined;

  constructor(parts: ExportsParts) {
    this.parts = parts;
    this.bounds = { ...BOUNDS, ...parts.bounds };
    onFile(parts.folder, () => rmSync(parts.folder, { recursive: true, force: true }));
  }

  start(live: LiveLine, ask: ExportAsk): ExportRow {
    this.tidy();
    const running = this.jobs.filter(({ state }) => state === 'running').length;
    if (running >= this.bounds.running) throw new Refused(429, words.tooMany(this.bounds.running));
    const source = this.sourceOf(
      live,
      ask.tables.some((table) => table !== 'changes'),
    );
    onFile(this.parts.folder, () => mkdirSync(this.parts.folder, { recursive: true, mode: 0o700 }));
    const job: Job = {
      id: randomUUID(),
      line: live.line.id,
      zone: live.line.zone,
      ask,
      stopping: new AbortController(),
      begun: this.parts.now(),
      state: 'running',
      table: undefined,
      rows: new Map(),
      share: 0,
      bytes: 0,
      trouble: undefined,
      done: Promise.resolve(),
    };
    this.jobs.push(job);
    job.done = this.work(job, source);
    return rowOf(job);
  }

  /** The newest first. */
  list(line: string): readonly ExportRow[] {
    this.tidy();
    return this.jobs
      .filter((job) => job.line === line)
      .map(rowOf)
      .reverse();
  }

  row(line: string, id: string): ExportRow {
    return rowOf(this.find(line, id));
  }

  /** Ends one that runs, or drops one that is done; of it nothing is left. */
  async cancel(line: string, id: string): Promise<void> {
    const job = this.find(line, id);
    if (job.state === 'running') job.stopping.abort();
    await job.done;
    if (job.state === 'done') this.drop(job);
  }

  /** Where the file of one that is done lies, and what it is to be called. */
  file(
    line: string,
    id: string,
  ): { readonly folder: string; readonly stored: string; readonly name: string } {
    const job = this.find(line, id);
    if (job.state !== 'done') throw conflict(words.notDone);
    const { from, to } = job.ask.period;
    const name = words.fileName(job.line, epochMs(from), epochMs(to), job.zone);
    return { folder: this.parts.folder, stored: storedName(job), name };
  }

  /** Ends all of them, and leaves no file. */
  async stop(): Promise<void> {
    for (const { stopping } of this.jobs) stopping.abort();
    await Promise.all(this.jobs.map(({ done }) => done));
    this.jobs.length = 0;
    this.tape?.close();
    rmSync(this.parts.folder, { recursive: true, force: true });
  }

  private async work(job: Job, source: ExportSource): Promise<void> {
    const { now } = this.parts;
    const path = join(this.parts.folder, storedName(job));
    try {
      const zip = await ZipParcel.open(path, { now: job.begun, most: this.bounds.bytes });
      try {
        await exportTables({ source, ...job.ask, now: now() }, zip, {
          stopping: job.stopping.signal,
          busyMost: BUSY_MOST,
          progress: (table, rows, share) => {
            job.table = table;
            job.rows.set(table, rows);
            job.share = share;
            job.bytes = zip.bytes;
          },
        });
        await zip.finish();
      } finally {
        await zip.close();
      }
      job.bytes = zip.bytes;
      job.share = 1;
      job.state = 'done';
      this.tidy();
    } catch (error) {
      rmSync(path, { force: true });
      job.bytes = 0;
      job.state = job.stopping.signal.aborted ? 'cancelled' : 'failed';
      if (error instanceof LineError) job.trouble = error;
      else if (job.state === 'failed') throw error;
    }
  }

  private sourceOf(live: LiveLine, derived: boolean): ExportSource {
    this.tape ??= this.parts.tape();
    const stored = this.tape.lines().find(({ id }) => id === live.line.id);
    assert(stored, `the tape has no line ${live.line.id}`);
    const { index, state } = live.fold();
    if (derived && !this.parts.records.edition(live.line.id)) throw conflict(words.noPast);
    return {
      index,
      version: live.version,
      tape: this.tape,
      stored,
      records: this.parts.records,
      openGap: state.gap?.from,
      unread: [],
      until: live.now(),
    };
  }

  private find(line: string, id: string): Job {
    this.tidy();
    const job = this.jobs.find((one) => one.id === id && one.line === line);
    if (!job) throw notFound(words.unknown);
    return job;
  }

  /** The oldest that are over leave where there are too many, they are too large, or too old. */
  private tidy(): void {
    const { kept, keptMs, bytesKept } = this.bounds;
    const over = this.jobs.filter(({ state }) => state !== 'running');
    let bytes = 0;
    for (const [place, job] of over.toReversed().entries()) {
      bytes += job.bytes;
      if (place >= kept || bytes > bytesKept || this.parts.now() - job.begun > keptMs) this.drop(job);
    }
  }

  private drop(job: Job): void {
    rmSync(join(this.parts.folder, storedName(job)), { force: true });
    this.jobs.splice(this.jobs.indexOf(job), 1);
  }
}

function storedName({ id }: Job): string {
  return `${id}.zip`;
}

function rowOf({ id, state, ask, begun, table, rows, share, bytes, trouble }: Job): ExportRow {
  return {
    id,
    state,
    from: epochMs(ask.period.from),
    to: epochMs(ask.period.to),
    tables: ask.tables,
    format: ask.format,
    begun,
    table: table ?? null,
    rows: [...rows.values()].reduce((a, b) => a + b, 0),
    share,
    bytes,
    trouble: trouble ? { what: trouble.message, why: trouble.why, mend: trouble.mend } : null,
  };
}
