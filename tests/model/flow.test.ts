import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FlowTold, flowTold } from '../../model/fold/flow.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { changes, type Rows, smallLine } from './smallLine.ts';
import { HandWorked, PASSAGE } from './handWorked.ts';

/** A line that has run long enough for its pockets to be known: four cartons lie in them, and one pocket is at the check. */
const settled = (first = {}) => new HandWorked(first).run(PASSAGE);

function expectAddsUp([picked, good, rejected, crushed, pockets, unaccounted]: FlowTold): void {
  expect(picked).toBe(good + rejected + crushed + pockets! + unaccounted!);
  // one in each place from the pick to the check
  expect(pockets).toBeGreaterThanOrEqual(0);
  expect(pockets).toBeLessThanOrEqual(5);
}

describe('blanks and cartons', () => {
  it('[BA1] blanks picked are good, rejected, crushed or in a pocket, and nothing else is left', () => {
    const worked = settled();
    expect(worked.told).toEqual([11, 7, 0, 0, 4, 0]);
    worked.run(2, 'rejectOpen').run(3, 'rejectEmpty').run(5);
    expect(worked.told).toEqual([21, 12, 5, 0, 4, 0]);
  });

  it('[BA1] a missed pick is no blank, and a line that runs empty has none in its pockets', () => {
    const worked = settled().run(1, 'good', false).run(3);
    expect(worked.told).toEqual([14, 11, 0, 0, 3, 0]);
    worked.run(4, 'good', false);
    expect(worked.told).toEqual([14, 14, 0, 0, 0, 0]);
  });

  it('[BA1] what is picked and counted in another mode is in the balance as well', () => {
    const worked = settled();
    worked.tell([[worked.second, 'mode', 4]]).run(3);
    expect(worked.told).toEqual([14, 10, 0, 0, 4, 0]);
    expect(worked.fold.state.shift.account.good).toBe(7);
  });

  it('[BA1] a line without a counter of blanks has no balance', () => {
    expect(new LineFold(smallLine()).state.flow).toBeNull();
  });

  it('[BA2] a pocket that a hand has emptied is unaccounted for once a whole passage did not bring the carton', () => {
    const worked = settled();
    worked.pockets[2] = 0;
    // two cycles to the check, and in the third it has passed it
    worked.run(3 + PASSAGE - 1);
    expect(worked.told).toEqual([24, 19, 0, 0, 5, 0]);
    worked.run(1);
    expect(worked.told).toEqual([25, 20, 0, 0, 4, 1]);
    worked.run(100);
    expect(worked.unaccounted).toBe(1);
  });

  it('[BA2] a carton closed by hand that joins later makes the unaccounted one less, also below zero', () => {
    const worked = settled().run(1, 'good', false);
    worked.pockets[4] = 1;
    worked.run(5 + PASSAGE);
    expect([worked.lying, worked.unaccounted]).toEqual([4, -1]);
    expectAddsUp(worked.told);
  });

  it('[BA2] a carton counted as crushed where it lay leaves nothing open', () => {
    const worked = settled();
    // in the pockets of fold, which are those 2 and 1 from the check
    worked.pockets[2] = 0;
    worked.count('crushed', 1);
    worked.show('crushed').run(PASSAGE);
    expect(worked.told).toEqual([22, 17, 0, 1, 4, 0]);
  });

  it('[BA2] cartons crushed in one zone and counted in another are in no balance at any time', () => {
    const worked = settled();
    worked.pockets[1] = 0;
    worked.pockets[2] = 0;
    worked.count('crushedPick', 2);
    worked.show('crushedPick');
    for (let n = 0; n < 3 * PASSAGE; n += 1) expect(worked.run(1).unaccounted).toBe(0);
    expect(worked.told.slice(3)).toEqual([2, 4, 0]);
  });

  it('[BA2] more counted as crushed than lay there is below zero when no carton turned up', () => {
    const worked = settled();
    worked.pockets[1] = 0;
    worked.count('crushed', 3);
    worked.show('crushed').run(3 * PASSAGE);
    expect([worked.lying, worked.told[4], worked.unaccounted]).toEqual([4, 4, -2]);
  });

  it('[BA2] a reverse jog brings cartons back, and each is counted once', () => {
    const worked = settled().jog(-3);
    expect(worked.unaccounted).toBe(0);
    worked.jog(3);
    for (let n = 0; n < 3 * PASSAGE; n += 1) expect(worked.run(1).unaccounted).toBe(0);
    expect(worked.told[4]).toBe(worked.lying);
  });

  it('[BA2] a reverse jog over the end of the counter is a few cycles back, and not all of them on', () => {
    const worked = settled({ cycles: 2 ** 32 - PASSAGE });
    expect(worked.shown.cycles).toBe(2 ** 32);
    worked.shown.cycles = 0;
    worked.show('cycles');
    worked.shown.cycles = 2 ** 32 - 1;
    worked.pockets.unshift(0);
    worked.show('cycles');
    expect(worked.unaccounted).toBe(0);
  });
});

/** Jogs on and back by so many cycles, where the cycle counter is about to roll over. */
const jogs = fc.array(
  fc.integer({ min: -5, max: 8 }).filter((cycles) => cycles !== 0),
  { maxLength: 30 },
);

it('[BA2] [AT4] however it is turned over the end of its counter, cycles are as many as the pockets moved on', () => {
  fc.assert(
    fc.property(jogs, fc.integer({ min: 1, max: 12 }), (moves, before) => {
      const wraps = 2 ** 32;
      const worked = settled({ cycles: wraps - PASSAGE - before });
      let at = wraps - before;
      for (const cycles of moves) {
        // at zero a counter that was turned back looks as one that was reset
        at += at + cycles === wraps ? cycles + Math.sign(cycles) : cycles;
        worked.shown.cycles = at % wraps;
        worked.show('cycles');
        worked.second += 2;
      }
      expect(worked.fold.state.attribution.passes.cycles).toBe(at - wraps + before + PASSAGE);
    }),
  );
});

describe('what hands took out, as people enter it', () => {
  it('[BA4] is a record of its own, and changes no counted figure', () => {
    const worked = settled();
    worked.pockets[2] = 0;
    worked.run(20);
    const before = structuredClone(worked.fold.state.flow);
    const entry = {
      id: 'e-1',
      at: 0,
      author: { kind: 'position', position: 'front' },
      kind: 'takenOut',
      cartons: 1,
      why: 'sample',
    };
    const events = worked.fold.take(changes(worked.line, [[worked.second, 'entry', JSON.stringify(entry)]]));
    expect(events).toMatchObject([{ kind: 'Entered', entry }]);
    expect(worked.fold.state.flow).toEqual(before);
  });
});

describe('what counters tell of the balance', () => {
  it('[BA2] two cycles at once leave nothing open', () => {
    const worked = settled();
    worked.turn();
    worked.turn();
    worked.show('cycles', 'good', 'picked');
    expect(worked.told).toEqual([13, 9, 0, 0, 4, 0]);
    expect(worked.run(3 * PASSAGE).told).toEqual([46, 42, 0, 0, 4, 0]);
  });

  it.each([
    ['twenty times a cycle', 0.05],
    ['four times a cycle', 0.25],
    ['about twice a cycle', 0.51],
    ['about once a cycle', 0.98],
    ['less than once a cycle', 1.7],
  ])('[BA2] counters that are looked at %s, all together, leave nothing open', (_, every) => {
    const worked = new HandWorked();
    const begun = worked.second;
    let next = every;
    for (let cycle = 0; cycle < 400; cycle += 1) {
      const deeds: readonly (readonly [number, () => void])[] = [
        [cycle, () => worked.advance()],
        [cycle + 0.1, () => (cycle % 37 === 0 ? undefined : worked.pick())],
        // the check comes last in a cycle, so that it is often looked at together with the next one
        [cycle + 0.96, () => worked.check(cycle % 29 === 0 ? 'rejectOpen' : 'good')],
      ];
      for (const [at, does] of deeds) {
        for (; next <= at; next += every) {
          worked.second = begun + next;
          worked.show('cycles', 'rejectOpen', 'good', 'picked');
          expect([0, null]).toContain(worked.unaccounted);
        }
        does();
      }
    }
    expect(worked.unaccounted).toBe(0);
  });

  it('[BA3] counters that roll over go on counting', () => {
    const near = { cycles: 2 ** 32 - 30, picked: 2 ** 32 - 25, good: 2 ** 32 - 20, rejectOpen: 65_534 };
    const worked = new HandWorked(near);
    for (let n = 0; n < 60; n += 1) {
      worked.turn(n % 9 === 0 ? 'rejectOpen' : 'good');
      for (const id of ['cycles', 'picked', 'good'] as const) worked.shown[id] %= 2 ** 32;
      worked.shown.rejectOpen %= 65_536;
      worked.show('cycles', 'rejectOpen', 'good', 'picked');
      worked.second += 1;
    }
    expect(worked.told).toEqual([60, 50, 6, 0, 4, 0]);
  });

  it('[BA3] is not known before every pocket has passed since the first values', () => {
    const worked = new HandWorked();
    expect(worked.run(PASSAGE - 1).told).toEqual([10, 6, 0, 0, null, null]);
    expect(worked.run(1).told).toEqual([11, 7, 0, 0, 4, 0]);
  });

  it('[BA3] what lay in the pockets at the first look is nobody’s loss and nobody’s gain', () => {
    const worked = new HandWorked();
    worked.pockets.fill(1, 1);
    worked.run(PASSAGE);
    // eleven picked and eleven counted as good: four more than this look saw go in
    expect(worked.told).toEqual([11, 11, 0, 0, 4, 0]);
  });

  it('[BA3] a counter that is reset makes it unknown until all pockets have passed, then it goes on from where it was', () => {
    const worked = settled();
    worked.pockets[2] = 0;
    worked.run(30);
    expect(worked.unaccounted).toBe(1);
    worked.run(60);
    worked.shown.good = 0;
    worked.show('good');
    expect(worked.told.slice(4)).toEqual([null, null]);
    expect(worked.run(PASSAGE - 1).unaccounted).toBeNull();
    expect(worked.run(1).told.slice(4)).toEqual([4, 1]);
    worked.pockets[3] = 0;
    expect(worked.run(2 * PASSAGE).unaccounted).toBe(2);
  });

  it('[BA3] a counter that was put back by hand says nothing of cartons', () => {
    const worked = settled();
    worked.shown.good -= 2;
    worked.show('good').run(PASSAGE);
    expect(worked.unaccounted).toBe(0);
  });

  it('[BA3] a gap with many cycles makes it unknown until all pockets have passed, and loses nothing', () => {
    const worked = settled();
    worked.tell([[worked.second, 'link', false]]);
    for (let n = 0; n < 40; n += 1) worked.turn();
    worked.pockets[2] = 0;
    worked.second += 60;
    worked.tell([[worked.second, 'link', true]]).show('cycles', 'good', 'picked');
    expect(worked.told.slice(4)).toEqual([null, null]);
    worked.run(PASSAGE - 1);
    expect(worked.unaccounted).toBeNull();
    worked.run(PASSAGE);
    expect(worked.told).toEqual([72, 67, 0, 0, 4, 1]);
  });

  it('[BA3] while a counter of blanks or cartons cannot be read nothing is told', () => {
    const worked = settled();
    worked.tell([[worked.second, 'rejectEmpty', null, 0x80000000]]);
    expect(worked.run(3).unaccounted).toBeNull();
    worked.show('rejectEmpty');
    expect(worked.run(PASSAGE - 1).unaccounted).toBeNull();
    worked.run(1);
    expect(worked.told.slice(4)).toEqual([4, 0]);
  });

  it('[BA3] where another machine’s values come, the balance begins anew', () => {
    const worked = settled();
    worked.pockets.fill(0);
    worked.tell([[worked.second, 'link', 'anew']]);
    for (const id of ['cycles', 'picked', 'good', 'crushed'] as const) worked.count(id, 1_000);
    worked.show('cycles', 'crushed', 'rejectOpen', 'rejectEmpty', 'good', 'picked', 'crushedPick');
    expect(worked.unaccounted).toBeNull();
    expect(worked.run(PASSAGE).told.slice(4)).toEqual([4, 0]);
  });
});

/** What may happen to the line turned by hand; the number says where or how many. */
const deed = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({ what: fc.constant('run' as const), n: fc.integer({ min: 1, max: 9 }) }),
  },
  fc.record({
    what: fc.constantFrom('empty', 'join', 'crush', 'reject', 'miss', 'reset', 'gap', 'back' as const),
    n: fc.integer({ min: 1, max: 4 }),
  }),
);
type Deed = typeof deed extends fc.Arbitrary<infer One> ? One : never;

/** Does it, and answers how many cartons hands took out, less what they put in. */
function doDeed(worked: HandWorked, { what, n }: Deed): number {
  const lay = worked.pockets[n] ?? 0;
  switch (what) {
    case 'run':
      worked.run(n);
      return 0;
    case 'empty':
      worked.pockets[n] = 0;
      return lay;
    case 'join':
      worked.pockets[n] = 1;
      return lay - 1;
    case 'crush':
      worked.pockets[n] = 0;
      worked.count(n > 2 ? 'crushedPick' : 'crushed', lay);
      worked.show('crushedPick', 'crushed');
      return 0;
    case 'reject':
      worked.run(n, 'rejectOpen');
      return 0;
    case 'miss':
      worked.run(n, 'good', false);
      return 0;
    case 'reset':
      worked.shown.good = 0;
      worked.show('good');
      return 0;
    case 'gap':
      for (let cycles = 0; cycles < 5 * n; cycles += 1) worked.turn();
      worked.second += 60;
      worked.show('cycles', 'good', 'picked');
      return 0;
    case 'back':
      worked.jog(-n).jog(n);
      return 0;
    default:
      throw new Error(`Nobody knows how to ${what}`);
  }
}

describe('whatever happens', () => {
  it('[BA1] the parts add up at every moment at which they are told, unless a counter began anew', () => {
    fc.assert(
      fc.property(fc.array(deed, { maxLength: 60 }), (deeds) => {
        const worked = settled();
        for (const one of deeds.filter(({ what }) => what !== 'reset')) {
          doDeed(worked, one);
          if (worked.unaccounted !== null) expectAddsUp(worked.told);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('[BA2] what is unaccounted for in the end is what hands took, less what they put in', () => {
    fc.assert(
      fc.property(fc.array(deed, { maxLength: 60 }), (deeds) => {
        const worked = settled();
        let took = 0;
        for (const one of deeds.filter(({ what }) => what !== 'reset')) took += doDeed(worked, one);
        worked.run(3 * PASSAGE);
        expect([worked.told[4], worked.unaccounted]).toEqual([worked.lying, took]);
      }),
      { numRuns: 150 },
    );
  });

  it('[TI3] in any chunks, and from any saved state on, the balance is the same', () => {
    fc.assert(
      fc.property(
        fc.array(deed, { minLength: 5, maxLength: 40 }),
        fc.integer({ min: 1, max: 60 }),
        (deeds, chunk) => {
          const worked = settled();
          for (const one of deeds) doDeed(worked, one);
          const all = changes(worked.line, worked.rows as Rows);
          let again = new LineFold(worked.line);
          for (let from = 0; from < all.length; from += chunk) {
            again.take(all.slice(from, from + chunk));
            again = new LineFold(worked.line, again.save());
          }
          expect(flowTold(again.state.flow!)).toEqual(worked.told);
          expect(again.state.flow).toEqual(worked.fold.state.flow);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('[TI2] counts that come late are worked in where they belong, and the balance is as if they had not', () => {
    fc.assert(
      fc.property(
        fc.array(deed, { minLength: 5, maxLength: 40 }),
        fc.array(fc.integer({ min: 0, max: 25 }), { minLength: 1, maxLength: 30 }),
        (deeds, delays) => {
          const worked = settled();
          for (const one of deeds) doDeed(worked, one);
          const all = changes(worked.line, worked.rows as Rows);
          const late = all
            .map((change, place) => ({ change, due: place + delays[place % delays.length]! }))
            .sort((a, b) => a.due - b.due)
            .map(({ change }) => change);
          const fold = new LineFold(worked.line);
          for (let from = 0; from < late.length; from += 7) fold.take(late.slice(from, from + 7));
          expect(flowTold(fold.state.flow!)).toEqual(worked.told);
          expect(fold.state.flow).toEqual(worked.fold.state.flow);
        },
      ),
      { numRuns: 40 },
    );
  });
});
