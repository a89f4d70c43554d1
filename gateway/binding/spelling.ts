/** The known name that a misspelt one most likely means; undefined when none is near enough to be worth saying. */
export function likely(written: string, known: Iterable<string>): string | undefined {
  const wanted = plainly(written);
  let best: string | undefined;
  let least = Math.max(1, Math.floor(wanted.length / 3)) + 1;
  for (const name of known) {
    const distance = editDistance(wanted, plainly(name), least);
    if (distance < least) {
      least = distance;
      best = name;
    }
  }
  return best;
}

/** Letters and digits alone: `stop_device` and `StopDevice` are the same slip away from `stopDevice`. */
function plainly(name: string): string {
  return name
    .toLowerCase()
    .replace(/[-_\s]/g, '')
    .slice(0, 60);
}

/** Letters to add, drop, change or swap (optimal string alignment); `enough` as soon as it cannot be less. */
function editDistance(a: string, b: string, enough: number): number {
  if (Math.abs(a.length - b.length) >= enough) return enough;
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1];
      let cost = Math.min(above[column]! + 1, current[column - 1]! + 1, above[column - 1]! + (same ? 0 : 1));
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (swapped) cost = Math.min(cost, before[column - 2]! + 1);
      current.push(cost);
    }
    before = above;
    above = current;
  }
  return above[b.length]!;
}
