import { setImmediate, setTimeout } from 'node:timers/promises';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import { RECORD_KINDS, recordSteps } from '../../model/records/records.ts';
import { foldTape } from '../../model/replay/foldTape.ts';
import type { Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';
import { LASTING_EVERY } from '../tape/checkpoints.ts';
import { type Checkpoint, type Placed, positionAfter, type Tape } from '../tape/tape.ts';
import type { Edition, Records } from './records.ts';
import { type RowStep, rowSteps, type Written } from './rows.ts';

export interface MakingParts {
  readonly tape: Tape;
  readonly records: Records;
  readonly line: Line;
  /** Of the model and the line's definition. */
  readonly version: string;
  /** Ends it on its way. What it had made then is dropped by the next one. */
  readonly stopping: AbortSignal;
  /** Told now and then how many changes are done, and up to which moment. */
  readonly progress?: (done: number, until: Instant) => void;
}

/** Changes folded at one go before other work gets its turn; fewer where they take longer than some milliseconds. */
const AT_ONCE = 20_000;
const AT_ONCE_MS = 10;
/** Share of the time that it takes at most: the rest is the line's. */
const SHARE = 0.7;
/** Between two foldings of what came too late, this many times as long as the last one took. */
const REFOLD_REST = 10;
/** Changes between two words on how far it is. */
const TELL_EVERY = 250_000;

/**
 * Another making of a line's records, beside the one that serves, in small pieces; and the fold that goes on from it. What each
 * change did is written with its position, as it was just then, so that what stood at any position can be told; and states are
 * kept on the way, so that any moment of the past is near one.
 */
export class Making {
  edition: Edition;
  fold: LineFold;
  private readonly parts: MakingParts;
  private position: number;
  /** Changes worked off. */
  done = 0;
  private tellAt = TELL_EVERY;
  private keptAt = Number.NEGATIVE_INFINITY;
  /** What came too late to be worked in yet: its line time, and the position before it. A state that lacks it is not gone on from. */
  private owed: { readonly at: Instant; readonly since: number } | undefined;
  /** Until then what is owed waits: it may come again and again. Milliseconds, of the steady clock. */
  private restUntil = 0;

  constructor(parts: MakingParts) {
    this.parts = parts;
    this.edition = parts.records.begin(parts.line.id, parts.version);
    this.fold = new LineFold(parts.line);
    this.position = parts.tape.begin(parts.line.id);
  }

  /** Brings it up to a position of the tape; false when it was stopped. */
  async goOn(to: number): Promise<boolean> {
    const { tape, line, records, stopping } = this.parts;
    for await (const placed of tape.placed(line.id, this.position, to)) {
      await this.take(placed, (position) => this.payOwed(position));
      // what was not all folded has no position
      if (stopping.aborted) return false;
      this.position = placed.next;
      await this.keepState((checkpoint) => tape.keep(line.id, checkpoint));
    }
    this.restUntil = 0;
    await this.payOwed(this.position);
    records.write(this.edition, [], this.position);
    return !stopping.aborted;
  }

  /**
   * Brings a history in before the tape, folding it as it comes. Rejects where `chunks` does, or when it was stopped: then
   * nothing of it stays. What the tape holds already is for `goOn`.
   */
  async takeHistory(chunks: AsyncIterable<readonly Change[]>): Promise<void> {
    const { tape, line, records, stopping } = this.parts;
    // how far before 0 it begins is known when it is whole: until then its positions are counted from there
    const take = async (changes: readonly Change[]) => {
      const next = this.position + changes.length;
      await this.take({ changes, from: this.position, next });
      stopping.throwIfAborted();
      this.position = next;
      await this.keepState((checkpoint) => tape.keepBefore(line.id, checkpoint));
    };
    this.position = 0;
    async function* folded() {
      for await (const changes of chunks) {
        await take(changes);
        yield changes;
      }
      stopping.throwIfAborted();
    }
    const begin = await tape.importBefore(line.id, folded());
    this.edition = records.place(this.edition, begin);
    this.position = 0;
  }

  private async keepState(keep: (checkpoint: Checkpoint) => Promise<void>): Promise<void> {
    const { at } = this.fold.state;
    if (this.owed !== undefined || this.fold.newest === undefined || at - this.keptAt < LASTING_EVERY) return;
    this.keptAt = at;
    const body = JSON.stringify(this.fold.save());
    await keep({ position: this.position, version: this.parts.version, body });
  }

  private async take(placed: Placed, worked: (position: number) => Promise<void> = async () => {}) {
    const { records, stopping, progress } = this.parts;
    const { length } = placed.changes;
    for (let place = 0; place < length && !stopping.aborted; ) {
      const began = performance.now();
      const { next, writes } = this.foldSome(placed, place, began + AT_ONCE_MS);
      records.writeAll(this.edition, writes, 0);
      place = next;
      await worked(positionAfter(placed, next - 1));
      await setTimeout((performance.now() - began) * (1 / SHARE - 1));
    }
    this.done += length;
    if (this.done < this.tellAt) return;
    this.tellAt += TELL_EVERY;
    progress?.(this.done, this.fold.state.at);
  }

  /** What came too late is worked in from a state that was kept before it, and all that it changes is written at this position. */
  private async payOwed(position: number): Promise<void> {
    if (this.owed === undefined || performance.now() < this.restUntil) return;
    const { tape, line, records, version } = this.parts;
    const began = performance.now();
    const cut = (from: Instant): RowStep => ({ kind: 'cut', of: RECORD_KINDS, from });
    let steps = [cut(this.owed.at)];
    const { fold, whole } = await foldTape(tape, line, {
      version,
      end: position,
      // a state that was kept later may have it already, and tells nothing of it
      since: this.owed.since,
      rest: () => setImmediate(),
      anew: (from) => {
        steps = [cut(from)];
      },
      seen: (events, state) => void steps.push(...rowSteps(recordSteps(events, state))),
    });
    if (whole) {
      records.writeAll(this.edition, [{ position, steps }], 0);
      this.fold = fold;
      this.owed = undefined;
    }
    const ended = performance.now();
    this.restUntil = ended + REFOLD_REST * (ended - began);
  }

  private foldSome(placed: Placed, from: number, until: number) {
    const to = Math.min(placed.changes.length, from + AT_ONCE);
    const writes: Written[] = [];
    let next = from;
    while (next < to && performance.now() < until) {
      const { taken, events } = this.fold.takeUntilSeen(placed.changes, next, to);
      next += taken;
      const position = positionAfter(placed, next - 1);
      if (events.length > 0) writes.push({ position, steps: rowSteps(recordSteps(events, this.fold.state)) });
      const beyond = events.find(({ kind }) => kind === 'BeyondReach');
      if (!beyond) continue;
      const { at = beyond.at, since = position - 1 } = this.owed ?? {};
      this.owed = { at: Math.min(beyond.at, at) as Instant, since };
      if (performance.now() >= this.restUntil) break;
    }
    return { next, writes };
  }
}
