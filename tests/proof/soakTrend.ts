/** A figure at a moment; hours since the first reading. */
export interface Point {
  readonly hour: number;
  readonly value: number;
}

/** The middle one; undefined of nothing. */
export function median(list: readonly number[]): number | undefined {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)];
}

/** Rise per hour by least squares; undefined where all moments are one. */
export function slope(points: readonly Point[]): number | undefined {
  const hour = mean(points.map((point) => point.hour));
  const value = mean(points.map((point) => point.value));
  const spread = points.reduce((sum, point) => sum + (point.hour - hour) ** 2, 0);
  if (!(spread > 0)) return undefined;
  return points.reduce((sum, point) => sum + (point.hour - hour) * (point.value - value), 0) / spread;
}

/** A socket that is just being opened or closed when it is counted. */
const BY_CHANCE = 2;

/**
 * True when the last third of the readings lies higher than the first, by the middle one of each and by more than a moment
 * may add. What is lost once in each cut is dozens more by then.
 */
export function grew(values: readonly number[]): boolean {
  const third = Math.ceil(values.length / 3);
  const first = median(values.slice(0, third));
  const last = median(values.slice(-third));
  return first === undefined || last === undefined || last - first > BY_CHANCE;
}

function mean(list: readonly number[]): number {
  return list.reduce((a, b) => a + b, 0) / list.length;
}
