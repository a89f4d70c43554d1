/** A stream of chances from 0 to 1 that is the same every time, for simulations that must not depend on luck (mulberry32). */
export function chancesFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Moments of a Poisson stream within a time. */
export function poissonStream(chance: () => number, rate: number, time: number): number[] {
  const moments: number[] = [];
  let at = 0;
  for (;;) {
    at += -Math.log(1 - chance()) / rate;
    if (at >= time) return moments;
    moments.push(at);
  }
}

/** Of the standard normal distribution (Box and Muller). */
export function normalValue(chance: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());
}
