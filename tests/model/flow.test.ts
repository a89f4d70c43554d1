import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { LineFold } from '../../model/fold/fold.ts';
import { changes, smallLine } from './smallLine.ts';
import { PASSAGE, settled, expectAddsUp } from './handWorked.ts';

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
