import { drawsFrom } from '../statistics/draws.ts';
import { metropolis } from '../statistics/metropolis.ts';
import { Columns, type Drawn, drawnOf } from './estimateColumns.ts';
import type { Evidence } from './estimateEvidence.ts';
import { WEIGHTS } from './estimateWeights.ts';

/** Sweeps of the chain: fewer where each costs more, so that an answer takes no more than about half a second. */
const SWEEPS = { least: 1_400, most: 4_000, settings: 900_000 } as const;
const KEPT = 600;
const SEED = 7_919;

/** Draws of what may be so, given what was seen: the same each time. */
export function drawChain(evidence: Evidence): readonly Drawn[] {
  const { scales, stretches } = evidence;
  const settings = Math.max(1, scales.length * stretches);
  const sweeps = Math.round(Math.min(SWEEPS.most, Math.max(SWEEPS.least, SWEEPS.settings / settings)));
  const burnIn = Math.round(sweeps / 4);
  const keepEvery = Math.ceil((sweeps - burnIn) / KEPT);
  const kept = metropolis(new Columns(evidence), { sweeps, burnIn, keepEvery, draw: drawsFrom(SEED) });
  return kept.map((numbers) => drawnOf(numbers, scales.length));
}

/** What being off by so many widths, squared with its blur, adds to one. */
export function added(off: number, blur: number, logSize: number, tilt: number): number {
  const bends = WEIGHTS.straightFrom ** 2;
  const side = off > 0 ? tilt : -tilt;
  return Math.exp(logSize + side) * 2 * bends * (Math.sqrt(1 + (off * off + blur) / bends) - 1);
}
