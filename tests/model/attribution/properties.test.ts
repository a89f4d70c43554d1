import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PARTS } from '../../../model/attribution/parts.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { Value } from '../../../model/signals/signals.ts';
import { HOUR, type Instant } from '../../../model/units/units.ts';
import { lose } from '../../proof/attributionLosses.ts';
import { boundLine, changesOf, monday, runFor } from '../../simulator/simulatedLine.ts';
import { changes, foldOf, type Rows, running } from '../smallLine.ts';
import { inLineTime, sensedLine } from './sensedLine.ts';

const line = sensedLine({ from: ['pick', 'fold'] }, ['pick', 'fold']);

/** Anything that a PLC may tell next, right or wrong. */
const happening = fc.oneof(
  { weight: 12, arbitrary: fc.constant(['cycles', 1] as const) },
  { weight: 2, arbitrary: fc.tuple(fc.constant('cycles'), fc.integer({ min: -3, max: 40 })) },
  {
    weight: 4,
    arbitrary: fc.tuple(fc.constantFrom('near-fold', 'near-pick'), fc.integer({ min: 0, max: 4 })),
  },
  { weight: 4, arbitrary: fc.tuple(fc.constant('rejectOpen'), fc.integer({ min: -2, max: 5 })) },
  { weight: 2, arbitrary: fc.tuple(fc.constantFrom('rejectEmpty', 'crushed', 'good'), fc.nat(3)) },
  { weight: 2, arbitrary: fc.tuple(fc.constant('state'), fc.constantFrom(6, 11, 9)) },
  { weight: 1, arbitrary: fc.tuple(fc.constant('mode'), fc.constantFrom(1, 1, 3, 4)) },
  { weight: 1, arbitrary: fc.tuple(fc.constant('reason'), fc.constantFrom(0, 51, 52, 11)) },
  { weight: 1, arbitrary: fc.tuple(fc.constant('size'), fc.constantFrom(20, 48)) },
  { weight: 1, arbitrary: fc.tuple(fc.constant('link'), fc.constantFrom(true, false, 'whole')) },
);

const set = new Set(['state', 'mode', 'reason', 'size', 'link']);

/** Rows of what happens, half a second apart; counters go on from where they were. */
function rowsOf(happenings: readonly (readonly [string, Value])[]): Rows {
  const counts = new Map<string, number>();
  const first = inLineTime([...running(), [0, 'near-pick', 0], [0, 'near-fold', 0]], line);
  return [
    ...first,
    ...happenings.map(([id, value], n) => {
      if (set.has(id)) return [1 + n / 2, id, value] as const;
      const count = Math.max(0, (counts.get(id) ?? 0) + Number(value));
      counts.set(id, count);
      return [1 + n / 2, id, count] as const;
    }),
  ];
}

describe('whatever happens', () => {
  it('[AT1] no share is below zero, and shares with what is nobody’s add up to exactly the rejects', () => {
    fc.assert(
      fc.property(fc.array(happening, { maxLength: 300 }), (happenings) => {
        const { state, index } = foldOf(rowsOf(happenings), line);
        const { parts } = state.attribution;
        expect(parts.every((part) => Number.isInteger(part) && part >= 0)).toBe(true);
        const place = index.tallyAt[line.signals.findIndex(({ id }) => id === 'rejectOpen')]!;
        expect(parts.reduce((sum, part) => sum + part, 0)).toBe(state.tally[place]! * PARTS);
      }),
    );
  });

  it('[TI3] [AT3] the same is learned in any chunks, and from any saved state on', () => {
    fc.assert(
      fc.property(fc.array(happening, { maxLength: 120 }), fc.array(fc.nat(140)), (happenings, cuts) => {
        const all = changes(line, rowsOf(happenings));
        let fold = new LineFold(line);
        let from = 0;
        for (const cut of [...cuts, all.length].sort((a, b) => a - b)) {
          fold.take(all.slice(from, cut));
          fold = new LineFold(line, fold.save());
          from = Math.max(from, cut);
        }
        const whole = new LineFold(line);
        whole.take(all);
        expect(fold.text()).toBe(whole.text());
      }),
    );
  });
});

describe('a simulated shift with jogs back, knocking hands and losses', () => {
  const bound = boundLine();
  const { told } = runFor(8, { seed: 23, handling: true, lockOuts: false });
  const heard = Array.from({ length: 8 }, (_, hour) => (monday + hour * HOUR) as Instant).reduce(
    (facts, from) => lose(facts, { seed: 23, from }),
    told,
  );
  const all = changesOf(bound, heard);
  const whole = new LineFold(bound.line);
  whole.take(all);

  it('[AT1] [AT4] has rejects of which more than one came at once, and all add up', () => {
    const { parts } = whole.state.attribution;
    const counted = bound.line.signals.filter(({ role, of }) => role === 'rejectCount' && of !== 'empty');
    const last = new Map<number, number>();
    const steps = all.flatMap(({ signal, value }) => {
      const before = last.get(signal);
      last.set(signal, Number(value));
      const isReject = before !== undefined && counted.some(({ index }) => index === signal);
      return isReject ? [Number(value) - before] : [];
    });
    expect(Math.max(...steps)).toBeGreaterThan(1);
    const tally = counted.map(({ index }) => whole.state.tally[whole.index.tallyAt[index]!]!);
    expect(parts.reduce((sum, part) => sum + part, 0)).toBe(tally.reduce((sum, n) => sum + n, 0) * PARTS);
    expect(tally.every((n) => n > 0)).toBe(true);
  });

  it('[TI3] [AT3] gives the same in any chunks', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(all.length), { minLength: 1, maxLength: 5 }), (cuts) => {
        let fold = new LineFold(bound.line);
        let from = 0;
        for (const cut of [...cuts, all.length].sort((a, b) => a - b)) {
          fold.take(all.slice(from, cut));
          fold = new LineFold(bound.line, fold.save());
          from = Math.max(from, cut);
        }
        expect(fold.state.attribution).toEqual(whole.state.attribution);
      }),
      { numRuns: 5 },
    );
  });

  it('[TI2] [AT3] late values give what they would have given in their place', () => {
    const places = all.flatMap(({ signal }, place) =>
      ['nearMissCount', 'rejectCount'].includes(bound.line.signals[signal]!.role) ? [place] : [],
    );
    const late = new Set(places.filter((_, n) => n % 9 === 4));
    const arrived = all
      .map((change, place) => ({ change, order: late.has(place) ? place + 400 : place }))
      .sort((a, b) => a.order - b.order)
      .map(({ change }) => change);
    const fold = new LineFold(bound.line);
    for (let place = 0; place < arrived.length; place += 97) fold.take(arrived.slice(place, place + 97));
    expect(fold.state.attribution).toEqual(whole.state.attribution);
  });

  it('[AT3] what is kept does not grow with time', () => {
    const sizeAt = (changesTaken: number) => {
      const fold = new LineFold(bound.line);
      fold.take(all.slice(0, changesTaken));
      return JSON.stringify(fold.state.attribution).length;
    };
    for (const share of [0.25, 0.5, 1]) expect(sizeAt(all.length * share)).toBeLessThan(5000);
  });
});
