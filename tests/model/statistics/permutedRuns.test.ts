import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choose, permutedRuns, type Unit, waysOf } from '../../../model/statistics/permutedRuns.ts';

const of1000 = (...counts: readonly number[]): Unit[] => counts.map((count) => ({ count, of: 1000 }));

describe('a permutation test over runs', () => {
  it('counts in how many of all orders as few came after, by hand', () => {
    // of ten pairs that may have been the two after, only the pair that was has as few as 1 in it
    expect(permutedRuns([{ before: of1000(5, 6, 7), after: of1000(0, 1) }])).toEqual({ fewer: 0.1, more: 1 });
    // 1 and 5 came after; as few came of (0,1) (0,5) (1,5) alone
    expect(permutedRuns([{ before: of1000(0, 7, 8), after: of1000(1, 5) }]).fewer).toBe(0.3);
  });

  it('says of the tea tasting of Fisher 1935 that all eight right come once in 70', () => {
    const { more } = permutedRuns([{ before: of1000(0, 0, 0, 0), after: of1000(1, 1, 1, 1) }]);
    expect(more).toBeCloseTo(1 / 70, 12);
  });

  it('holds only what is alike against one another: what lies between strata says nothing', () => {
    const strata = [
      { before: of1000(10, 11), after: of1000(10, 11) },
      { before: of1000(1, 2), after: of1000(1, 2) },
    ];
    expect(waysOf(strata)).toBe(36);
    const { fewer, more } = permutedRuns(strata);
    expect(fewer).toBeGreaterThan(0.5);
    expect(more).toBe(fewer);
  });

  it('draws where there are too many orders, and then tells no chance of 0', () => {
    const { fewer } = permutedRuns([
      { before: of1000(...Array(20).fill(9)), after: of1000(...Array(20).fill(0)) },
    ]);
    expect(choose(40, 20)).toBe(137_846_528_820);
    expect(fewer).toBe(1 / 10_000);
  });

  it('tells the two sides apart: of one order both cannot be rare', () => {
    const units = fc.array(fc.record({ count: fc.nat(30), of: fc.integer({ min: 1, max: 5000 }) }), {
      minLength: 1,
      maxLength: 5,
    });
    fc.assert(
      fc.property(units, units, (before, after) => {
        const { fewer, more } = permutedRuns([{ before, after }]);
        expect(fewer + more).toBeGreaterThanOrEqual(1);
      }),
    );
  });
});
