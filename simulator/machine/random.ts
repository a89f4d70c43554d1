/**
 * Random numbers of one concern, each in [0, 1). Each concern has its own stream, so that an option which silences
 * one of them does not shift another.
 */
export type Draw = () => number;

/**
 * A stream from a seed and a name: the generator sfc32 ("small fast counting", published by its author in the
 * public domain), started from a hash of both.
 */
export function stream(seed: number, concern: string): Draw {
  let a = mix(seed >>> 0, 0x9e3779b9);
  let b = mix(Math.floor(seed / 4_294_967_296) >>> 0, 0x243f6a88);
  let c = 0x85a308d3;
  for (let index = 0; index < concern.length; index += 1) c = mix(c, concern.charCodeAt(index));
  let counter = 1;
  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + sum) | 0;
    return (sum >>> 0) / 4_294_967_296;
  };
  for (let warm = 0; warm < 16; warm += 1) next();
  return next;
}

function mix(state: number, value: number): number {
  let mixed = Math.imul(state ^ value, 0x01000193);
  mixed ^= mixed >>> 15;
  mixed = Math.imul(mixed, 0x2c1b3c6d);
  return (mixed ^ (mixed >>> 13)) | 0;
}

export function uniform(draw: Draw, low: number, high: number): number {
  return low + (high - low) * draw();
}

/** Whole number in [low, high], both included. */
export function whole(draw: Draw, low: number, high: number): number {
  return low + Math.floor(draw() * (high - low + 1));
}

export function chance(draw: Draw, probability: number): boolean {
  return draw() < probability;
}

/** Standard normal, by Box and Muller's method. */
export function normal(draw: Draw): number {
  const radius = Math.sqrt(-2 * Math.log(1 - draw()));
  return radius * Math.cos(2 * Math.PI * draw());
}

/** Skewed time: `median` and the spread of its logarithm, kept within bounds. */
export function lognormal(draw: Draw, median: number, sigma: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, median * Math.exp(sigma * normal(draw))));
}

/** Time to the next of events that come at a mean distance. */
export function exponential(draw: Draw, mean: number): number {
  return -mean * Math.log(1 - draw());
}

/** One of a list, each as likely as its weight. */
export function pick<Item>(draw: Draw, items: readonly Item[], weight: (item: Item) => number): Item {
  const total = items.reduce((sum, item) => sum + weight(item), 0);
  let rest = draw() * total;
  for (const item of items) {
    rest -= weight(item);
    if (rest < 0) return item;
  }
  return items[items.length - 1] as Item;
}
