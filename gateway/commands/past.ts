import type { Logger } from 'pino';
import { LineError } from '../../model/trouble/trouble.ts';
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
  readonly log: Logger;
  readonly say: (text: string) => void;
}

/** What goes on in the background so that there is a past to look at. */
export interface Past {
  /** Resolves when nothing is left to do. */
  readonly done: Promise<void>;
  /** Ends it on its way: the next start begins it anew. */
  stop(): Promise<void>;
}

/** Makes the records anew where they are of another version, or somebody wants it; the ones there are serve until then. */
export function keepPast(parts: PastParts): Past {
  const stopping = new AbortController();
  const due = parts.anew || parts.live.recordsDue();
  const done = due ? makeAnew(parts, stopping.signal) : Promise.resolve();
  return {
    done,
    stop: async () => {
      stopping.abort();
      await done;
    },
  };
}

async function makeAnew({ live, tape, records, log, say }: PastParts, stopping: AbortSignal): Promise<void> {
  const { line, version } = live;
  const of = tape.end(line.id) - tape.begin(line.id);
  say(words.step.recordsAnew);
  const progress = (done: number) => log.info({ done, of }, words.step.recordsProgress(done, of));
  try {
    const making = new Making({ tape, records, line, version, stopping, progress });
    if (!(await making.goOn(tape.end(line.id)))) return;
    await live.takeOver(making, false);
    if (!stopping.aborted) say(words.step.recordsMade);
  } catch (error) {
    // the records are a cache: what is recorded and shown live goes on without them
    if (!(error instanceof LineError)) throw error;
    log.error(words.inOneLine(error));
  }
}
