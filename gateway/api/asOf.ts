import type { Request, Response } from 'express';
import { z } from 'zod';
import type { TapeRead } from '../../model/replay/tapeRead.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import { epochMs, type Instant, instantFromMs, TICKS_PER_MS } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { LineRead } from '../live/lineRead.ts';
import type { LinesThen, LineThen } from '../live/linesThen.ts';
import type { LiveLine } from '../live/liveLine.ts';
import { atOneMoment } from '../live/oneMoment.ts';
import type { Records } from '../records/records.ts';
import type { RecordsRead } from '../records/recordsRead.ts';
import { asMoment } from './pastAsked.ts';
import type { PastSurroundings } from './past.ts';

const words = wordsIn('en').gateway.asOf;

/** What every question about the past may say beside its own: of which position of the tape the answer is to be. */
export const asOfQuery = z.object({
  asOf: z
    .union([z.literal(''), z.coerce.number()])
    .pipe(z.number().int().min(Number.MIN_SAFE_INTEGER).max(Number.MAX_SAFE_INTEGER))
    .optional()
    .describe(words.describe.asOf),
  shownAt: asMoment.optional().describe(words.describe.shownAt),
});

/** What answers about the past are made of: of now, or of a position of the tape. */
export interface PastRead {
  readonly records: RecordsRead;
  readonly live: LineRead;
  readonly tape: Pick<TapeRead, 'begin' | 'end' | 'read'>;
  /** The position that was asked for; undefined for now. */
  readonly asOf: number | undefined;
}

/** A position or moment that the tape does not have. */
export class NotOnTape extends LineError {}

interface Parts extends Pick<PastSurroundings, 'lineOf' | 'read' | 'tape'> {
  readonly records: Records;
  readonly linesThen: LinesThen;
}

/** [AS1] What a question is answered from. The answer says by two headers of which position and moment it is. */
export async function pastOf(parts: Parts, request: Request, response: Response): Promise<PastRead> {
  const live = parts.lineOf(request);
  const { asOf, shownAt } = parts.read(asOfQuery, request.query);
  const found =
    asOf === undefined ? nowOf(parts, live, shownAt) : await thenOf(parts, live, { asOf, shownAt });
  response.set('Scoreline-Position', String(found.live.position()));
  response.set('Scoreline-Moment', String(epochMs(found.live.now())));
  return found;
}

/** For what is done now: it cannot be done as of then. */
export function onlyNow({ lineOf, read }: Pick<Parts, 'lineOf' | 'read'>, request: Request): LiveLine {
  const { asOf, shownAt } = read(asOfQuery, request.query);
  if (asOf !== undefined || shownAt !== undefined)
    throw new NotOnTape(words.notDone, { why: words.notDoneWhy, mend: words.notDoneMend });
  return atOneMoment(lineOf(request));
}

function nowOf({ records, tape }: Parts, live: LiveLine, shownAt: number | undefined): PastRead {
  if (shownAt !== undefined)
    throw new NotOnTape(words.noPosition, { why: words.noPositionWhy, mend: words.noPositionMend });
  return { records, live: atOneMoment(live), tape, asOf: undefined };
}

async function thenOf(
  { records, tape, linesThen }: Parts,
  live: LiveLine,
  { asOf, shownAt }: { readonly asOf: number; readonly shownAt: number | undefined },
): Promise<PastRead> {
  const { line, version } = live;
  const [begin, end] = [tape.begin(line.id), live.position()];
  if (asOf > end || asOf <= begin)
    throw new NotOnTape(words.notOnTape(asOf), {
      why: asOf > end ? words.beyond(end) : words.before(begin),
      mend: words.notOnTapeMend(begin + 1, end),
    });
  const { fold, ...moments } = await linesThen.at(live, asOf);
  const now = momentOf(live, moments, shownAt);
  return {
    records: records.asOf(asOf),
    live: { line, version, fold: () => fold, position: () => asOf, now: () => now },
    tape: {
      begin: (id) => tape.begin(id),
      end: (id) => Math.min(asOf, tape.end(id)),
      read: (id, from, to) => tape.read(id, from, Math.min(asOf, to)),
    },
    asOf,
  };
}

/** The line's clock then, in whole milliseconds: the newest moment on the tape, or what the asker's screen showed. */
function momentOf(
  live: LiveLine,
  { heard, newest }: Pick<LineThen, 'heard' | 'newest'>,
  shownAt: number | undefined,
): Instant {
  if (shownAt === undefined) return wholeMs(newest);
  const shown = instantFromMs(shownAt);
  // what was heard within a millisecond is shown at that millisecond
  const least = (heard - TICKS_PER_MS) as Instant;
  if (shown <= least || shown > wholeMs(Math.max(newest, live.now()) as Instant))
    throw new NotOnTape(words.notShown, {
      why: shown <= least ? words.notHeardYet : words.ahead,
      mend: words.notShownMend(epochMs(wholeMs(heard))),
    });
  return shown;
}

function wholeMs(at: Instant): Instant {
  return (Math.ceil(at / TICKS_PER_MS) * TICKS_PER_MS) as Instant;
}
