/** What is left out beyond the last chance, to the whole. */
const LEFT_OUT = 1e-12;

/** Written over by each call, and handed out only as a copy. */
let points = new Float64Array(256);

/**
 * Chances of 0, 1, 2 … where `mean` come and their variance is `factor` times as much: binomial below 1, Poisson at 1, negative
 * binomial above it, by the one recursion that these three share (Katz 1965). As many as matter.
 */
export function chancesOf(mean: number, factor: number): Float64Array {
  const slope = (factor - 1) / factor;
  const start = mean / factor;
  // from the likeliest outward, so that no chance is too small for a number where many are expected
  const top = Math.max(0, Math.floor(mean));
  let [first, last, sum] = [top, top, 1];
  const width = 64 + Math.ceil(mean + 12 * Math.sqrt(mean * Math.max(1, factor)) + 12 * factor);
  if (points.length < width + top) points = new Float64Array(2 * (width + top));
  points[top] = 1;
  for (let point = 1, count = top; count < points.length - 1; count += 1) {
    point *= (start + slope * count) / (count + 1);
    if (!(point > LEFT_OUT * sum)) break;
    last = count + 1;
    points[last] = point;
    sum += point;
  }
  for (let point = 1, count = top; count > 0; count -= 1) {
    point *= count / (start + slope * (count - 1));
    if (!(point > LEFT_OUT * sum)) break;
    first = count - 1;
    points[first] = point;
    sum += point;
  }
  const chances = new Float64Array(last + 1);
  for (let count = first; count <= last; count += 1) chances[count] = points[count]! / sum;
  return chances;
}
