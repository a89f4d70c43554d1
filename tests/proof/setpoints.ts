import { drawWorld } from './setpoints/drawWorld.ts';
import { rowsOf, type SetpointsRow } from './setpoints/judge.ts';
import { readWorld } from './setpoints/readWorld.ts';

/** So many worlds are judged; none of their number, families, lots or habits was looked at while the estimator was made. */
export const JUDGED_WORLDS = 100;

/** How well set points are estimated: worlds that are drawn, or one that is read from a file. */
export function* setpointsProof(file?: string): Generator<SetpointsRow> {
  if (file !== undefined) yield* rowsOf(readWorld(file));
  else for (let number = 0; number < JUDGED_WORLDS; number += 1) yield* rowsOf(drawWorld('judged', number));
}
