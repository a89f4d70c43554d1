import { describe, expect, it } from 'vitest';
import { causesSaid, keyPlaces, PATTERN, pieces, scaleOf } from '../../../dashboard/path/loss.ts';

describe('cartons lost as a bar', () => {
  it('has a pattern of its own for each cause', () => {
    const fills = Object.values(PATTERN).map(({ fill, dashed }) => `${fill}${dashed ?? ''}`);
    expect(new Set(fills).size).toBe(fills.length);
  });

  it('draws what was lost and never a length below zero', () => {
    const drawn = pieces(
      [
        { cause: 'slow', cartons: -15 },
        { cause: 'reject', cartons: 54 },
        { cause: 'stopped', cartons: 390 },
      ],
      0.27,
    );
    expect(drawn.map(({ cause }) => cause)).toEqual(['stopped', 'reject']);
    expect(drawn[1]!.from).toBeCloseTo(390 * 0.27);
  });

  it('fills the column with the largest, and stays short at the beginning of a shift', () => {
    expect(scaleOf([455, 60], 18_480, 123) * 455).toBeLessThanOrEqual(123);
    expect(scaleOf([2, 1], 18_480, 123) * 2).toBeLessThan(2);
    expect(scaleOf([], 0, 123)).toBe(123);
  });

  it('says what was made up as made up', () => {
    expect(
      causesSaid([
        { cause: 'slow', cartons: -15 },
        { cause: 'reject', cartons: 1 },
      ]),
    ).toBe('15 made up, 1 reject');
  });

  it('leaves off the key what finds no room', () => {
    const all = Object.keys(PATTERN) as (keyof typeof PATTERN)[];
    expect(keyPlaces(all, { right: 1840, left: 0, size: 22 })).toHaveLength(all.length);
    const few = keyPlaces(all, { right: 1840, left: 1400, size: 22 });
    expect(few.length).toBeLessThan(all.length);
    for (const { x } of few) expect(x).toBeGreaterThanOrEqual(1400);
  });
});
