import { setTimeout } from 'node:timers/promises';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import { recordSteps } from '../../model/records/records.ts';
import type { Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';
import { LASTING_EVERY } from '../tape/checkpoints.ts';
import { type Checkpoint, type Placed, positionAfter, type Tape } from '../tape/tape.ts';
import type { Edition, Records } from './records.ts';
import { rowSteps, type Written } from './rows.ts';

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
/** Changes between two words on how far it is. */
const TELL_EVERY = 250_000;

/**
 * Another making of a line's records, beside the one that serves, in small pieces; and the fold that goes on from it. What each
 * change did is written with its position, as it was just then, so that what stood at any position can be told; and states are
 * kept on the way, so that any moment of the past is near one.
 */
export class Making {
  edition: Edition;
  readonly fold: LineFold;
  private readonly parts: MakingParts;
  private position: number;
  /** Changes worked off. */
  done = 0;
  private tellAt = TELL_EVERY;
  private keptAt = Number.NEGATIVE_INFINITY;
  /** False once something came too late to be worked in: a state that lacks it is not gone on from. */
  private whole = true;

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
      await this.take(placed);
      // what was not all folded has no position
      if (stopping.aborted) return false;
      this.position = placed.next;
      await this.keepState((checkpoint) => tape.keep(line.id, checkpoint));
    }
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
    if (!this.whole || this.fold.newest === undefined || at - this.keptAt < LASTING_EVERY) return;
    this.keptAt = at;
    const body = JSON.stringify(this.fold.save());
    await keep({ position: this.position, version: this.parts.version, body });
  }

  private async take(placed: Placed): Promise<void> {
    const { records, stopping, progress } = this.parts;
    const { length } = placed.changes;
    for (let place = 0; place < length && !stopping.aborted; ) {
      const began = performance.now();
      const { next, writes } = this.foldSome(placed, place, began + AT_ONCE_MS);
      records.writeAll(this.edition, writes, 0);
      place = next;
      await setTimeout((performance.now() - began) * (1 / SHARE - 1));
    }
    this.done += length;
    if (this.done < this.tellAt) return;
    this.tellAt += TELL_EVERY;
    progress?.(this.done, this.fold.state.at);
  }

  private foldSome(placed: Placed, from: number, until: number) {
    const to = Math.min(placed.changes.length, from + AT_ONCE);
    const writes: Written[] = [];
    let next = from;
    while (next < to && performance.now() < until) {
      const { taken, events } = this.fold.takeUntilSeen(placed.changes, next, to);
      next += taken;
      if (events.some(({ kind }) => kind === 'BeyondReach')) this.whole = false;
      const position = positionAfter(placed, next - 1);
      if (events.length > 0) writes.push({ position, steps: rowSteps(recordSteps(events, this.fold.state)) });
    }
    return { next, writes };
  }
}
