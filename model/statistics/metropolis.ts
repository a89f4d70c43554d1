import { normalFrom } from './draws.ts';

/** A density that is asked for with one number changed at a time, so that it may keep what does not change. */
export interface Density {
  /** The numbers as they stand. What is taken changes them. */
  readonly numbers: Float64Array;
  /** How far a first step goes, of each. */
  readonly scales: readonly number[];
  /**
   * By how much the logarithm of the density grows with this number at `value`. Others may move along with it, if the way back
   * moves them back, and none is stretched: as a level that is held where it was.
   */
  readonly tried: (place: number, value: number) => number;
  /** What was tried last stands from now on. */
  readonly take: () => void;
}

export interface Chain {
  readonly sweeps: number;
  /** Sweeps at the beginning that are not kept; only in these the lengths of steps are fitted. */
  readonly burnIn: number;
  readonly keepEvery: number;
  readonly draw: () => number;
}

/** Share of steps that ought to be taken where one number moves at a time (Roberts, Gelman and Gilks 1997). */
const TAKEN = 0.44;

/**
 * Draws from a density by a random walk, one number at a time (Metropolis and others 1953); the walk's steps are fitted while it
 * burns in, and stand still afterwards. The same draws give the same chain.
 */
export function metropolis(density: Density, { sweeps, burnIn, keepEvery, draw }: Chain): Float64Array[] {
  const { numbers } = density;
  const logScales = density.scales.map((scale) => Math.log(scale));
  const kept: Float64Array[] = [];
  for (let sweep = 0; sweep < sweeps; sweep += 1) {
    const fits = sweep < burnIn ? Math.min(0.7, 4 / Math.sqrt(sweep + 1)) : 0;
    for (let place = 0; place < numbers.length; place += 1) {
      const value = numbers[place]! + Math.exp(logScales[place]!) * normalFrom(draw);
      const taken = Math.min(1, Math.exp(density.tried(place, value)));
      if (draw() < taken) density.take();
      if (fits > 0) logScales[place]! += fits * (taken - TAKEN);
    }
    if (sweep >= burnIn && (sweep - burnIn) % keepEvery === 0) kept.push(Float64Array.from(numbers));
  }
  return kept;
}
