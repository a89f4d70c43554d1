/**
 * Where a function that rises from below 0 at `low` to above 0 at `high` crosses 0, to the last digits of a number.
 * Chandrupatla's method (1997, from memory): inverse quadratic steps where they are safe, halving elsewhere; the crossing
 * stays enclosed, so it always ends. Values may be infinite at the ends.
 */
export function rootBetween(f: (x: number) => number, low: number, high: number): number {
  let [a, b, c] = [high, low, low];
  let [fa, fb, fc] = [f(a), f(b), f(b)];
  let share = 0.5;
  for (;;) {
    const x = a + share * (b - a);
    const fx = f(x);
    if (Math.sign(fx) === Math.sign(fa)) [c, fc] = [a, fa];
    else [c, fc, b, fb] = [b, fb, a, fa];
    [a, fa] = [x, fx];
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const near = (2 * Number.EPSILON * Math.abs(best) + 1e-300) / Math.abs(b - a);
    if (near > 0.5 || fa === 0 || fb === 0) return fa === 0 ? a : fb === 0 ? b : best;
    share = Math.min(1 - near, Math.max(near, stepShare(a, b, c, fa, fb, fc)));
  }
}

/** The share of the way from a to b to try next. */
function stepShare(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const place = (a - b) / (c - b);
  const height = (fa - fb) / (fc - fb);
  if (!(height * height < place && (1 - height) ** 2 < 1 - place)) return 0.5;
  const share =
    ((fa / (fb - fa)) * fc) / (fb - fc) + ((((c - a) / (b - a)) * fa) / (fc - fa)) * (fb / (fc - fb));
  return Number.isFinite(share) ? share : 0.5;
}

/** The crossing of a function that rises all along, looked for from `start` outward by steps that double. */
export function rootNear(f: (x: number) => number, start: number): number {
  let step = 1;
  if (f(start) > 0) {
    let low = start - step;
    while (f(low) > 0) {
      step *= 2;
      low -= step;
    }
    return rootBetween(f, low, low + step);
  }
  let high = start + step;
  while (f(high) < 0) {
    step *= 2;
    high += step;
  }
  return rootBetween(f, high - step, high);
}
