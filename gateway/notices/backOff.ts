/** How long it is waited before another try. Milliseconds. */
export interface BackOff {
  readonly first: number;
  readonly most: number;
}

/**
 * The wait after so many tries: twice as long each time, up to the most, of which a half is chance (0 to 1), so that
 * what failed together does not come again together. Not before the receiver asked, and that no longer than the most.
 */
export function waitAfter(tries: number, { first, most }: BackOff, chance: number, asked = 0): number {
  const whole = Math.min(most, first * 2 ** Math.min(tries - 1, 40));
  return Math.round(Math.max(whole * (0.5 + chance / 2), Math.min(asked, most)));
}
