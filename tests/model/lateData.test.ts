import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineFold } from '../../model/fold/fold.ts';
import { byLineTime, type Change } from '../../model/signals/signals.ts';
import { at, changes, foldOf, goods, type Rows, running, smallLine } from './smallLine.ts';

const line = smallLine();
const SECOND = 10_000_000;
/** What one fold works in by itself is at least so old. Seconds. */
const REACH = 3600;

/** Four hours, so that it drops copies; in each ten minutes cartons, a press that its twin counts, a jam and a bad value. */
const told: readonly Change[] = changes(line, [
  ...running(),
  ...Array.from({ length: 24 }, (_, n): Rows => {
    const from = n * 600;
    return [
      ...goods(from + 1, from + 8, n * 8 + 1),
      [from + 60, 'panel', true],
      [from + 60, 'panelCount', n + 1],
      [from + 60.01, 'state', 8],
      [from + 60.01, 'reason', 301],
      [from + 90, 'panel', false],
      [from + 95, 'state', 6],
      [from + 95, 'reason', 0],
      [from + 200, 'state', 11],
      [from + 200, 'reason', 51],
      [from + 300, 'state', 6],
      [from + 300, 'reason', 0],
      [from + 400, 'good', null, 0x80000000],
      [from + 430, 'good', n * 8 + 8],
      [from + 500, 'missed', n + 1],
    ];
  }).flat(),
]);

/** Everything in the order in which it comes, each so many seconds after it happened. */
function arrival(delays: readonly number[]): Change[] {
  return told
    .map((change, place) => ({ change, comes: change.at + delays[place]! * SECOND }))
    .sort((a, b) => a.comes - b.comes)
    .map(({ change }) => change);
}

/** Most come at once, and some up to so many seconds late. */
function delays(most: number) {
  const late = fc.oneof({ weight: 12, arbitrary: fc.constant(0) }, fc.integer({ min: 1, max: most }));
  return fc.array(late, { minLength: told.length, maxLength: told.length });
}

function inLineTime(some: readonly Change[]): string {
  const fold = new LineFold(line);
  fold.take([...some].sort(byLineTime));
  return fold.text();
}

describe('data that comes late', () => {
  it('[TI2] is worked in whatever the order and the chunks, up to an hour late', () => {
    fc.assert(
      fc.property(delays(REACH), fc.integer({ min: 1, max: 50 }), (late, chunk) => {
        const arrived = arrival(late);
        const fold = new LineFold(line);
        for (let from = 0; from < arrived.length; from += chunk) {
          const events = fold.take(arrived.slice(from, from + chunk));
          expect(events.filter(({ kind }) => kind === 'BeyondReach')).toEqual([]);
        }
        expect(fold.text()).toBe(inLineTime(arrived));
      }),
      { numRuns: 15 },
    );
  });

  it('[TI2] [AS2] is worked in one by one where much else came, and what is seen is told with each change', () => {
    const dense = changes(line, [...running(), ...goods(1, 3600, 1)]);
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 20, max: dense.length - 1 }), { minLength: 5, maxLength: 60 }),
        fc.integer({ min: 1, max: 900 }),
        (places, by) => {
          const late = new Set(places);
          const arrived = dense
            .map((change, place) => ({ change, comes: change.at + (late.has(place) ? by * SECOND : 0) }))
            .sort((a, b) => a.comes - b.comes)
            .map(({ change }) => change);
          const [stepped, single] = [new LineFold(line), new LineFold(line)];
          for (let place = 0; place < arrived.length; ) {
            const { taken, events } = stepped.takeUntilSeen(arrived, place, arrived.length);
            const seen = arrived.slice(place, place + taken).map((change) => single.take([change]));
            place += taken;
            expect(seen.slice(0, -1).flat()).toEqual([]);
            expect(events).toEqual(seen.at(-1));
          }
          expect(stepped.text()).toBe(inLineTime(dense));
          expect(single.text()).toBe(stepped.text());
        },
      ),
      { numRuns: 20 },
    );
  });

  it('[TI2] is told where it is beyond reach, and nothing is left out that was not told', () => {
    let beyond = 0;
    fc.assert(
      fc.property(delays(3 * REACH), (late) => {
        const fold = new LineFold(line);
        const kept: Change[] = [];
        let newest = -1;
        for (const change of arrival(late)) {
          const dropped = fold.take([change]).find(({ kind }) => kind === 'BeyondReach');
          if (dropped) {
            beyond += 1;
            expect(dropped.at).toBe(change.at);
            expect(newest - change.at).toBeGreaterThan(REACH * SECOND);
          } else kept.push(change);
          newest = Math.max(newest, change.at);
        }
        expect(fold.text()).toBe(inLineTime(kept));
      }),
      { numRuns: 8 },
    );
    expect(beyond).toBeGreaterThan(0);
  });
});

describe('a press of which tag and twin come apart', () => {
  const before: Rows = [...running(), ...goods(1, 9, 1)];
  const press: Rows = [
    [10, 'panel', true],
    [10.03, 'panel', false],
  ];
  const known = (fold: LineFold) => fold.state.presses.map(({ known: how, pressed }) => [how, pressed]);

  it('[PS3] is one press, found by its twin until the late tag gives it its moment', () => {
    const fold = foldOf([...before, [10, 'panelCount', 1]]);
    expect(known(fold)).toEqual([['count', at(10)]]);
    fold.take(changes(line, press));
    expect(known(fold)).toEqual([['edge', at(10)]]);
  });

  it('[PS3] is one press where the twin comes late, and one where it is told a moment after the tag', () => {
    const late = foldOf([...before, ...press, [12, 'good', 10]]);
    late.take(changes(line, [[10, 'panelCount', 1]]));
    expect(known(late)).toEqual([['edge', at(10)]]);
    expect(known(foldOf([...before, ...press, [10.5, 'panelCount', 1]]))).toEqual([['edge', at(10)]]);
    const twice: Rows = [
      [11, 'panel', true],
      [11.03, 'panel', false],
      [12, 'panelCount', 1],
      [13, 'panelCount', 2],
    ];
    expect(known(foldOf([...before, ...press, ...twice]))).toEqual([
      ['edge', at(10)],
      ['edge', at(11)],
    ]);
  });
});
