import type { Line } from '../../model/line/line.ts';
import type { Instant } from '../../model/units/units.ts';
import type { Tape } from './tape.ts';

/**
 * Where the piece begins before the one with the first change of the PLC at a moment or later: found by when pieces are, without
 * opening any. One of which that is not known is opened.
 */
export async function pieceBefore(tape: Tape, line: Line, at: Instant): Promise<number> {
  let low = tape.begin(line.id);
  let high = tape.end(line.id);
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    const [piece] = tape.pieces(line.id, middle, middle + 1);
    if (!piece) return low;
    const newest = piece.at?.most ?? (await newestIn(tape, line, piece));
    if (newest === undefined || newest >= at) {
      if (piece.start <= low) return low;
      high = piece.start;
    } else low = piece.start + piece.count;
  }
  // what came late may lie in the piece before
  const [before] = low > tape.begin(line.id) ? tape.pieces(line.id, low - 1, low) : [];
  return before?.start ?? low;
}

/** How far the tape is at the end of a piece, in line time; undefined where it holds nothing of the PLC. */
async function newestIn(
  tape: Tape,
  line: Line,
  { start, count }: { readonly start: number; readonly count: number },
): Promise<Instant | undefined> {
  let newest: Instant | undefined;
  for await (const changes of tape.read(line.id, start, start + count))
    for (const change of changes)
      if (line.signals[change.signal]?.role !== 'entry' && (newest === undefined || change.at > newest))
        newest = change.at;
  return newest;
}
