import { chance, type Draw, lognormal, uniform, whole } from '../machine/random.ts';
import { guardOver } from '../machine/guarding.ts';
import type { Seconds } from './options.ts';

/* How long the line stands, as in the full simulator: the same pieces in the same order (invented, no source). */

/** From Stopped to running again. */
export const startUp = (draw: Draw): Seconds =>
  uniform(draw, 1.5, 5) + uniform(draw, 0.8, 1.4) + uniform(draw, 1.2, 4) + uniform(draw, 1.4, 2.2);

const takeUp = (draw: Draw): Seconds => uniform(draw, 1.5, 6) + uniform(draw, 0.9, 1.6);
const reset = (draw: Draw): Seconds => uniform(draw, 1.5, 9) + uniform(draw, 0.3, 0.7);
const abort = (draw: Draw): Seconds => 0.01 + uniform(draw, 0.25, 0.6);

/** A jam at a pocket distance; `repaired` is what somebody did there besides. */
export function jammed(
  draw: Draw,
  {
    distance,
    again,
    repaired,
  }: { readonly distance: number; readonly again: boolean; readonly repaired: Seconds },
): Seconds {
  let stood = uniform(draw, 0.5, 1.1) + lognormal(draw, 8, 0.5, 2, 60);
  const pressed = chance(draw, 0.11);
  if (pressed) stood += abort(draw);
  const hands = lognormal(draw, 42, 0.75, 9, 900) + (again ? 15 : 0);
  const opened = chance(draw, 0.8) && guardOver(distance) !== undefined;
  stood += (opened ? 0.02 : 0) + hands * 0.4 + 1 + repaired;
  const lockedOut = hands > 40 && chance(draw, 0.3);
  stood += lockedOut ? hands * uniform(draw, 0.5, 1.1) + uniform(draw, 1.5, 6) : hands * 0.5;
  if (chance(draw, 0.09)) stood += jogged(draw);
  if (opened) stood += uniform(draw, 1, 4) + 0.02;
  return stood + (pressed ? reset(draw) + startUp(draw) : takeUp(draw));
}

function jogged(draw: Draw): Seconds {
  let took = uniform(draw, 1, 3) + uniform(draw, 1, 3);
  for (let cycles = whole(draw, 2, 5); cycles > 0; cycles -= 1) took += uniform(draw, 1.5, 3) + 10 * 0.2;
  return took;
}

export interface Incident {
  readonly number: number;
  readonly kind: 'starved' | 'blocked' | 'operator' | 'safety';
  readonly station: string | undefined;
  /** Hours between them on average. */
  readonly hours: number;
  readonly stands: (draw: Draw) => Seconds;
}

const suspended = (median: number) => (draw: Draw) =>
  uniform(draw, 0.6, 1.2) +
  lognormal(draw, median, 0.6, 12, 600) +
  uniform(draw, 0.4, 1.5) +
  uniform(draw, 0.9, 1.6);

/** What stops the line that is no jam. */
export const incidents: readonly Incident[] = [
  { number: 11, kind: 'starved', station: 'magazine', hours: 8, stands: suspended(65) },
  { number: 72, kind: 'starved', station: 'loading', hours: 6.5, stands: suspended(65) },
  { number: 111, kind: 'blocked', station: 'discharge', hours: 9, stands: suspended(38) },
  {
    number: 205,
    kind: 'operator',
    station: 'loading',
    hours: 5.5,
    stands: (draw) => uniform(draw, 0.5, 1) + lognormal(draw, 55, 0.6, 12, 500) + takeUp(draw),
  },
  {
    number: 201,
    kind: 'operator',
    station: undefined,
    hours: 8,
    stands: (draw) => uniform(draw, 0.7, 1.5) + lognormal(draw, 90, 0.7, 20, 900) + startUp(draw),
  },
  {
    number: 301,
    kind: 'safety',
    station: undefined,
    hours: 30,
    stands: (draw) => abort(draw) + lognormal(draw, 35, 0.7, 6, 400) + reset(draw) + startUp(draw),
  },
  {
    number: 301,
    kind: 'safety',
    station: undefined,
    hours: 70,
    stands: (draw) => abort(draw) + uniform(draw, 8, 25) + reset(draw) + startUp(draw),
  },
  {
    number: 302,
    kind: 'safety',
    station: undefined,
    hours: 45,
    stands: (draw) =>
      uniform(draw, 0.25, 0.6) + lognormal(draw, 30, 0.6, 8, 300) + reset(draw) + startUp(draw),
  },
];
