import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { indexOf } from '../../model/fold/lineIndex.ts';
import { MODEL_VERSION } from '../../model/fold/version.ts';
import type { Line } from '../../model/line/line.ts';
import { RECORD_KINDS, recordSteps } from '../../model/records/records.ts';
import { foldTape } from '../../model/replay/foldTape.ts';
import type { TapeRead } from '../../model/replay/tapeRead.ts';
import type { Change } from '../../model/signals/signals.ts';
import { LineError } from '../../model/trouble/trouble.ts';
import type { Instant } from '../../model/units/units.ts';
import { wordsIn } from '../../model/words/words.ts';
import type { Work } from '../backup/progress.ts';
import { definitionHash } from '../live/liveLine.ts';
import { openRecords, type Records } from '../records/records.ts';
import { recordsToRead } from '../records/readRecords.ts';
import { type StoredLine, StoredTape } from '../tape/storedTape.ts';
import type { ExportSource } from './source.ts';

const words = wordsIn('en').exporting;

export interface StoredWish {
  readonly data: string;
  readonly line: Line;
  /** A folder that is not there yet, for what has to be worked out anew. */
  readonly scratch: string;
  /** Derived tables are wanted. */
  readonly derived: boolean;
  readonly work: Work;
}

/**
 * Takes an export from a data folder, whether a gateway runs on it or not. Records of another version than this line's file
 * and model are not used: then they are worked out of the tape, beside.
 */
export async function storedSource(wish: StoredWish): Promise<ExportSource & { close(): void }> {
  const { line, data } = wish;
  const tape = new StoredTape(join(data, 'tape.sqlite'));
  const open: { close(): void }[] = [tape];
  const close = () => {
    for (const one of open) one.close();
  };
  try {
    const stored = tape.lines().find(({ id }) => id === line.id);
    if (!stored)
      throw new LineError(words.notOnTape(line.id), { why: words.notOnTapeWhy, mend: words.notOnTapeMend });
    const version = `${MODEL_VERSION}.${definitionHash(line)}`;
    const kept = recordsToRead(data);
    if (kept) open.push(kept);
    const serving = kept?.edition(line.id);
    const serves = serving?.version === version && serving.position <= stored.end;
    const { records, state } =
      kept && (serves || !wish.derived)
        ? { records: kept, state: await stateOf(wish, tape, stored, version) }
        : await workedOut(wish, tape, stored, version);
    if (records !== kept) open.push(records);
    const until = Math.max(state.heardAt, state.at, 0) as Instant;
    return {
      index: indexOf(line),
      version,
      tape,
      stored,
      records,
      openGap: state.gap?.from,
      unread: [],
      until,
      close,
    };
  } catch (error) {
    close();
    throw error;
  }
}

async function stateOf({ line, work }: StoredWish, tape: StoredTape, stored: StoredLine, version: string) {
  const { fold } = await foldTape(readOf(tape, stored, line, work), line, {
    version,
    end: stored.end,
    progress: (done, of) => work.progress(words.folding, done / of),
  });
  return fold.state;
}

/** Records of all that the tape holds, in a scratch folder of their own. */
async function workedOut(
  { line, work, scratch }: StoredWish,
  tape: StoredTape,
  stored: StoredLine,
  version: string,
): Promise<{ readonly records: Records; readonly state: Awaited<ReturnType<typeof stateOf>> }> {
  mkdirSync(scratch);
  const records = openRecords(scratch);
  try {
    const edition = records.begin(line.id, version);
    const { fold } = await foldTape(readOf(tape, stored, line, work), line, {
      version,
      end: stored.end,
      since: stored.begin,
      progress: (done, of) => work.progress(words.folding, done / of),
      seen: (events, state) => records.write(edition, recordSteps(events, state), 0),
      anew: (from) => records.write(edition, [{ kind: 'cut', of: RECORD_KINDS, from }], 0),
    });
    records.write(edition, [], stored.end);
    records.serve(line.id, edition);
    return { records, state: fold.state };
  } catch (error) {
    records.close();
    throw error;
  }
}

/** The tape by the line's own places of its signals. */
function readOf(tape: StoredTape, stored: StoredLine, { signals }: Line, { stopping }: Work): TapeRead {
  const placeOf = new Map(signals.map(({ id, index }) => [id, index]));
  const places = stored.signals.map((id) => placeOf.get(id));
  return {
    begin: () => stored.begin,
    end: () => stored.end,
    nearest: (_line, position, version) => tape.nearest(stored, position, version),
    async *read(_line, from, to) {
      for await (const changes of tape.read(stored, from, to)) {
        stopping.throwIfAborted();
        const own = changes.flatMap((change): Change[] => {
          const signal = places[change.signal];
          return signal === undefined ? [] : [{ ...change, signal }];
        });
        if (own.length > 0) yield own;
      }
    },
  };
}
