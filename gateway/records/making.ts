import { setTimeout } from 'node:timers/promises';
import { LineFold } from '../../model/fold/fold.ts';
import type { Line } from '../../model/line/line.ts';
import { recordSteps } from '../../model/records/records.ts';
import type { Change } from '../../model/signals/signals.ts';
import type { Instant } from '../../model/units/units.ts';
import { LASTING_EVERY } from '../tape/checkpoints.ts';
import type { Checkpoint, Tape } from '../tape/tape.ts';
import type { Edition, Records } from './records.ts';

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

/** Changes folded at one go, some ten milliseconds, before other work gets its turn. */
const AT_ONCE = 5000;
/** Share of the time that it takes at most: the rest is the line's. */
const SHARE = 0.7;
/** Changes between two words on how far it is. */
const TELL_EVERY = 250_000;

/**
 * Another making of a line's records, beside the one that serves, in small pieces; and the fold that goes on from it. States
 * are kept on the way, so that any moment of the past is near one.
 */
export class Making {
  readonly edition: Edition;
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
    // piece by piece: what is left out of a chunk does not tell its position
    const ends = tape
      .pieces(line.id, this.position, to)
      .map(({ start, count }) => Math.min(to, start + count));
    for (const end of [...ends, to]) {
      for await (const changes of tape.read(line.id, this.position, end)) {
        if (stopping.aborted) return false;
        await this.take(changes);
      }
      this.position = Math.max(this.position, end);
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
    const { tape, line, stopping } = this.parts;
    const take = async (changes: readonly Change[]) => {
      stopping.throwIfAborted();
      await this.take(changes);
      this.position += changes.length;
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
    await tape.importBefore(line.id, folded());
    this.position = 0;
  }

  private async keepState(keep: (checkpoint: Checkpoint) => Promise<void>): Promise<void> {
    const { at } = this.fold.state;
    if (!this.whole || this.fold.newest === undefined || at - this.keptAt < LASTING_EVERY) return;
    this.keptAt = at;
    const body = JSON.stringify(this.fold.save());
    await keep({ position: this.position, version: this.parts.version, body });
  }

  private async take(changes: readonly Change[]): Promise<void> {
    const { records, stopping, progress } = this.parts;
    for (let place = 0; place < changes.length && !stopping.aborted; place += AT_ONCE) {
      const began = performance.now();
      const events = this.fold.take(changes.slice(place, place + AT_ONCE));
      if (events.some(({ kind }) => kind === 'BeyondReach')) this.whole = false;
      records.write(this.edition, recordSteps(events, this.fold.state), 0);
      await setTimeout((performance.now() - began) * (1 / SHARE - 1));
    }
    this.done += changes.length;
    if (this.done < this.tellAt) return;
    this.tellAt += TELL_EVERY;
    progress?.(this.done, this.fold.state.at);
  }
}
