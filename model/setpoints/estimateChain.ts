import { drawsFrom } from '../statistics/draws.ts';
import { metropolis } from '../statistics/metropolis.ts';
import { Columns, type Drawn, drawnOf } from './estimateColumns.ts';
import type { Evidence } from './estimateEvidence.ts';
import { WEIGHTS } from './estimateWeights.ts';

const KEEP_EVERY = 2;

/** Draws of what may be so, given what was seen: the same each time. */
export function drawChain(evidence: Evidence): readonly Drawn[] {
  const kept = metropolis(new Columns(evidence), {
    sweeps: WEIGHTS.sweeps,
    burnIn: WEIGHTS.sweeps / 4,
    keepEvery: KEEP_EVERY,
    draw: drawsFrom(WEIGHTS.seed),
  });
  return kept.map((numbers) => drawnOf(numbers, evidence.scales.length));
}

/** What being off by so many widths, squared with its blur, adds to one. */
export function added(off: number, blur: number, logSize: number, tilt: number): number {
  const bends = WEIGHTS.straightFrom ** 2;
  const side = off > 0 ? tilt : -tilt;
  return Math.exp(logSize + side) * 2 * bends * (Math.sqrt(1 + (off * off + blur) / bends) - 1);
}
