import { logGamma } from './logGamma.ts';

/** A single change of the rate of counts of equal stretches. */
export interface PoissonChange {
  /** How many stretches lie before it. */
  readonly after: number;
  readonly rateBefore: number;
  readonly rateAfter: number;
  readonly logLikelihood: number;
}

/** Logarithm of the likelihood of counts at one steady rate, at the likeliest one. */
export function logLikelihoodSteady(counts: readonly number[]): number {
  const sum = total(counts);
  const rest = counts.reduce((terms, count) => terms - logGamma(count + 1), 0);
  return (sum > 0 ? sum * Math.log(sum / counts.length) : 0) - sum + rest;
}

/**
 * Every place where the rate may have changed once, the likeliest first. Twice what the best gains over a steady rate is no
 * chi-square variable, as its place was looked for: judge it by simulation or by the posterior. Empty for fewer than two counts.
 */
export function poissonChanges(counts: readonly number[]): PoissonChange[] {
  const changes = counts.slice(1).map((_, place) => {
    const [before, after] = [counts.slice(0, place + 1), counts.slice(place + 1)];
    return {
      after: before.length,
      rateBefore: total(before) / before.length,
      rateAfter: total(after) / after.length,
      logLikelihood: logLikelihoodSteady(before) + logLikelihoodSteady(after),
    };
  });
  return changes.sort((a, b) => b.logLikelihood - a.logLikelihood);
}

/**
 * Chance of each place, if the rate changed exactly once and any place was as likely before: entry i is for a change after
 * i + 1 stretches. Both rates start from a gamma distribution of a shape and a rate (Raftery and Akman, Biometrika 1986).
 */
export function changePosterior(counts: readonly number[], shape: number, rate: number): number[] {
  const evidence = (part: readonly number[]) =>
    logGamma(shape + total(part)) - (shape + total(part)) * Math.log(rate + part.length);
  const logs = counts
    .slice(1)
    .map((_, place) => evidence(counts.slice(0, place + 1)) + evidence(counts.slice(place + 1)));
  const top = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - top));
  return weights.map((weight) => weight / total(weights));
}

function total(counts: readonly number[]): number {
  return counts.reduce((sum, count) => sum + count, 0);
}
