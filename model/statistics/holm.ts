/**
 * Chances of several comparisons, each made as large as looking at all of them asks for: whoever calls those that are below
 * a level calls any falsely with no more than that chance, however the comparisons hang together (Holm 1979, Scandinavian
 * Journal of Statistics 6; R p.adjust). In the order in which they came.
 */
export function holm(chances: readonly number[]): readonly number[] {
  const order = chances.map((chance, place) => ({ chance, place })).sort((a, b) => a.chance - b.chance);
  const adjusted = new Array<number>(chances.length);
  let least = 0;
  for (const [rank, { chance, place }] of order.entries()) {
    least = Math.min(1, Math.max(least, chance * (chances.length - rank)));
    adjusted[place] = least;
  }
  return adjusted;
}
