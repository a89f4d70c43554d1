/**
 * Mean squared error of told chances against what happened (Brier, Monthly Weather Review 1950): 0 is never wrong, 0.25 is
 * what ½ always gets. Undefined without any.
 */
export function brierScore(
  told: readonly { readonly chance: number; readonly happened: boolean }[],
): number | undefined {
  if (told.length === 0) return undefined;
  const squares = told.map(({ chance, happened }) => (chance - (happened ? 1 : 0)) ** 2);
  return squares.reduce((sum, square) => sum + square, 0) / told.length;
}

/**
 * The same where one of several was to be told, each with its share, as Brier has it: the squares of all classes are added,
 * so it lies between 0 and 2. A class that was not named has the share 0; shares may add up to less than 1, if the rest is said
 * to be nobody's. Undefined without any.
 */
export function brierScoreOfShares(
  told: readonly { readonly shares: ReadonlyMap<string, number>; readonly truth: string }[],
): number | undefined {
  if (told.length === 0) return undefined;
  const squares = told.map(({ shares, truth }) => {
    let sum = shares.has(truth) ? 0 : 1;
    for (const [name, share] of shares) sum += (share - (name === truth ? 1 : 0)) ** 2;
    return sum;
  });
  return squares.reduce((sum, square) => sum + square, 0) / told.length;
}

/** How much better a score is than a reference's: 1 is perfect, 0 no better, below 0 worse. Undefined if that one is perfect. */
export function brierSkill(score: number, reference: number): number | undefined {
  return reference > 0 ? 1 - score / reference : undefined;
}
