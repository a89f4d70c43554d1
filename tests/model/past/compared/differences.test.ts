import { describe, expect, it } from 'vitest';
import {
  answerable,
  differences,
  FALSE_ONCE_IN,
  type Question,
} from '../../../../model/past/compared/differences.ts';
import type { Counted } from '../../../../model/normal/evidence.ts';
import { drawsFrom } from '../../../../model/statistics/draws.ts';

/** Ten shifts of 8 h with stops about as even as chance; the same with two bad ones; none. */
const even = [3, 5, 4, 6, 4, 3, 5, 4, 2, 4].map((count) => ({ count, of: 8 }));
const uneven = [1, 12, 2, 3, 14, 2, 1, 3, 0, 2].map((count) => ({ count, of: 8 }));
const stops = (here: number, there: number, earlier: readonly Counted[] = even): Question => ({
  of: 'stops',
  here: { count: here, of: 5.5 },
  there: { count: there, of: 5.5 },
  earlier,
});
const rejects = (here: number, there: number): Question => ({
  of: 'rejects',
  here: { count: here, of: 24_000 },
  there: { count: there, of: 24_800 },
  earlier: [52, 61, 49, 70, 58, 66, 54, 60].map((count) => ({ count, of: 32_000 })),
});
const kinds = (questions: readonly Question[]) => differences(questions).map(({ kind }) => kind);

describe('whether two differ', () => {
  it('[RP12] 8 stops against 4 are not enough to tell them apart; 190 rejects against 52 are', () => {
    const verdicts = differences([stops(8, 4), rejects(190, 52)]);
    expect(verdicts[0]).toMatchObject({ kind: 'notEnough' });
    expect(verdicts[1]).toMatchObject({ kind: 'real', more: 'here' });
    expect(differences([rejects(52, 190)])[0]).toMatchObject({ kind: 'real', more: 'there' });
    expect(answerable(verdicts)).toBe(2);
  });

  it('[RP12] what is a difference where shifts are alike is none where they are as uneven among themselves', () => {
    expect(kinds([stops(19, 2)])).toEqual(['real']);
    expect(kinds([stops(19, 2, uneven)])).toEqual(['notEnough']);
  });

  it('[RP12] one of many comparisons has to be rarer by itself than if it were the only one', () => {
    const alone = differences([stops(17, 4)]);
    expect(alone[0]!.kind).toBe('real');
    expect(kinds([stops(17, 4), ...Array.from({ length: 9 }, () => stops(4, 4))])[0]).toBe('notEnough');
  });

  it('[RP12] too few earlier shifts, or too little in them, tell nothing, and say how few', () => {
    expect(differences([stops(19, 2, even.slice(0, 7))])).toEqual([
      { kind: 'cannotTell', shifts: 7, counted: 30 },
    ]);
    const rare = even.map(({ of }, place) => ({ of, count: place % 2 }));
    expect(differences([stops(19, 2, rare)])).toEqual([{ kind: 'cannotTell', shifts: 10, counted: 5 }]);
    // what cannot be told is no comparison
    expect(answerable(differences([stops(19, 2, rare), stops(8, 4)]))).toBe(1);
  });

  it('[RP12] without any time in one of them there is nothing to ask, and without any stop no difference', () => {
    expect(differences([{ ...stops(0, 4), here: { count: 0, of: 0 } }])).toEqual([{ kind: 'nothing' }]);
    expect(kinds([stops(0, 0)])).toEqual(['notEnough']);
  });

  it(`[RP12] of shifts that are alike, but uneven, no more than one look in ${FALSE_ONCE_IN} calls any difference`, () => {
    const draw = drawsFrom(29);
    const looks = 1500;
    let called = 0;
    for (let look = 0; look < looks; look += 1) {
      // stops whose rate is another in each shift (variance 1.4, 2 and 3.5 times the mean), five stations’ rejects likewise
      const questions = [5, 3, 12, 20, 4, 60, 9].map((mean, place): Question => {
        const factor = [1.4, 3.5, 2, 1, 2, 3.5, 1][place]!;
        const count = () => unevenCount(mean, factor, draw);
        const of = place < 2 ? 7 : 12_000;
        const earlier = Array.from({ length: 12 }, () => ({ count: count(), of }));
        return {
          of: place < 2 ? 'stops' : 'rejects',
          here: { count: count(), of },
          there: { count: count(), of },
          earlier,
        };
      });
      if (differences(questions).some(({ kind }) => kind === 'real')) called += 1;
    }
    expect(called / looks).toBeLessThanOrEqual(1 / FALSE_ONCE_IN);
  });
});

/** A Poisson count of a gamma rate: its variance is `factor` times its mean. */
function unevenCount(mean: number, factor: number, draw: () => number): number {
  const rate = factor > 1 ? gammaOf(mean / (factor - 1), draw) * (factor - 1) : mean;
  let [count, passed] = [0, -Math.log(1 - draw())];
  while (passed < rate) {
    count += 1;
    passed -= Math.log(1 - draw());
  }
  return count;
}

/** A gamma number of a shape above 1 (Marsaglia and Tsang 2000). */
function gammaOf(shape: number, draw: () => number): number {
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = Math.sqrt(-2 * Math.log(1 - draw())) * Math.cos(2 * Math.PI * draw());
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - draw()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}
