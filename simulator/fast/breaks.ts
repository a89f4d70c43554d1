import { chance, type Draw, normal, uniform } from '../machine/random.ts';
import { type Seconds, SHIFT_SECONDS } from './options.ts';

/** A break as the crew will take it, unless the line stands until it is too late for it. */
export interface Break {
  readonly at: Seconds;
  readonly latest: Seconds;
  readonly lasts: Seconds;
}

/** Windows of planned pauses in each shift, from its beginning on, as in the bundled line file. */
const windows = [
  { from: 3 * 3600, to: 4.5 * 3600, allowance: 20 * 60 },
  { from: 5.75 * 3600, to: 6.75 * 3600, allowance: 10 * 60 },
] as const;

/** Breaks of one shift; a relief crew runs through some of them. */
export function breaksOf(shift: number, draw: Draw): readonly Break[] {
  return windows.flatMap(({ from, to, allowance }) => {
    const began = shift * SHIFT_SECONDS;
    const latest = began + to - 1.1 * allowance;
    const at = uniform(draw, began + from + 240, latest - 240);
    const lasts = allowance * Math.min(1.5, Math.max(0.7, 0.98 + 0.12 * normal(draw)));
    return chance(draw, 0.08) ? [] : [{ at, latest, lasts }];
  });
}
