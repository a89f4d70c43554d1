import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ActingAdjustment,
  type EstimateAsked,
  estimate,
  type KnownSetting,
  type SettledStretch,
} from '../../../model/setpoints/estimate.ts';

const guide: ActingAdjustment = { number: '5.2', min: 0, max: 40, step: 0.1, book: 20, own: true };
const folder: ActingAdjustment = { ...guide, number: '5.1', book: 10 };

const typed = (value: number): KnownSetting => ({ value, known: 'typed' });

/** A run of one stretch of 10,000 cartons; `spoiled` and a tenth as many stops. */
function run(
  name: number,
  at: readonly (number | undefined)[],
  spoiled: number,
  lot: string | null = null,
): SettledStretch {
  return {
    ...{ run: `run ${name}`, lot, parts: null, cartons: 10_000, spoiled, stops: Math.round(spoiled / 10) },
    settings: at.map((value) => (value === undefined ? undefined : typed(value))),
  };
}

function asked(
  adjustments: readonly ActingAdjustment[],
  stretches: readonly SettledStretch[],
): EstimateAsked {
  return { adjustments, stretches, cartonsPerRun: 12_000, lostPerReject: 1, lostPerStop: 40 };
}

/** What a run spoils at most, and what it would at a number that far off 20.8. */
const spoiledAt = (at: number) => Math.round(30 * (1 + ((at - 20.8) / 0.8) ** 2));

const wideTried = [19.6, 20, 20, 20.4, 20.8, 21.2, 21.6, 20, 20.4, 20.8, 21.2, 22, 20.2, 20.6, 21];
const tried = wideTried.map((at, place) => run(place, [at], spoiledAt(at)));

describe('which number is best', () => {
  it('[SB1] is found where a station ran best over runs, though the book says another', () => {
    const [one] = estimate(asked([guide], tried));
    expect(Math.abs(one!.recommended! - 20.8)).toBeLessThanOrEqual(0.3);
    expect(one!.range90!.from).toBeLessThanOrEqual(20.8);
    expect(one!.range90!.to).toBeGreaterThanOrEqual(20.8);
    expect(one!.range90!.from).toBeGreaterThan(20);
    expect(one).toMatchObject({ runs: 15, settings: 10, lots: 0 });
    expect(one!.besideBook!.offset).toBeCloseTo(0.8, 0);
  });

  it('[SB1] is the same each time it is asked', () => {
    expect(estimate(asked([guide], tried))).toEqual(estimate(asked([guide], tried)));
  });

  it('[SB1] is found within runs too: a move in the same run, of the same lot, is held against itself', () => {
    // each run has a level of its own, far wider than what the guide does
    const levels = [0.4, 2.2, 0.7, 1.5, 0.5, 2.6, 0.9, 1.3];
    const within = levels.flatMap((level, place) => {
      const half = (at: number) => ({ ...run(place, [at], level * spoiledAt(at)), stops: 0 });
      return place % 2 === 0 ? [half(20), half(20.8)] : [half(21.6), half(20.8)];
    });
    const [one] = estimate(asked([guide], within));
    expect(Math.abs(one!.recommended! - 20.8)).toBeLessThanOrEqual(0.3);
  });

  it('[SB1] what another lot of board makes worse is not laid on the number that stood then', () => {
    // a bad lot, four times as many spoiled, came while the guide stood at its best
    const bad = tried.map((one, place) =>
      place % 3 === 1
        ? { ...one, lot: 'B', spoiled: 4 * one.spoiled }
        : { ...one, lot: place % 2 === 0 ? 'A' : 'C' },
    );
    const [one] = estimate(asked([guide], bad));
    expect(Math.abs(one!.recommended! - 20.8)).toBeLessThanOrEqual(0.5);
    expect(one!.lots).toBe(3);
  });

  it('[SB2] what is recommended stands on the scale, in its range, and no farther beyond what was tried than the scale’s usual width', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 150, max: 250 }), fc.integer({ min: 0, max: 200 })), {
          minLength: 3,
          maxLength: 8,
        }),
        (rows) => {
          const narrow = { ...guide, min: 15, max: 25, step: 0.5 };
          const stretches = rows.map(([at, spoiled], place) => run(place, [Math.round(at / 5) / 2], spoiled));
          const [one] = estimate(asked([narrow], stretches));
          if (one!.recommended === undefined) return;
          expect(one!.recommended * 2).toBe(Math.round(one!.recommended * 2));
          for (const number of [one!.recommended, one!.range90?.from, one!.range90?.to, one!.teaches?.to])
            if (number !== undefined) {
              expect(number).toBeGreaterThanOrEqual(15);
              expect(number).toBeLessThanOrEqual(25);
            }
          const at = one!.marks.map((mark) => mark.at);
          expect(one!.recommended).toBeGreaterThanOrEqual(Math.min(...at) - 5);
          expect(one!.recommended).toBeLessThanOrEqual(Math.max(...at) + 5);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('[SB2] lies away from the side that costs much more', () => {
    const cliff = (at: number) =>
      at > 20.5 ? Math.round(30 * (1 + 4 * (at - 20.5))) : Math.round(30 * (1 + 0.3 * (20.5 - at)));
    const [one] = estimate(
      asked(
        [guide],
        wideTried.map((at, place) => run(place, [at], cliff(at))),
      ),
    );
    expect(one!.recommended!).toBeLessThanOrEqual(20.5);
  });

  it('[SB3] where people moved it to counts beside what was counted, and where they left it less', () => {
    // nothing was ever spoiled: only what people did is known
    const moved = [20.9, 21.1, 20.8, 21, 20.9, 21.2].map((at, place) => run(place, [at], 0));
    const [one] = estimate(asked([guide], moved));
    expect(one!.recommended!).toBeGreaterThan(20.5);
    const tapped = moved.map((stretch) => ({
      ...stretch,
      settings: [{ value: 20, known: 'confirmed' as const }],
    }));
    const [left] = estimate(asked([guide], tapped));
    expect(left!.besideBook).toBeUndefined();
    expect(left!.sure).toBe('neverVaried');
  });

  it('[SB3] other sizes move it a little, and only where little is known of its own', () => {
    const few = [20, 20.3, 20.1].map((at, place) => run(place, [at], 5));
    const others = {
      '5.2': [
        { offset: 1.5, spread: 0.2 },
        { offset: 1.6, spread: 0.2 },
      ],
    };
    const offset = (
      stretches: readonly SettledStretch[],
      otherSizes: NonNullable<EstimateAsked['otherSizes']>,
    ) => estimate({ ...asked([guide], stretches), otherSizes })[0]!.besideBook!.offset;
    const byFew = offset(few, others) - offset(few, {});
    const byMany = offset(tried, others) - offset(tried, {});
    expect(byFew).toBeGreaterThan(0.05);
    expect(byFew).toBeLessThan(1);
    expect(Math.abs(byMany)).toBeLessThan(byFew);
  });
});

describe('how sure a number is', () => {
  it('[SB4] nobody can say it by two runs, and from many cartons no more than from few', () => {
    const two = [run(1, [20], 50), run(2, [21], 20)];
    expect(estimate(asked([guide], two))[0]).toMatchObject({
      sure: 'cannotSay',
      recommended: undefined,
      range90: undefined,
    });
    const many = two.map((one) => ({ ...one, cartons: 500_000, spoiled: 50 * one.spoiled }));
    expect(estimate(asked([guide], many))[0]!.sure).toBe('cannotSay');
  });

  it('[SB4] where it was never varied it ran well there, which says nothing of elsewhere', () => {
    const same = Array.from({ length: 20 }, (_, place) => run(place, [20.5], 30));
    expect(estimate(asked([guide], same))[0]).toMatchObject({
      ...{ sure: 'neverVaried', recommended: 20.5, range90: undefined, settings: 1, runs: 20 },
      ranWell: { from: 20.5, to: 20.5 },
    });
  });

  it('[SB4] it is surer by more runs at more settings on both sides', () => {
    expect(estimate(asked([guide], tried.slice(0, 4)))[0]!.sure).toBe('thin');
    expect(estimate(asked([guide], tried))[0]!.sure).toBe('sure');
    // as many runs, but all below what is best
    const below = tried.map((_, place) =>
      run(place, [19 + (place % 5) * 0.3], spoiledAt(19 + (place % 5) * 0.3)),
    );
    expect(estimate(asked([guide], below))[0]!.sure).not.toBe('sure');
  });

  it('[SB4] without any run, or without a setting that anybody knows, nothing is said', () => {
    expect(estimate(asked([guide], []))[0]).toMatchObject({
      sure: 'cannotSay',
      runs: 0,
      marks: [],
      teaches: undefined,
    });
    const unknown = Array.from({ length: 8 }, (_, place) => run(place, [undefined], 30));
    expect(estimate(asked([guide], unknown))[0]).toMatchObject({
      sure: 'cannotSay',
      recommended: undefined,
      runs: 0,
    });
  });
});

describe('two that cannot be told apart', () => {
  it('[SB5] are named where they always moved together, and neither is said to be sure', () => {
    const both = wideTried.map((at, place) => run(place, [at - 10, at], spoiledAt(at)));
    const [one, two] = estimate(asked([folder, guide], both));
    expect([one!.togetherWith, two!.togetherWith]).toEqual([['5.2'], ['5.1']]);
    expect([one!.sure, two!.sure]).toEqual(['thin', 'thin']);
  });

  it('[SB5] are not named where each moved by itself', () => {
    const apart = wideTried.map((at, place) => run(place, [10 + (place % 4) * 0.3, at], spoiledAt(at)));
    for (const one of estimate(asked([folder, guide], apart))) expect(one.togetherWith).toEqual([]);
  });
});

describe('what would teach most', () => {
  it('[SB6] is a small change, to the side that was not tried', () => {
    const below = [20, 19.2, 20, 19.4, 20, 20, 19.6, 20, 19.2, 19.6].map((at, place) => ({
      ...run(place, [at], spoiledAt(at)),
      settings: [{ value: at, known: 'confirmed' as const }],
    }));
    const [one] = estimate(asked([guide], below));
    expect(one!.teaches!.why).toBe('otherSide');
    expect(one!.teaches!.to).toBeGreaterThan(20);
    expect(one!.teaches!.to).toBeLessThanOrEqual(21);
  });

  it('[SB6] is said of what was never varied, and not of what is sure', () => {
    const same = Array.from({ length: 6 }, (_, place) => run(place, [20], 30));
    expect(estimate(asked([guide], same))[0]!.teaches!.why).toBe('neverVaried');
    expect(estimate(asked([guide], tried))[0]!.teaches).toBeUndefined();
  });
});

describe('what being off costs', () => {
  it('[SB7] is told where it was tried or a little beyond, least at what is recommended, with its interval', () => {
    const [one] = estimate(asked([guide], tried));
    const least = one!.cost.reduce((best, at) => (at.lostPerRun < best.lostPerRun ? at : best));
    expect(Math.abs(least.at - one!.recommended!)).toBeLessThanOrEqual(0.1);
    for (const { rejectsPerThousand, low, high } of one!.cost) {
      expect(low).toBeLessThanOrEqual(rejectsPerThousand);
      expect(high).toBeGreaterThanOrEqual(low);
    }
    expect(one!.cost[0]!.at).toBeGreaterThan(18.5);
    expect(one!.cost.at(-1)!.at).toBeLessThan(23.1);
    // a usual run at the best number spoils three in a thousand, and stops a tenth as often
    expect(least.rejectsPerThousand).toBeGreaterThan(2);
    expect(least.rejectsPerThousand).toBeLessThan(4.5);
    expect(least.lostPerRun).toBeCloseTo(12 * (least.rejectsPerThousand + 40 * least.stopsPerThousand), 6);
  });

  it('[SB7] settings at which the station ran no worse than usual stand beside one another', () => {
    const [one] = estimate(asked([guide], tried));
    expect(one!.ranWell!.from).toBeGreaterThanOrEqual(20.2);
    expect(one!.ranWell!.to).toBeLessThanOrEqual(21.6);
    expect(one!.marks.find(({ at }) => at === 20)).toEqual({ at: 20, runs: 3, rejectsPerThousand: 6 });
  });
});
