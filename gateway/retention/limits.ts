import type { StoredPiece } from '../tape/tape.ts';
import type { Instant, Span } from '../../model/units/units.ts';

/** How much of a line's tape is kept; all of it where neither is said. */
export interface Limits {
  /** What was received longer ago may go. */
  readonly age?: Span;
  /** What lies before the newest so many bytes of sealed segments may go. */
  readonly bytes?: number;
}

/**
 * Where the tape may begin from now on: whole sealed segments go, the oldest first, never the last one. `pieces`: all of the tape,
 * in order. Of a segment of which nobody knows when it is, those after it tell; the position that it begins at now where all stays.
 */
export function keptFrom(pieces: readonly StoredPiece[], { age, bytes }: Limits, now: Instant): number {
  const sealed = pieces.filter((piece) => piece.sealed);
  const gone = Math.max(
    age === undefined
      ? 0
      : sealed.findLastIndex(({ received }) => received !== undefined && received.most < now - age) + 1,
    bytes === undefined ? 0 : beyond(sealed, bytes),
  );
  const first = sealed[Math.min(gone, sealed.length - 1)];
  return first?.start ?? pieces[0]?.start ?? 0;
}

/** How many of the oldest are not among the newest so many bytes. */
function beyond(sealed: readonly StoredPiece[], most: number): number {
  let bytes = 0;
  for (let place = sealed.length - 1; place >= 0; place -= 1) {
    bytes += sealed[place]!.bytes;
    if (bytes > most) return place + 1;
  }
  return 0;
}
