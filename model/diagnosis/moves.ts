import { minutes } from '../units/units.ts';
import type { Move } from './troubled.ts';

/** Moves of one hand so close together are one: a wheel is turned, looked at, and turned on. */
const ONE_HAND = minutes(10);

/**
 * Moves as people speak of them, in their order: what one hand did in a few minutes is one move, and so is all that a sensor's
 * reading crept.
 */
export function joined(moves: readonly Move[]): readonly Move[] {
  const inOrder = moves.toSorted((a, b) => a.at - b.at);
  const all: { move: Move; last: Move }[] = [];
  for (const move of inOrder) {
    const before = all.findLast((one) => one.move.by === move.by);
    if (before && (move.by === 'drift' || move.at - before.last.at <= ONE_HAND)) {
      before.move = { ...before.move, to: move.to };
      before.last = move;
    } else all.push({ move, last: move });
  }
  return all.map(({ move }) => move);
}
