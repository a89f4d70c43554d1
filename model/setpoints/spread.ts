import { studentTQuantile } from '../statistics/studentT.ts';
import type { Spread } from '../past/setPointsPast.ts';
import type { SettledCounts } from '../past/settledCounts.ts';

/** Runs of fewer cartons say too little to count as one beside the others. */
const RUN_LEAST = 300;

/**
 * [SP9] Rejects in 1,000 cartons over runs, with 95 % limits from the spread between runs, the run being the unit: Student's t on the
 * runs' own rates. No limits for a single run; none below zero. Undefined where nothing counts them.
 */
export function rejectSpread(counts: readonly SettledCounts[]): Spread | undefined {
  const runs = new Map<number, { spoiled: number; cartons: number }>();
  for (const { settled, cartons, spoiled } of counts) {
    if (spoiled === undefined) continue;
    const run = runs.get(settled.run.from) ?? { spoiled: 0, cartons: 0 };
    runs.set(settled.run.from, { spoiled: run.spoiled + spoiled, cartons: run.cartons + cartons });
  }
  const rates = [...runs.values()]
    .filter(({ cartons }) => cartons >= RUN_LEAST)
    .map(({ spoiled, cartons }) => (1000 * spoiled) / cartons);
  if (rates.length === 0) return undefined;
  const mean = rates.reduce((sum, one) => sum + one, 0) / rates.length;
  if (rates.length === 1) return { mean, low: undefined, high: undefined };
  const variance = rates.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (rates.length - 1);
  const wide = studentTQuantile(0.975, rates.length - 1) * Math.sqrt(variance / rates.length);
  return { mean, low: Math.max(0, mean - wide), high: mean + wide };
}
