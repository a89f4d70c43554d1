import { type UpperLimit, negativeBinomialLimit } from './falseCallLimit.ts';
import { negativeBinomialAtLeast, negativeBinomialPoint } from './negativeBinomial.ts';
import type { Stops } from './poissonRate.ts';

/** How surprising a number of stops is after what came before. */
export interface Surprise {
  /** How many were to be expected. */
  readonly mean: number;
  /** Chance of so many or more, if nothing changed. */
  readonly chance: number;
  /** The same in bits, −log2 of the chance: 10 bits are one in a thousand, and ten more are a thousandth of that. */
  readonly bits: number;
}

/**
 * How surprising `now` is after the stops of a past at a steady but unknown rate: the gamma-Poisson predictive distribution
 * with the Jeffreys start, so negative binomial of size count + ½ and chance past / (past + now). A thin past surprises
 * less than a long one of the same rate: nobody is called for want of data. (Bernardo and Smith, Bayesian Theory, from
 * memory.) Undefined without a past or over no time.
 */
export function surprise(now: Stops, past: Stops): Surprise | undefined {
  const next = nextCount(now.time, past);
  if (!next) return undefined;
  const chance = negativeBinomialAtLeast(now.count, next.size, next.p);
  return { mean: (next.size * now.time) / past.time, chance, bits: -Math.log2(chance) };
}

/** The chance of exactly so many stops after such a past. */
export function chanceAfter(now: Stops, past: Stops): number | undefined {
  const next = nextCount(now.time, past);
  return next && negativeBinomialPoint(now.count, next.size, next.p);
}

/** The most stops in a coming time that still are normal after such a past, for a wanted chance of a false call. */
export function surpriseLimit(time: number, past: Stops, wanted: number): UpperLimit | undefined {
  const next = nextCount(time, past);
  return next && negativeBinomialLimit(next.size, next.p, wanted);
}

function nextCount(time: number, past: Stops): { readonly size: number; readonly p: number } | undefined {
  if (!(past.time > 0 && time > 0)) return undefined;
  return { size: past.count + 0.5, p: past.time / (past.time + time) };
}
