import { betaBinomialPoints } from './betaBinomial.ts';
import { chiSquareAbove } from './chiSquare.ts';
import { type UpperLimit, negativeBinomialLimit, poissonLimit } from './falseCallLimit.ts';
import { compareRates, type Stops } from './poissonRate.ts';

/*
 * Stops come in bursts and days are not alike, so counts vary more than a Poisson stream's. Here the rate of each stretch
 * varies as a gamma distribution whose shape grows with the time: the variance of a count is then `factor` times its mean,
 * however long the time (quasi-Poisson; McCullagh and Nelder, Generalized Linear Models, 6.2, from memory).
 */

/** How much more than by chance the counts of stretches vary. */
export interface Dispersion {
  /** Stops in one unit of time. */
  readonly rate: number;
  /** Variance to mean; 1 is a Poisson stream, below 1 is more even than chance. */
  readonly factor: number;
  /** Chance of counts so uneven or more, if the stream were a Poisson one. */
  readonly chance: number;
}

/** By Pearson's statistic on one degree of freedom less than stretches. Undefined for fewer than two, or without stops. */
export function dispersion(stretches: readonly Stops[]): Dispersion | undefined {
  const counted = stretches.filter(({ time }) => time > 0);
  const time = counted.reduce((sum, one) => sum + one.time, 0);
  const rate = counted.reduce((sum, one) => sum + one.count, 0) / time;
  if (counted.length < 2 || !(rate > 0)) return undefined;
  const pearson = counted.reduce((sum, one) => {
    const mean = rate * one.time;
    return sum + (one.count - mean) ** 2 / mean;
  }, 0);
  const degrees = counted.length - 1;
  return { rate, factor: pearson / degrees, chance: chiSquareAbove(pearson, degrees) };
}

/**
 * Two-sided chance of a split so unlike the times, or an unliker one, if both rates are one and counts vary by `factor` times
 * their mean around it. Exact for such counts: given how many came in all, the first's part is beta-binomial. With a factor of
 * 1 or less it is the chance of compareRates. `rate` is what both have in common. Undefined where either has no time.
 */
export function compareOverdispersed(
  first: Stops,
  second: Stops,
  { rate, factor }: Pick<Dispersion, 'rate' | 'factor'>,
): number | undefined {
  if (!(factor > 1)) return compareRates(first, second, 0.95)?.chance;
  if (!(first.time > 0 && second.time > 0 && rate > 0)) return undefined;
  const shape = rate / (factor - 1);
  const points = betaBinomialPoints(first.count + second.count, shape * first.time, shape * second.time);
  const seen = points[first.count]! * (1 + 1e-7);
  const rare = points.reduce((sum, point) => (point <= seen ? sum + point : sum), 0);
  return Math.min(1, rare);
}

/**
 * The most stops in a time that still are normal where their rate and factor are known, for a wanted chance of a false call.
 * Where both come from a short past, that past's own doubt is not in it: surprise.ts has it.
 */
export function overdispersedLimit(
  time: number,
  { rate, factor }: Pick<Dispersion, 'rate' | 'factor'>,
  wanted: number,
): UpperLimit {
  if (!(factor > 1)) return poissonLimit(rate * time, wanted);
  return negativeBinomialLimit((rate * time) / (factor - 1), 1 / factor, wanted);
}
