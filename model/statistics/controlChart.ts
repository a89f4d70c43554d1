/*
 * Control charts with limits of three standard deviations, as handbooks print them (Montgomery, Statistical Quality Control;
 * NIST e-Handbook 6.3.3). They stand here to be held beside the exact limits of falseCallLimit.ts, whose chance of a false
 * call is known: of small counts three deviations call far oftener above than below, and often can never call below.
 */

export interface ChartPoint {
  /** A share, a count or a rate, as the chart has it. */
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
  /** A value on its limit is within. */
  readonly out: boolean;
}

export interface Chart {
  readonly centre: number;
  readonly points: readonly ChartPoint[];
}

/** Shares of rejects in samples of any size, around their common share. Undefined without cartons. */
export function pChart(
  samples: readonly { readonly count: number; readonly trials: number }[],
): Chart | undefined {
  const counted = samples.filter(({ trials }) => trials > 0);
  const trials = sum(counted.map((one) => one.trials));
  if (trials === 0) return undefined;
  const centre = sum(counted.map(({ count }) => count)) / trials;
  const points = counted.map((one) =>
    chartPoint(one.count / one.trials, centre, Math.sqrt((centre * (1 - centre)) / one.trials), 1),
  );
  return { centre, points };
}

/** Counts of stretches that are alike, around their mean. Undefined without any. */
export function cChart(counts: readonly number[]): Chart | undefined {
  if (counts.length === 0) return undefined;
  const centre = sum(counts) / counts.length;
  return { centre, points: counts.map((count) => chartPoint(count, centre, Math.sqrt(centre), Infinity)) };
}

/** Rates of stretches of any length, around their common rate. Undefined over no time. */
export function uChart(
  stretches: readonly { readonly count: number; readonly time: number }[],
): Chart | undefined {
  const counted = stretches.filter(({ time }) => time > 0);
  const time = sum(counted.map((one) => one.time));
  if (time === 0) return undefined;
  const centre = sum(counted.map(({ count }) => count)) / time;
  const points = counted.map((one) =>
    chartPoint(one.count / one.time, centre, Math.sqrt(centre / one.time), Infinity),
  );
  return { centre, points };
}

function chartPoint(value: number, centre: number, deviation: number, most: number): ChartPoint {
  const lower = Math.max(0, centre - 3 * deviation);
  const upper = Math.min(most, centre + 3 * deviation);
  return { value, lower, upper, out: value > upper || value < lower };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
