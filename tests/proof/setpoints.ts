import { drawWorld } from './setpoints/drawWorld.ts';
import { rowsOf, type SetpointsRow } from './setpoints/judge.ts';
import { readWorld } from './setpoints/readWorld.ts';

/** So many worlds are judged, from a number on that nothing was looked at of while the estimator was made (see the README). */
export const JUDGED_WORLDS = 100;
export const JUDGED_FROM = 1000;

/** How well set points are estimated: worlds that are drawn, or one that is read from a file. */
export function* setpointsProof(file?: string): Generator<SetpointsRow> {
  if (file !== undefined) yield* rowsOf(readWorld(file));
  else
    for (let number = 0; number < JUDGED_WORLDS; number += 1)
      yield* rowsOf(drawWorld('judged', JUDGED_FROM + number));
}
