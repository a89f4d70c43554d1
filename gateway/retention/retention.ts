import { setImmediate } from 'node:timers/promises';
import type { Logger } from 'pino';
import { foldTape } from '../../model/replay/foldTape.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { epochMs, type Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LiveLine } from '../live/liveLine.ts';
import type { Records } from '../records/records.ts';
import type { Tape } from '../tape/tape.ts';
import { keptFrom, type Limits } from './limits.ts';

const words = wordsIn('en').gateway;
/** Looked at so often. Milliseconds. */
const EVERY_MS = 3_600_000;
/** Segments that go at one go, before other work gets its turn: a day of them. */
const AT_ONCE = 144;

export interface RetentionParts {
  readonly live: Pick<LiveLine, 'line' | 'version'>;
  readonly tape: Tape;
  readonly records: Records;
  readonly limits: Limits;
  /** Milliseconds since 1970: segments bear when the gateway received them. */
  readonly now: () => Instant;
  /** Whether the past is made: while it is being made, all of the tape is needed. */
  readonly ready: () => boolean;
  readonly log: Pick<Logger, 'info' | 'error'>;
}

/**
 * Takes away what a line's tape need not keep, now and every hour. First the state at the new beginning is kept, so that
 * folding goes on from there and needs nothing of what goes; then whole segments go, the oldest first, and the records that
 * are as old. Positions of what stays are the same.
 */
export function startRetention(parts: RetentionParts): () => Promise<void> {
  const stopping = new AbortController();
  let turn: Promise<void> = Promise.resolve();
  const act = async () => {
    try {
      if (parts.ready()) await retain(parts, stopping.signal);
    } catch (error) {
      if (stopping.signal.aborted) return;
      // what could not be taken away now may go in an hour; the line goes on
      if (!(error instanceof LineError)) throw error;
      parts.log.error(words.inOneLine(error));
    }
  };
  const next = () => {
    turn = turn.then(act);
  };
  next();
  const timer = setInterval(next, EVERY_MS);
  return async () => {
    clearInterval(timer);
    stopping.abort();
    await turn;
  };
}

/** Once. Answers the position at which the tape begins then. */
export async function retain(parts: RetentionParts, stopping: AbortSignal): Promise<number> {
  const { live, tape, records, limits, now, log } = parts;
  const { line, version } = live;
  const { id } = line;
  const begin = tape.begin(id);
  const pieces = tape.pieces(id, begin, tape.end(id));
  const to = keptFrom(pieces, limits, now());
  if (to <= begin) return begin;
  const { fold } = await foldTape(tape, line, {
    version,
    end: to,
    rest: async () => {
      await setImmediate();
      stopping.throwIfAborted();
    },
  });
  stopping.throwIfAborted();
  const body = JSON.stringify(fold.save());
  if (tape.checkpoints(id, version, to, to + 1).length === 0)
    await tape.keep(id, { position: to, version, body, passing: false });
  const steps = pieces.filter(({ start }, place) => start > begin && start < to && place % AT_ONCE === 0);
  for (const position of [...steps.map(({ start }) => start), to]) {
    tape.dropBefore(id, position);
    await setImmediate();
    stopping.throwIfAborted();
  }
  const from = fold.state.at;
  records.dropBefore(id, from);
  log.info(words.retained(line.name, new Date(epochMs(from)).toISOString(), to));
  return to;
}
