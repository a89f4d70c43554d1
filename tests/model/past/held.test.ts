import { describe, expect, it } from 'vitest';
import { FALSE_ONCE_IN, held, type HeldRun, LOOKS } from '../../../model/past/held.ts';
import type { Instant } from '../../../model/units/units.ts';

/** Runs of 1,000 cartons each, one a day. */
function runs(counts: readonly number[], from = 0, more: Partial<HeldRun> = {}): HeldRun[] {
  return counts.map((count, day) => ({
    ...{ count, of: 1000, size: 'a', crew: 2, lot: null },
    from: (from + day) as Instant,
    to: (from + day + 1) as Instant,
    ...more,
  }));
}

/** Seven before, the last of them left out; made at the end of day 7. */
const before = runs([6, 7, 5, 6, 7, 6, 30]);
const at = 7 as Instant;
const judge = (after: readonly HeldRun[], others: readonly number[] = [], first = before) =>
  held({ measure: 'stops', at, runs: [...first, ...after], others: others as Instant[] });

describe('whether a change held', () => {
  it('[HE1] is told beyond chance only: fewer, with both rates and runs', () => {
    expect(judge(runs([1, 2, 1, 0], 7))).toEqual({
      measure: 'stops',
      verdict: 'fewer',
      before: { count: 37, of: 6000, runs: 6, lots: undefined },
      after: { count: 4, of: 4000, runs: 4, lots: undefined },
      chance: 1 / 210,
      why: undefined,
    });
    expect(judge(runs([16, 12, 11, 20], 7)).verdict).toBe('more');
  });

  it('[HE1] cannot be told where what came lies within chance, and is judged again later', () => {
    expect(judge(runs([6, 5, 7, 6], 7))).toMatchObject({
      verdict: 'cannotTell',
      why: { kind: 'chance', next: 8 },
    });
  });

  it('[HE1] cannot be told yet of too few runs, and says how many it takes', () => {
    expect(judge(runs([1, 2, 1], 7)).why).toEqual({ kind: 'tooFew', so: 3, needed: 4, lots: false });
    // with fewer before it takes more after for any order to be rare enough
    expect(judge(runs([1, 2, 1, 0], 7), [], before.slice(2)).why).toEqual({
      kind: 'tooFew',
      so: 4,
      needed: 8,
      lots: false,
    });
  });

  it('[HE1] is judged at its looks alone: a run more says nothing before the next', () => {
    expect(judge(runs([1, 2, 1, 0, 90, 90, 90], 7)).verdict).toBe('fewer');
    expect(judge(runs([1, 2, 1, 0, 90, 90, 90, 90], 7)).verdict).toBe('cannotTell');
  });

  it('[HE1] leaves out the run that it was made in, and the one before, which may be why it was made', () => {
    const madeIn = runs([50], 7);
    const answer = held({
      measure: 'stops',
      at: 7.5 as Instant,
      runs: [...before, ...madeIn, ...runs([1, 2, 1, 0], 8)],
      others: [],
    });
    expect(answer).toMatchObject({
      verdict: 'fewer',
      before: { count: 37, runs: 6 },
      after: { count: 4, runs: 4 },
    });
  });

  it('[HE1] holds runs against those of the same size and crew only', () => {
    expect(judge(runs([1, 2, 1, 0], 7, { size: 'b' })).why).toMatchObject({ kind: 'noneBefore' });
    expect(judge(runs([1, 2, 1, 0], 7, { crew: 4 })).why).toMatchObject({ kind: 'noneBefore' });
  });

  it('[HE1] counts all runs of one lot of board as one, as a lot makes its runs alike', () => {
    const lots = runs([6, 7, 5, 6, 7, 6, 30]).map((run, day) => ({ ...run, lot: `L${day}` }));
    const answer = judge(runs([1, 2, 1, 0], 7, { lot: 'new' }), [], lots);
    expect(answer).toMatchObject({
      verdict: 'cannotTell',
      before: { runs: 6, lots: 6 },
      after: { runs: 4, lots: 1 },
      why: { kind: 'tooFew', so: 1, needed: 4, lots: true },
    });
  });

  it('[HE1] ends with the next change at the station, and does not begin before the last one', () => {
    expect(judge(runs([1, 2, 1, 0], 7), [9]).why).toEqual({
      kind: 'changedAgain',
      so: 2,
      needed: 4,
      lots: false,
    });
    expect(judge(runs([1, 2, 1, 0], 7), [5]).why).toMatchObject({ kind: 'noneBefore' });
  });

  it('[HE1] says falsely that it changed anything, to either side, in one of so many changes at most', () => {
    const draw = drawsFrom(17);
    const said = { fewer: 0, more: 0, changes: 800 };
    for (let change = 0; change < said.changes; change += 1) {
      // levels of runs are uneven, far more so than by chance alone
      const all = Array.from({ length: 8 + LOOKS.at(-1)! }, () =>
        poisson(draw, 6 * Math.exp(1.2 * (draw() + draw() - 1))),
      );
      const verdicts = LOOKS.map(
        (look) => judge(runs(all.slice(8, 8 + look), 7), [], runs(all.slice(1, 8))).verdict,
      );
      for (const side of ['fewer', 'more'] as const) if (verdicts.includes(side)) said[side] += 1;
    }
    // 20 of 800 are expected at most; more than 34 come by chance once in a thousand such tests
    expect(said.fewer).toBeLessThanOrEqual(34);
    expect(said.more).toBeLessThanOrEqual(34);
    expect(FALSE_ONCE_IN).toBe(40);
  });
});

function poisson(draw: () => number, mean: number): number {
  const least = Math.exp(-mean);
  let [count, product] = [0, draw()];
  while (product > least) [count, product] = [count + 1, product * draw()];
  return count;
}

function drawsFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296;
  };
}
