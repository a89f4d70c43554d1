import { logBeta, logGamma } from '../statistics/logGamma.ts';
import { type Counted, totalOf } from './evidence.ts';

/**
 * What level a run may have: rates per carton with their chances, from earlier runs. The unit is the run: a station has another
 * level in each, spread as a beta distribution for rejects and as a gamma distribution for stops. Neither its mean nor its spread
 * is known but from the runs, so both are averaged over what those leave possible: few runs make a wide spread.
 */
export interface Levels {
  readonly rates: Float64Array;
  readonly chances: Float64Array;
  readonly mean: number;
}

export type Kind = 'rejects' | 'stops';

/**
 * Spreads between runs that are thought possible: standard deviation to mean. Before any run is seen, wide ones are the less likely,
 * as a half-normal distribution of this deviation has them. Stops are so few that they hardly tell it themselves.
 */
const SPREAD_FIRST = { rejects: 0.6, stops: 1 } as const satisfies Record<Kind, number>;
const SPREADS = Array.from({ length: 12 }, (_, place) => 0.05 + 0.12 * place);
/** Places of the mean, in standard errors from the pooled rate. */
const PLACES = Array.from({ length: 11 }, (_, place) => -4 + 0.8 * place);
/** Rates are this far apart on a logarithm, from so far below the pooled one to so far above. */
const STEP = 0.12;
const BELOW = 6;
const ABOVE = 4;
/** What lies below and above with a smaller chance is left out. */
const LEAST = 1e-8;

/** The levels that a run may have, after these. Rates of exactly 0 have no chance: nobody saw enough cartons for that. */
export function levelsOf(runs: readonly Counted[], kind: Kind): Levels {
  const seen = runs.filter(({ of }) => of > 0);
  const { count, of } = totalOf(seen);
  const pooled = (count + 0.5) / of;
  const possible = SPREADS.flatMap((spread) => {
    const error = Math.sqrt(1 / (count + 0.5) + spread ** 2 / seen.length);
    return PLACES.map((place) => shapeOf(pooled * Math.exp(place * error), spread, kind, error, seen));
  }).filter(({ log }) => log > -Infinity);
  const top = Math.max(...possible.map(({ log }) => log));
  const rates = Array.from({ length: Math.ceil((BELOW + ABOVE) / STEP) }, (_, place) =>
    Math.min(0.999, pooled * Math.exp(place * STEP - BELOW)),
  );
  const chances = new Float64Array(rates.length);
  for (const { log, a, b } of possible) {
    const weight = Math.exp(log - top);
    if (weight < 1e-10) continue;
    const density = densityOf(kind, a, b);
    const points = rates.map(density);
    const sum = points.reduce((total, point) => total + point, 0);
    points.forEach((point, place) => {
      chances[place]! += (weight * point) / sum;
    });
  }
  return trimmed(rates, chances);
}

/** Each level spread by so much (standard deviation of its logarithm): what a run may wander from it. */
export function spreadBy({ rates, chances }: Pick<Levels, 'rates' | 'chances'>, spread: number): Levels {
  const reach = Math.ceil((5 * spread) / STEP);
  const wider = Array.from(
    { length: rates.length + 2 * reach },
    (_, place) => rates[0]! * Math.exp((place - reach) * STEP),
  ).filter((rate) => rate < 0.999);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, place) =>
    Math.exp(-0.5 * (((place - reach) * STEP) / spread) ** 2),
  );
  const further = new Float64Array(wider.length);
  chances.forEach((chance, from) => {
    if (chance === 0) return;
    kernel.forEach((share, far) => {
      if (from + far < further.length) further[from + far]! += chance * share;
    });
  });
  return trimmed(wider, further);
}

/** Made to add up to 1, without what is too unlikely to matter. */
function trimmed(rates: readonly number[], chances: Float64Array): Levels {
  const sum = chances.reduce((total, one) => total + one, 0);
  const kept = rates.flatMap((rate, place) => {
    const chance = chances[place]! / sum;
    return chance > LEAST ? [{ rate, chance }] : [];
  });
  return {
    rates: Float64Array.from(kept, ({ rate }) => rate),
    chances: Float64Array.from(kept, ({ chance }) => chance),
    mean: kept.reduce((total, { rate, chance }) => total + rate * chance, 0),
  };
}

interface Shape {
  readonly a: number;
  readonly b: number;
  /** Logarithm of how likely the runs make it. */
  readonly log: number;
}

function shapeOf(mean: number, spread: number, kind: Kind, error: number, runs: readonly Counted[]): Shape {
  const a = kind === 'rejects' ? (1 - mean) / spread ** 2 - mean : 1 / spread ** 2;
  const b = kind === 'rejects' ? (a * (1 - mean)) / mean : a / mean;
  if (!(a > 0 && b > 0)) return { a, b, log: -Infinity };
  const each = kind === 'rejects' ? betaBinomialLog(a, b) : negativeBinomialLog(a, b);
  const first = Math.log(error) - 0.5 * (spread / SPREAD_FIRST[kind]) ** 2;
  return { a, b, log: first + runs.reduce((sum, run) => sum + each(run), 0) };
}

/** Up to what does not depend on a and b. */
function betaBinomialLog(a: number, b: number) {
  const before = logBeta(a, b);
  return ({ count, of }: Counted) => logBeta(count + a, of - count + b) - before;
}

function negativeBinomialLog(a: number, b: number) {
  const before = a * Math.log(b) - logGamma(a);
  return ({ count, of }: Counted) => before + logGamma(a + count) - (a + count) * Math.log(b + of);
}

/** On a logarithm of the rate, up to a factor. */
function densityOf(kind: Kind, a: number, b: number): (rate: number) => number {
  const middle = kind === 'rejects' ? a / (a + b) : a / b;
  const log =
    kind === 'rejects'
      ? (rate: number) => a * Math.log(rate) + b * Math.log1p(-rate)
      : (rate: number) => a * Math.log(rate) - b * rate;
  const top = log(middle);
  return (rate) => Math.exp(log(rate) - top);
}
