import type { Logger } from 'pino';
import type { Change } from '../../model/signals/signals.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { PastStatus } from '../../model/past/overview.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LiveLine } from '../live/liveLine.ts';
import { Making } from '../records/making.ts';
import type { Records } from '../records/records.ts';
import type { Tape } from '../tape/tape.ts';

const words = wordsIn('en').gateway;

export interface PastParts {
  readonly live: LiveLine;
  readonly tape: Tape;
  readonly records: Records;
  /** Somebody wants the records made anew, though they are of this version. */
  readonly anew: boolean;
  /** Days before the tape began, to be brought in; undefined where there are none. */
  readonly history: ((stopping: AbortSignal) => AsyncIterable<readonly Change[]>) | undefined;
  readonly log: Logger;
  readonly say: (text: string) => void;
}

/** What goes on in the background so that there is a past to look at. */
export interface Past {
  status(): PastStatus;
  /** Resolves when nothing is left to do. */
  readonly done: Promise<void>;
  /** Ends it on its way: the next start begins it anew. */
  stop(): Promise<void>;
}

/**
 * Makes the records anew where they are of another version, or somebody wants it, and brings a history in that lies before
 * the tape; what serves now serves until then.
 */
export function keepPast(parts: PastParts): Past {
  const stopping = new AbortController();
  const status: { now: PastStatus } = { now: { kind: 'whole' } };
  const work = new Work(parts, stopping.signal, status);
  const done = work.run();
  const stop = async () => {
    stopping.abort();
    await done;
  };
  return { done, status: () => status.now, stop };
}

class Work {
  private readonly parts: PastParts;
  private readonly stopping: AbortSignal;
  private readonly status: { now: PastStatus };

  constructor(parts: PastParts, stopping: AbortSignal, status: { now: PastStatus }) {
    this.parts = parts;
    this.stopping = stopping;
    this.status = status;
  }

  async run(): Promise<void> {
    const { live, tape, anew, history, log } = this.parts;
    try {
      if (history && tape.begin(live.line.id) === 0) await this.bringIn(history);
      else if (anew || live.recordsDue()) await this.makeAnew();
      this.status.now = { kind: 'whole' };
    } catch (error) {
      this.status.now = { kind: this.stopping.aborted ? 'stopped' : 'failed' };
      if (this.stopping.aborted) return;
      // the past is for looking at: what is recorded and shown live goes on without it
      if (!(error instanceof LineError)) throw error;
      log.error(words.inOneLine(error));
    }
  }

  private async bringIn(history: NonNullable<PastParts['history']>): Promise<void> {
    const { live, say } = this.parts;
    say(words.step.historyBegins);
    const making = this.making('history');
    await making.takeHistory(history(this.stopping));
    await live.takeOver(making, true);
    say(words.step.historyEnds(making.done));
  }

  private async makeAnew(): Promise<void> {
    const { live, tape, say } = this.parts;
    say(words.step.recordsAnew);
    const making = this.making('records');
    if (await making.goOn(tape.end(live.line.id))) await live.takeOver(making, false);
    this.stopping.throwIfAborted();
    say(words.step.recordsMade);
  }

  private making(kind: 'history' | 'records'): Making {
    const { live, tape, records } = this.parts;
    const { line, version } = live;
    const progress = (done: number, until: Instant) => {
      this.status.now = { kind, done, until: epochMs(until) };
    };
    progress(0, 0 as Instant);
    return new Making({ tape, records, line, version, stopping: this.stopping, progress });
  }
}
