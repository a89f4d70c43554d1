/** Whole parts of one carton: shares are told to a tenth of a percent. */
export const PARTS = 1000;

/**
 * Weights as whole parts that add up to exactly `total`, by largest remainder; what is equal goes to the earlier one.
 * Weights are not negative, and their sum is above zero.
 */
export function wholeParts(weights: readonly number[], total: number): number[] {
  let sum = 0;
  for (const weight of weights) sum += weight;
  const exact = weights.map((weight) => (weight / sum) * total);
  const whole = exact.map(Math.floor);
  let left = total;
  for (const part of whole) left -= part;
  const order = exact.map((part, place) => ({ rest: part - Math.floor(part), place }));
  order.sort((a, b) => b.rest - a.rest || a.place - b.place);
  for (let n = 0; n < left; n += 1) whole[order[n % order.length]!.place]! += 1;
  return whole;
}
