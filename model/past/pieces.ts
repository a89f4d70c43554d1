import { HOUR, type Instant, type Span } from '../units/units.ts';
import type { Run } from './batches.ts';

/** Minutes are read one by one, so that no more than this of a run is looked at in one go. */
export const PIECE_MOST = (8 * 24 * HOUR) as Span;

/**
 * A run in pieces that can be looked at minute by minute, the oldest first: its last one goes on with it. It stays one run: what
 * it brought before its last piece is no other run that could tell what is normal for it.
 */
export function piecesOf({ from, to }: Run): readonly Run[] {
  return Array.from({ length: Math.max(1, Math.ceil((to - from) / PIECE_MOST)) }, (_, n) => ({
    from: (from + n * PIECE_MOST) as Instant,
    to: Math.min(to, from + (n + 1) * PIECE_MOST) as Instant,
  }));
}
