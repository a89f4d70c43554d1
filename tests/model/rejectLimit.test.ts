import { describe, expect, it } from 'vitest';
import { rejectLimit } from '../../model/statistics/rejectLimit.ts';

describe('the limit of a batch', () => {
  it('follows from the wanted chance of a false call, exactly: two cartons without a past', () => {
    // with a = b = ½ the chances of 0, 1 and 2 of 2 are 3/8, 1/4 and 3/8
    expect(rejectLimit(2, 0, 0, 0.7).most).toBe(0);
    expect(rejectLimit(2, 0, 0, 0.7).byChance).toBeCloseTo(5 / 8, 12);
    expect(rejectLimit(2, 0, 0, 0.4).most).toBe(1);
    expect(rejectLimit(2, 0, 0, 0.4).byChance).toBeCloseTo(3 / 8, 12);
    expect(rejectLimit(2, 0, 0, 0.3)).toEqual({ most: 2, byChance: 0 });
  });

  it('is the binomial one where the past is very long, and wider where it is thin', () => {
    // binomial of 300 at 1 in 300: more than 5 come with 0.000567, more than 4 with 0.003568 (summed term by term)
    const terms = (most: number) => {
      let [term, below] = [(299 / 300) ** 300, 0];
      for (let k = 0; k <= most; k += 1) {
        below += term;
        term *= (300 - k) / (k + 1) / 299;
      }
      return 1 - below;
    };
    const long = rejectLimit(300, 1_000_000, 300_000_000, 1 / 1500);
    expect(long.most).toBe(5);
    expect(long.byChance).toBeCloseTo(terms(5), 6);
    expect(terms(4)).toBeGreaterThan(1 / 1500);
    expect(rejectLimit(300, 10, 3000, 1 / 1500).most).toBeGreaterThan(5);
  });
});
