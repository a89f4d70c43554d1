/**
 * The least whole number from 0 on for which a condition holds that, once it holds, holds for every larger one too. Looked
 * for from `near` outward by steps that double, then by halving, so a good guess is found at once and a bad one soon.
 */
export function leastCount(holds: (count: number) => boolean, near = 0): number {
  const start = Math.max(0, Math.floor(near));
  let step = 1;
  let [fails, good] = [-1, start];
  if (holds(start)) {
    let place = start - step;
    while (place >= 0 && holds(place)) {
      good = place;
      step *= 2;
      place -= step;
    }
    fails = Math.max(-1, place);
  } else {
    fails = start;
    good = start + step;
    while (!holds(good)) {
      fails = good;
      step *= 2;
      good += step;
    }
  }
  return halved(holds, fails, good);
}

function halved(holds: (count: number) => boolean, fails: number, good: number): number {
  while (good - fails > 1) {
    const middle = Math.floor((good + fails) / 2);
    if (holds(middle)) good = middle;
    else fails = middle;
  }
  return good;
}
