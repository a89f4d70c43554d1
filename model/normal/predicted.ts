import { chancesOf } from './chances.ts';
import type { Levels } from './levels.ts';

/** How many a run brings in so many cartons, if it is as earlier ones were: on average, and in the middle `share` of such runs. */
export function predicted(
  levels: Levels,
  { of, uneven, share }: { readonly of: number; readonly uneven: number; readonly share: number },
): { readonly expected: number; readonly interval: { readonly lower: number; readonly upper: number } } {
  const points: number[] = [];
  levels.rates.forEach((rate, place) => {
    chancesOf(rate * of, uneven * (1 - rate)).forEach((chance, count) => {
      points[count] = (points[count] ?? 0) + levels.chances[place]! * chance;
    });
  });
  const each = (1 - share) / 2;
  return {
    expected: levels.mean * of,
    interval: { lower: least(points, each), upper: least(points, 1 - each) },
  };
}

/** The least count with more than the chance `below` of it or fewer. */
function least(points: readonly number[], below: number): number {
  let sum = 0;
  for (let count = 0; count < points.length; count += 1) {
    sum += points[count]!;
    if (sum > below) return count;
  }
  return points.length - 1;
}
