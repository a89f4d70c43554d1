import { pino } from 'pino';
import { knownHost } from '../../gateway/api/hostNames.ts';
import { intakeOptions, outsideOf } from '../../gateway/commands/intakes.ts';
import { listen } from '../../gateway/commands/web.ts';
import { type Intake, startIntake } from '../../gateway/intake/intake.ts';
import { type LiveLine, startLiveLine } from '../../gateway/live/liveLine.ts';
import { startSockets } from '../../gateway/live/sockets.ts';
import { openSqliteTape } from '../../gateway/tape/sqliteTape.ts';
import type { Tape } from '../../gateway/tape/tape.ts';
import { epochMs } from '../../model/units/units.ts';
import { boundOf, LINES, PLACES, placeOf, tags } from './intakeLines.ts';
import { answerFor, Delays } from './intakeListener.ts';

/**
 * The durable gateway for all lines in one process: of each line an intake with its own client, its part of one tape, its
 * live fold, and the views for screens, of which none is open.
 */
async function hear(endpoint: string, data: string): Promise<void> {
  const bounds = Array.from({ length: LINES }, (_, line) => boundOf(line, endpoint));
  const tape = await openSqliteTape(data, new Map(bounds.map(({ line }) => [line.id, line.signals])));
  const warned: string[] = [];
  const log = pino(
    { level: 'warn' },
    { write: (text) => void warned.push((JSON.parse(text) as { readonly msg: string }).msg) },
  );
  const now = () => Date.now();
  const lives = new Map<string, LiveLine>();
  const intakes: Intake[] = [];
  const delays = new Delays();
  const stopping = new AbortController().signal;
  for (const bound of bounds) {
    const { line } = bound;
    const own: Intake[] = [];
    const outside = () => outsideOf(bound, own, false);
    const live = await startLiveLine({ line, tape, now, speed: 1, outside, told: () => {} });
    lives.set(line.id, live);
    const options = intakeOptions(bound.servers[0]!, { bound, live, data, log, stopping });
    const take: typeof options.take = async (changes) => {
      await options.take(changes);
      delays.taken(epochMs(changes[0]!.at));
    };
    own.push(startIntake({ ...options, take }));
    intakes.push(...own);
    // the first one makes the certificate that all of them show
    while (intakes.length === 1 && !intakes[0]!.status().up)
      await new Promise((done) => setTimeout(done, 50));
  }
  const web = await listen((_request, response) => void response.end(), 0, '127.0.0.1');
  startSockets(web.server, lives, now, { known: knownHost([]) });
  const read = countingOf(
    tape,
    bounds.map(({ line, tags: bind }) => ({ id: line.id, bind })),
  );
  answerFor({ ready: () => intakes.every((intake) => intake.status().up), counts: read, warned }, delays);
}

/** Counts what the tape holds by reading it back, each time from where it was read last. */
function countingOf(
  tape: Tape,
  lines: readonly { readonly id: string; readonly bind: ReadonlyMap<number, { readonly tag: string }> }[],
): () => Promise<readonly number[]> {
  const counts = new Array<number>(PLACES).fill(0);
  const read = lines.map(() => 0);
  const tagAt = new Map(tags.map(({ tag }, place) => [tag, place]));
  return async () => {
    for (const [line, { id, bind }] of lines.entries()) {
      const end = tape.end(id);
      for await (const changes of tape.read(id, read[line]!, end)) {
        for (const { signal } of changes) {
          const tag = tagAt.get(bind.get(signal)?.tag ?? '');
          if (tag !== undefined) counts[placeOf(line, tag)]! += 1;
        }
      }
      read[line] = end;
    }
    return counts;
  };
}

await hear(process.argv[2]!, process.argv[3]!);
