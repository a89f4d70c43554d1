import { describe, expect, it } from 'vitest';
import { HandWorked, PASSAGE, settled } from './handWorked.ts';

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
