import { describe, expect, it } from 'vitest';
import { handedDoubtful } from '../../../model/entries/handedDoubt.ts';

describe('a count of cartons handed over', () => {
  it('is doubted where it is further than a tenth from what was counted', () => {
    expect(handedDoubtful(99, 18_480)).toBe(true);
    expect(handedDoubtful(1_848, 18_480)).toBe(true);
    expect(handedDoubtful(184_800, 18_480)).toBe(true);
    expect(handedDoubtful(5_398, 5_412)).toBe(false);
    expect(handedDoubtful(900, 1_000)).toBe(false);
    expect(handedDoubtful(899, 1_000)).toBe(true);
  });

  it('is not doubted where nothing was counted', () => {
    expect(handedDoubtful(5_000, 0)).toBe(false);
  });
});
