import type { Line } from '../../model/line/line.ts';
import type { Change } from '../../model/signals/signals.ts';
import { type Instant, minutes } from '../../model/units/units.ts';
import type { TapeRead } from '../../model/replay/tapeRead.ts';

/** A stretch of line time, half open. */
export interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
}

/** Changes looked at to tell how far the tape is at a position: a late one among them does not mislead. */
const LOOKED_AT = 64;
/** Nearer than this many changes it is read on. */
const NEAR = 4096;
/** What came later than this after its own moment is not found. */
const LATE = minutes(2);
/** Changes read for one stretch at most, and before it for what each signal told last. */
const READ_MOST = { within: 200_000, before: 50_000 };

/**
 * What the tape holds of a stretch of line time, found by position: the order on the tape is that of arrival, which is that
 * of line time but for what came late. Before it stands the newest change of each signal that is found not too far back.
 * `whole` is false where there was more than may be read at once, and what is left out is the newest. What people entered
 * is not among it: it has no line time of its own.
 */
export async function stretchOf(
  tape: Pick<TapeRead, 'begin' | 'end' | 'read'>,
  line: Line,
  { from, to }: Stretch,
  most = READ_MOST,
): Promise<{ readonly changes: readonly Change[]; readonly whole: boolean }> {
  const start = await positionOf(tape, line, from);
  const end = Math.min(tape.end(line.id), start + most.within);
  const before = new Map<number, Change>();
  const within: Change[] = [];
  for await (const changes of tape.read(line.id, Math.max(tape.begin(line.id), start - most.before), end)) {
    for (const change of changes) {
      if (isEntry(line, change)) continue;
      if (change.at >= to + LATE) return { changes: [...before.values(), ...within], whole: true };
      if (change.at >= from) {
        if (change.at < to) within.push(change);
      } else if (change.at >= (before.get(change.signal)?.at ?? 0)) before.set(change.signal, change);
    }
  }
  return { changes: [...before.values(), ...within], whole: end >= tape.end(line.id) };
}

/** A position not after the first change at a moment or later, and no more than a few thousand changes before it. */
export async function positionOf(
  tape: Pick<TapeRead, 'begin' | 'end' | 'read'>,
  line: Line,
  at: Instant,
): Promise<number> {
  let low = tape.begin(line.id);
  let high = tape.end(line.id);
  while (high - low > NEAR) {
    const middle = Math.floor((low + high) / 2);
    const newest = await newestFrom(tape, line, middle, high);
    if (newest !== undefined && newest < at) low = middle;
    else high = middle;
  }
  return low;
}

/** How far the tape is at a position, in line time; undefined where nothing of the PLC follows. */
async function newestFrom(
  tape: Pick<TapeRead, 'begin' | 'end' | 'read'>,
  line: Line,
  position: number,
  until: number,
): Promise<Instant | undefined> {
  for (let from = position; from < until; from += LOOKED_AT) {
    let newest: Instant | undefined;
    for await (const changes of tape.read(line.id, from, Math.min(until, from + LOOKED_AT)))
      for (const change of changes)
        if (!isEntry(line, change) && (newest === undefined || change.at > newest)) newest = change.at;
    if (newest !== undefined) return newest;
  }
  return undefined;
}

function isEntry({ signals }: Line, { signal }: Change): boolean {
  return signals[signal]?.role === 'entry';
}
