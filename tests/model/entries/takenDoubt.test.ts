import { describe, expect, it } from 'vitest';
import { takenDoubtful } from '../../../model/entries/takenDoubt.ts';

describe('a count of cartons taken out', () => {
  it('is doubted where it is more than the pockets of two machines hold', () => {
    expect([1, 26, 60].map(takenDoubtful)).toEqual([false, false, false]);
    expect([61, 400].map(takenDoubtful)).toEqual([true, true]);
  });
});
