import type { RejectId } from '../lines/cartoner.ts';
import { chance, type Draw } from '../machine/random.ts';

/*
 * What becomes of a carton, as in the full simulator: the same shares and the same order, without pockets (invented, no source).
 */
const jamsOf: Readonly<Record<string, number>> = {
  open: 0.055,
  'bottom-minor': 0.016,
  'bottom-major': 0.018,
  capture: 0.02,
  'top-minor': 0.016,
  'top-major': 0.018,
  'tuck-cam': 0.055,
};
const showsOf: Readonly<Record<string, number>> = {
  open: 1,
  'bottom-minor': 0.5,
  'bottom-major': 0.95,
  capture: 1,
  'top-minor': 0.7,
  'top-major': 0.95,
  'tuck-cam': 1,
};

/** What may happen to a carton, in its order; only the pick has no carton yet. */
export const steps = [
  'pick',
  'open',
  'bottom-minor',
  'bottom-major',
  'capture',
  'loading',
  'top-minor',
  'top-major',
  'tuck-cam',
  'jam',
  'code',
] as const;
export type Step = (typeof steps)[number];

export type Fate =
  | { readonly kind: 'good' }
  | { readonly kind: 'missed' }
  | { readonly kind: 'rejected'; readonly reason: RejectId }
  | { readonly kind: 'jammed'; readonly station: string };

interface Spoiled {
  square: boolean;
  loaded: boolean;
  bottom: boolean;
  bottomMinor: boolean;
  captured: boolean;
  top: boolean;
  topMinor: boolean;
}

export interface Chances {
  /** Chance that something happens to a carton at each step, in the order of `steps`. */
  readonly hazards: readonly number[];
  readonly draw: Draw;
  /** How many times as often a misfold of the station jams. */
  readonly jamsMore: (station: string) => number;
}

/** A carton to which something happens first at this step. */
export function spoiled(first: number, { hazards, draw, jamsMore }: Chances): Fate {
  if (first === 0) return { kind: 'missed' };
  const carton: Spoiled = {
    square: true,
    loaded: true,
    bottom: true,
    bottomMinor: true,
    captured: true,
    top: true,
    topMinor: true,
  };
  for (let place = first; place < steps.length; place += 1) {
    const step = steps[place]!;
    if (step === 'loading' && !carton.captured) {
      if (chance(draw, 0.035)) return { kind: 'jammed', station: step };
      if (chance(draw, 0.35)) carton.loaded = false;
      else carton.top = false;
      continue;
    }
    const inherited =
      (step === 'bottom-major' && !carton.bottomMinor) || (step === 'top-major' && !carton.topMinor)
        ? 0.4
        : 0;
    if (place > first && !chance(draw, Math.min(0.9, hazards[place]! + inherited))) continue;
    if (step === 'code') return { kind: 'rejected', reason: reasonOf(carton) ?? 'code' };
    if (step === 'jam') return { kind: 'jammed', station: 'discharge' };
    if (step === 'loading') carton.loaded = false;
    else if (chance(draw, Math.min(0.6, jamsOf[step]! * jamsMore(step))))
      return { kind: 'jammed', station: step };
    else if (chance(draw, showsOf[step]!)) misfold(step, carton);
  }
  const reason = reasonOf(carton);
  return reason ? { kind: 'rejected', reason } : { kind: 'good' };
}

function misfold(step: Step, carton: Spoiled): void {
  if (step === 'bottom-minor') carton.bottomMinor = false;
  else if (step === 'bottom-major') carton.bottom = false;
  else if (step === 'capture') carton.captured = false;
  else if (step === 'top-minor') carton.topMinor = false;
  else if (step === 'top-major') carton.top = false;
  else carton.square = false;
}

function reasonOf(carton: Spoiled): RejectId | undefined {
  if (!carton.square) return 'crushed';
  if (!carton.loaded) return 'empty';
  if (!carton.bottom || !carton.bottomMinor) return 'bottom-open';
  return carton.top && carton.topMinor ? undefined : 'top-open';
}
