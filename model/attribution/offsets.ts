import { LOOKED_BESIDE, type StationPasses } from './passes.ts';

/**
 * [AT5] Over rejected cartons: how many near misses a station's sensor told of so many cycles before or after the one in which
 * the carton passed it by the line's file, from −6 to 6. Where the file is right they stand out in that cycle.
 */
export type Offsets = number[];

export const OFFSETS = 2 * LOOKED_BESIDE + 1;
/** Of more than so many, all count half. */
const REMEMBERED = 600;
/** So many more than is usual have to stand out before anything is said. */
const STAND_OUT = 12;
/** What stands out elsewhere has to be so many times as much. */
const TIMES = 2;

/** What the near misses say of the pockets that the line's file gives a station. */
export type PocketsLook =
  | { readonly kind: 'notSeenYet' }
  | { readonly kind: 'right' }
  /** So many pockets nearer to the check, or further where it is below zero. */
  | { readonly kind: 'off'; readonly nearer: number }
  /** They lie in a cycle as often as beside it: cycles and near misses are not seen in the order in which they come. */
  | { readonly kind: 'blurred' };

export function noteOffsets(offsets: Offsets, { nearMisses }: StationPasses, pass: number): void {
  for (let place = nearMisses.length - 1; place >= 0; place -= 1) {
    const off = nearMisses[place]! - pass;
    if (off < -LOOKED_BESIDE) break;
    if (off <= LOOKED_BESIDE) offsets[off + LOOKED_BESIDE]! += 1;
  }
  if (offsets.reduce((sum, n) => sum + n, 0) < REMEMBERED) return;
  for (let n = 0; n < offsets.length; n += 1) offsets[n] = Math.floor(offsets[n]! / 2);
}

export function pocketsLook(offsets: Offsets): PocketsLook {
  const usual = [...offsets].sort((a, b) => a - b)[LOOKED_BESIDE]!;
  const out = offsets.map((n) => Math.max(0, n - usual));
  const best = out.indexOf(Math.max(...out));
  const here = out[LOOKED_BESIDE]!;
  if (out[best]! < STAND_OUT + Math.sqrt(usual)) return { kind: 'notSeenYet' };
  if (best !== LOOKED_BESIDE && out[best]! > TIMES * here)
    return { kind: 'off', nearer: best - LOOKED_BESIDE };
  const beside = out[LOOKED_BESIDE - 1]! + out[LOOKED_BESIDE + 1]!;
  return { kind: beside > here ? 'blurred' : 'right' };
}

/** Whether near misses lie further off than beside the cycle in which they are looked for: then they speak of other cartons. */
export function isElsewhere(offsets: Offsets): boolean {
  const look = pocketsLook(offsets);
  return look.kind === 'off' && Math.abs(look.nearer) > 1;
}
