import { logRise } from '../statistics/logRise.ts';
import type { Evidence } from './estimateEvidence.ts';

/** What the stretches of each run come to, whatever the level. */
export interface RunSums {
  /** Cartons, each by its factor. */
  readonly expected: Float64Array;
  /** Counts, each by the logarithm of its factor. */
  readonly logs: Float64Array;
  /** Variance that a run's level has from what is blurred: where it is steep, standing a little off matters. */
  readonly varies: Float64Array;
}

export function emptySums(runs: number): RunSums {
  const column = () => new Float64Array(runs);
  return { expected: column(), logs: column(), varies: column() };
}

/** `times` is what multiplies the risk in each stretch; `slopes` how steeply, squared, by its blur. */
export function sumRun(
  { runBegins, cartons, counts, runCartons }: Evidence,
  run: number,
  { times, slopes }: { readonly times: Float64Array; readonly slopes: Float64Array },
  into: RunSums,
): void {
  let expected = 0;
  let log = 0;
  let varies = 0;
  const end = runBegins[run + 1]!;
  for (let at = runBegins[run]!; at < end; at += 1) {
    const factor = times[at]!;
    expected += cartons[at]! * factor;
    if (counts[at]! > 0) log += counts[at]! * Math.log(factor);
    varies += (cartons[at]! * slopes[at]!) / (factor * factor);
  }
  into.expected[run] = expected;
  into.logs[run] = log;
  into.varies[run] = varies / runCartons[run]!;
}

const SHAPE_MOST = 2_000;

/**
 * Logarithm of the chance of a run's counts, up to a constant: each stretch has a Poisson count, and all share a level that varies from
 * run to run as a gamma distribution of this variance and mean one.
 */
export function logRun(
  { runCounts }: Evidence,
  sums: RunSums,
  run: number,
  level: number,
  variance: number,
): number {
  const count = runCounts[run]!;
  const shape = Math.min(SHAPE_MOST, 1 / (variance + sums.varies[run]!));
  const expected = sums.expected[run]! * Math.exp(level);
  return (
    sums.logs[run]! +
    count * (level - Math.log(shape + expected)) +
    logRise(shape, count) -
    shape * Math.log1p(expected / shape)
  );
}
