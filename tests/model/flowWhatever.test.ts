import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flowTold } from '../../model/fold/flow.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { changes, type Rows } from './smallLine.ts';
import { type HandWorked, PASSAGE, settled, expectAddsUp } from './handWorked.ts';

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
