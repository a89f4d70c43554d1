import { createHash, randomUUID } from 'node:crypto';
import { setImmediate } from 'node:timers/promises';
import type { Entry } from '../../model/entries/entries.ts';
import type { LineEvent } from '../../model/fold/events.ts';
import type { FoldState } from '../../model/fold/state.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { MODEL_VERSION } from '../../model/fold/version.ts';
import type { Line } from '../../model/line/line.ts';
import type { Change } from '../../model/signals/signals.ts';
import { type Folded, foldTape } from '../../model/replay/foldTape.ts';
import { GOOD } from '../../model/status/status.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { type EpochMs, type Instant, instantFromMs } from '../../model/units/units.ts';
import { type Outside, viewOf } from '../../model/view/lineView.ts';
import type { Unrecorded } from '../../model/view/seen.ts';
import type { LineView } from '../../model/view/view.ts';
import { checkEntry } from '../api/entryChecks.ts';
import { RecordsKeeper } from '../records/keeper.ts';
import type { Making } from '../records/making.ts';
import type { Records } from '../records/records.ts';
import type { Tape } from '../tape/tape.ts';
import { entryMoment, wasKept } from './entryMoment.ts';
import { LineNow } from './lineNow.ts';
import { StateKeeper } from './stateKeeper.ts';

/** What a live line stands on; everything that is not pure comes in from here. */
export interface Shell {
  readonly line: Line;
  readonly tape: Tape;
  /** The gateway's clock, milliseconds since 1970. */
  readonly now: () => number;
  /** How many times faster than the clock the line's own time passes; 1 for a real line. */
  readonly speed: number;
  readonly outside: () => Outside;
  /** Where what is seen is written down; a line without them has no past to look at. */
  readonly records?: Records;
  readonly told: (note: LiveNote) => void;
}

/** What a live line tells whoever keeps the log. */
export type LiveNote =
  /** A long tape is folded: so much of it so far. */
  | { readonly kind: 'folding'; readonly done: number; readonly of: number }
  /** `whole` is false where data came too late to be worked in. */
  | {
      readonly kind: 'resumed';
      readonly position: number;
      readonly replayed: number;
      readonly whole: boolean;
      /** The tape's beginning was taken away, and no saved state tells what it was: nothing is known from before. */
      readonly without?: true;
    }
  | { readonly kind: 'refolded'; readonly late: Instant; readonly replayed: number; readonly whole: boolean }
  | { readonly kind: 'event'; readonly event: LineEvent }
  /** A saved state could not be kept, or the tape not be read for late data; what was recorded is recorded. */
  | { readonly kind: 'trouble'; readonly trouble: LineError };

/** One line, live: what arrives is recorded first, stepped second and told third, one batch after another. */
export interface LiveLine {
  readonly line: Line;
  /** Takes changes from an intake; resolves when they are durable and stepped. */
  offer(changes: readonly Change[]): Promise<void>;
  /**
   * Takes an entry of a person; resolves with its position on the tape once it is durable. The same id counts once.
   * One that names what there is not is refused, and not recorded.
   * It stands at line time now; before anything was heard of the line nobody knows its time, and it stands before all.
   */
  enter(entry: Entry): Promise<number>;
  view(): LineView;
  /** Since when nothing can be recorded, and why; undefined while what is offered is recorded. */
  unrecorded(): Unrecorded | undefined;
  fold(): LineFold;
  /** Position on the tape up to which the state is folded. */
  position(): number;
  /** Calls back after each batch that made an event, so that screens are told at once. */
  onEvents(tell: () => void): () => void;
  /** Line time now. */
  now(): Instant;
  /** Of the model and the line's definition. */
  readonly version: string;
  /** True where its records have to be made anew: they are of another version, or there are none. */
  recordsDue(): boolean;
  /** Goes on with records that were made anew; `state`: and with their fold, which knows more of the past. */
  takeOver(making: Making, state: boolean): Promise<void>;
  stop(): Promise<void>;
}

/** Between two foldings of late data, this many times as long as the last one took. */
const REFOLD_REST = 10;
/** Batches waiting to be recorded at most; whoever offers more waits. */
const WAITING_MOST = 200;

/** Resumes a line from its tape, and goes on from there. */
export async function startLiveLine(shell: Shell): Promise<LiveLine> {
  const live = new RunningLine(shell);
  await live.resume();
  return live;
}

class RunningLine implements LiveLine {
  readonly line: Line;
  private readonly shell: Shell;
  readonly version: string;
  private readonly keeper: RecordsKeeper | undefined;
  private due = false;
  private state: LineFold;
  private folded = 0;
  private readonly states: StateKeeper;
  private readonly clock: LineNow;
  private chain: Promise<unknown> = Promise.resolve();
  private waiting = 0;
  /** Line time of data that is on the tape and too old to have been worked in yet. */
  private owed: Instant | undefined;
  /** Meanwhile nothing is folded again, by the gateway's clock; one that is put back does not make it longer. */
  private rest = { from: 0, until: 0 };
  /** What was heard or entered, and could not be recorded. */
  private refused: (Unrecorded & { readonly heard: boolean }) | undefined;
  private readonly entered = new Map<string, Promise<number>>();
  private readonly tellers = new Set<() => void>();

  constructor(shell: Shell) {
    this.shell = shell;
    this.line = shell.line;
    this.version = `${MODEL_VERSION}.${definitionHash(shell.line)}`;
    this.state = new LineFold(shell.line);
    this.states = new StateKeeper(shell.tape, shell.line, this.version);
    this.clock = new LineNow(shell);
    this.keeper = shell.records && new RecordsKeeper(shell.records, shell.line.id);
  }

  /** From the newest checkpoint of this model and definition, and the tape after it. */
  async resume(): Promise<void> {
    const { tape } = this.shell;
    const reach = { begin: tape.begin(this.line.id), end: tape.end(this.line.id) };
    const since = this.keeper?.begin(this.version, reach);
    this.due = this.keeper !== undefined && since === undefined;
    const { replayed, whole } = await this.foldAnew(since);
    await this.clock.resume(this.state.state.heardAt, this.shell.tape, this.folded);
    const without = reach.begin > 0 && replayed === reach.end - reach.begin ? { without: true as const } : {};
    this.shell.told({ kind: 'resumed', position: this.folded, replayed, whole, ...without });
  }

  offer(changes: readonly Change[]): Promise<void> {
    if (changes.length === 0) return Promise.resolve();
    return this.inTurn(async () => {
      await this.record(changes);
      this.clock.hear(this.state.state.heardAt, changes);
    });
  }

  enter(entry: Entry): Promise<number> {
    const known = this.entered.get(entry.id);
    if (known) return known;
    const made = this.inTurn(async () => {
      if (this.state.state.entryIds.includes(entry.id)) return this.folded;
      const received = instantFromMs(this.shell.now());
      const { state } = this.state;
      const now = this.now();
      const { shutOff } = this.shell.outside();
      const begun = this.shell.records?.first(this.line.id);
      checkEntry(entry, this.line, state, { kept: wasKept(entry, received), now, begun, shutOff });
      const signal = this.line.signals.findLastIndex((candidate) => candidate.role === 'entry');
      const at = entryMoment(entry, state, { now, received, speed: this.shell.speed });
      return this.record([{ signal, at, received, status: GOOD, value: JSON.stringify(entry) }]);
    });
    this.entered.set(entry.id, made);
    made.catch(() => this.entered.delete(entry.id));
    if (this.entered.size > 1000) this.entered.delete(this.entered.keys().next().value!);
    return made;
  }

  view(): LineView {
    const unrecorded = this.unrecorded();
    return viewOf(this.state, this.now(), {
      ...this.shell.outside(),
      ...(unrecorded ? { unrecorded } : {}),
    });
  }

  unrecorded(): Unrecorded | undefined {
    if (!this.refused) return undefined;
    const { since, what, mend } = this.refused;
    return { since, what, mend };
  }

  fold(): LineFold {
    return this.state;
  }

  position(): number {
    return this.folded;
  }

  onEvents(tell: () => void): () => void {
    this.tellers.add(tell);
    return () => this.tellers.delete(tell);
  }

  now(): Instant {
    return this.clock.now();
  }

  recordsDue(): boolean {
    return this.due;
  }

  async takeOver(making: Making, state: boolean): Promise<void> {
    const { tape, line } = this.shell;
    await making.goOn(tape.end(line.id));
    await this.inTurn(async () => {
      if (!(await making.goOn(this.folded))) return;
      this.keeper?.take({ ...making.edition, position: this.folded });
      this.due = false;
      await this.orTell(() => tape.keepOnly(line.id, this.version));
      if (!state) return;
      this.state = making.fold;
      this.states.knowsAll(this.state);
      await this.orTell(() => this.keepCheckpoint());
      for (const tell of this.tellers) tell();
    });
  }

  async stop(): Promise<void> {
    await this.chain.catch(() => {});
    await this.payOwed();
    await this.keepCheckpoint();
  }

  /** Record first, step second, tell third. What is recorded stays recorded, so nothing after that may refuse it. */
  private async record(changes: readonly Change[]): Promise<number> {
    const { told } = this.shell;
    this.folded = await this.append(changes);
    const events = this.state.take(changes);
    for (const event of events) told({ kind: 'event', event });
    this.write(events, this.state.state, this.folded);
    const beyond = events.find((event) => event.kind === 'BeyondReach');
    if (beyond) this.owed = Math.min(beyond.at, this.owed ?? beyond.at) as Instant;
    if (!this.isResting()) await this.payOwed();
    if (events.length > 0) for (const tell of this.tellers) tell();
    if (this.states.isDue(this.state)) await this.orTell(() => this.keepCheckpoint());
    return this.folded;
  }

  /**
   * Tells, until it is over, that nothing can be recorded. Where what was heard found no room, an entry may: it is much
   * smaller, and does not end that.
   */
  private async append(changes: readonly Change[]): Promise<number> {
    const { tape, line, now } = this.shell;
    const heard = changes.some(({ signal }) => line.signals[signal]!.role !== 'entry');
    try {
      const position = await tape.append(line.id, changes);
      if (heard || !this.refused?.heard) this.refused = undefined;
      return position;
    } catch (error) {
      if (error instanceof LineError) {
        const since = this.refused?.since ?? (Math.round(now()) as EpochMs);
        const { message: what, mend } = error;
        this.refused = { since, what, mend, heard: heard || (this.refused?.heard ?? false) };
      }
      throw error;
    }
  }

  private async orTell(act: () => Promise<void>): Promise<void> {
    try {
      await act();
    } catch (error) {
      if (!(error instanceof LineError)) throw error;
      this.shell.told({ kind: 'trouble', trouble: error });
    }
  }

  /** `since`: from this position on all is seen, and written down. */
  private async foldAnew(since?: number): Promise<Folded> {
    const { tape, line } = this.shell;
    const end = tape.end(line.id);
    const progress = (done: number, of: number) => this.shell.told({ kind: 'folding', done, of });
    const { version } = this;
    const again = this.keeper?.again((trouble) => this.shell.told({ kind: 'trouble', trouble }));
    const rest = () => setImmediate();
    const wish = { version, end, progress, ...again, rest, ...(since === undefined ? {} : { since }) };
    const folded = await foldTape(tape, line, wish);
    again?.keepAnew(end);
    this.state = folded.fold;
    this.states.knowsAll(this.state);
    this.folded = end;
    return folded;
  }

  /**
   * Data older than the fold reaches back: the tape is folded again in line time, from a state before it. Where such data
   * comes batch after batch, as from a clock that was ahead and was put right, folding again takes a tenth of the time.
   */
  private async payOwed(): Promise<void> {
    const late = this.owed;
    if (late === undefined) return;
    await this.orTell(async () => {
      const began = this.shell.now();
      const { replayed, whole } = await this.foldAnew();
      this.owed = undefined;
      const from = this.shell.now();
      this.rest = { from, until: from + REFOLD_REST * (from - began) };
      this.shell.told({ kind: 'refolded', late, replayed, whole });
      await this.keepCheckpoint();
    });
  }

  /** Trouble with the records holds up nothing: they are a cache. */
  private write(events: readonly LineEvent[], state: Readonly<FoldState>, position: number): void {
    const trouble = this.keeper?.keep(events, state, position);
    if (trouble) this.shell.told({ kind: 'trouble', trouble });
  }

  private isResting(): boolean {
    const now = this.shell.now();
    return now >= this.rest.from && now < this.rest.until;
  }

  private async keepCheckpoint(): Promise<void> {
    // a state that lacks what is on the tape is not gone on from
    if (this.owed === undefined) await this.states.keep(this.state, this.folded);
  }

  private async inTurn<Result>(act: () => Promise<Result>): Promise<Result> {
    while (this.waiting >= WAITING_MOST) await this.chain.catch(() => {});
    this.waiting += 1;
    const turn = this.chain.catch(() => {}).then(act);
    this.chain = turn;
    try {
      return await turn;
    } finally {
      this.waiting -= 1;
    }
  }
}

/** A new entry of the gateway's own, such as a row of the order list. */
export function newEntryId(): string {
  return randomUUID();
}

/** Two definitions with the same hash fold alike: checkpoints are never carried from one to another. */
export function definitionHash(line: Line): string {
  const text = JSON.stringify(line, (_key, value: unknown) => (value instanceof Map ? [...value] : value));
  return createHash('sha256').update(text).digest('hex').slice(0, 16);
}
