import { describe, expect, it } from 'vitest';
import { type DoubtAsked, numberDoubt } from '../../../model/setpoints/doubt.ts';

const guide: DoubtAsked = {
  adjustment: { number: '5.3', min: 30, max: 40, decimals: 1 },
  book: 34,
  was: 30.5,
  ranAt: 34,
  others: [
    { number: '5.2', book: 36.5 },
    { number: '5.3', book: 34 },
  ],
};
const wide: DoubtAsked = { ...guide, adjustment: { number: '5.3', min: -60, max: 400, decimals: 1 } };

describe('a number that is asked about', () => {
  it('[SH7] off the scale is asked with the digits the other way round, where those are on it', () => {
    expect(numberDoubt(43, guide)).toEqual({ kind: 'offScale', likely: 34 });
    expect(numberDoubt(99, guide)).toEqual({ kind: 'offScale', likely: undefined });
  });

  it('[SH7] a point forgotten and a sign are slips', () => {
    expect(numberDoubt(340, wide)).toEqual({ kind: 'slip', likely: 34, of: undefined });
    expect(numberDoubt(-34, wide)).toEqual({ kind: 'slip', likely: 34, of: undefined });
  });

  it('[SH7] the number of another line of the sheet is asked about with that line', () => {
    const far: DoubtAsked = { ...guide, others: [{ number: '5.2', book: 38 }] };
    expect(numberDoubt(38, far)).toEqual({ kind: 'slip', likely: 34, of: '5.2' });
  });

  it('[SH7] far from the book where nobody ran it is asked about, and where it ran well it is not', () => {
    const long: DoubtAsked = {
      ...guide,
      adjustment: { number: '5.3', min: 0, max: 60, decimals: 1 },
      others: [],
    };
    expect(numberDoubt(37.7, long)).toEqual({ kind: 'far', likely: undefined });
    expect(numberDoubt(37.7, { ...long, ranWell: { from: 33, to: 38 } })).toBeUndefined();
    expect(numberDoubt(35.5, long)).toBeUndefined();
  });

  it('[SH7] finer than the scale is read is asked about', () => {
    expect(numberDoubt(34.25, guide)).toEqual({ kind: 'fine', likely: 34.3 });
  });

  it('[SH7] the book, where it was and where it ran last are never asked about', () => {
    for (const value of [34, 30.5]) expect(numberDoubt(value, guide)).toBeUndefined();
    expect(numberDoubt(38, { ...guide, ranAt: 38, others: [{ number: '5.2', book: 38 }] })).toBeUndefined();
  });

  it('[SH7] without a book for the size nothing but the scale is asked about', () => {
    expect(numberDoubt(39.9, { ...guide, book: undefined })).toBeUndefined();
    expect(numberDoubt(43, { ...guide, book: undefined })).toEqual({ kind: 'offScale', likely: undefined });
  });
});
