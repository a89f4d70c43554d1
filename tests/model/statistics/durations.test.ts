import fc from 'fast-check';
import { DataValue, getInterval, interpolatedValue, type StatusCode, StatusCodes } from 'node-opcua';
import { calculateBadAndGood } from 'node-opcua-aggregates/dist/calculate_bad_good.js';
import { describe, expect, it } from 'vitest';
import { durationInState, qualityTimes, transitionsIn } from '../../../model/statistics/durationInState.ts';
import { qualityByTime, regionsOf, type Sample, type Window } from '../../../model/statistics/regions.ts';
import { timeAverage, timeAverageBridged } from '../../../model/statistics/timeAverage.ts';
import { BAD, GOOD, severity } from '../../../model/status/status.ts';
import { type Instant, millis, type Span, TICKS_PER_MS } from '../../../model/units/units.ts';

const UNCERTAIN = 0x40000000;
const at = (ms: number) => (ms * TICKS_PER_MS) as Instant;
const span = (ms: number) => (ms * TICKS_PER_MS) as Span;
const window = (from: number, to: number, known = to): Window => ({
  from: at(from),
  to: at(to),
  knownUntil: at(known),
});
const told = (...rows: [ms: number, value: number, status?: number][]): Sample<number>[] =>
  rows.map(([ms, value, status = GOOD]) => ({ at: at(ms), value, status }));
const isOne = (value: number) => value === 1;

describe('time in a state', () => {
  it('parts of an interval add up, and what is bad or not told yet is in no state', () => {
    const samples = told([10, 1], [30, 0], [40, 1, BAD], [50, 1, UNCERTAIN], [60, 1]);
    expect(durationInState(samples, window(0, 100), isOne)).toEqual({
      inState: span(60),
      outOfState: span(10),
      excluded: span(30),
      known: span(100),
      quality: 'uncertain',
      partial: true,
    });
    expect(durationInState(samples, window(0, 100), isOne, { uncertainIsBad: false })).toMatchObject({
      inState: span(70),
      excluded: span(20),
    });
    expect(durationInState(samples, window(60, 100), isOne)).toMatchObject({
      quality: 'good',
      partial: false,
    });
    expect(durationInState(samples, window(42, 48), isOne)).toMatchObject({ inState: 0, quality: 'bad' });
    expect(durationInState(samples, window(60, 100, 70), isOne)).toMatchObject({
      known: span(10),
      partial: true,
    });
  });

  it('where nothing was told, or not heard, there is no figure, and not 0', () => {
    const samples = told([10, 1]);
    for (const none of [window(0, 10), window(100, 200, 100)]) {
      expect(durationInState(samples, none, isOne)).toBeUndefined();
      expect(qualityTimes(samples, none)).toBeUndefined();
      expect(transitionsIn(samples, none)).toBeUndefined();
    }
    expect(durationInState([], window(0, 10), isOne)).toBeUndefined();
    expect(timeAverage(told([10, 1, BAD]), window(0, 50), { sloped: false })).toBeUndefined();
    expect(timeAverageBridged(told([10, 1, BAD]), window(0, 50), { sloped: false })).toBeUndefined();
  });

  it('of several values at one moment the last holds, and each counts as a change', () => {
    const samples = told([0, 0], [10, 1], [10, 0], [10, 1]);
    expect(regionsOf(samples, window(0, 20)).map(({ sample }) => sample!.value)).toEqual([0, 1]);
    expect(transitionsIn(samples, window(5, 20))).toBe(3);
  });

  it('a change at the end belongs to the next interval', () => {
    const samples = told([0, 0], [10, 1]);
    expect([transitionsIn(samples, window(0, 10)), transitionsIn(samples, window(10, 20))]).toEqual([1, 1]);
    expect(transitionsIn(samples, window(11, 20))).toBe(0);
  });

  it('the shares of an interval that make it good or bad may be set; where they meet, the good one decides', () => {
    const shares = { bad: 0.5, good: 0.8 };
    const graded = ([good, bad]: readonly [number, number]) => qualityByTime(span(good), span(bad), shares);
    expect(
      (
        [
          [10, 0],
          [8, 2],
          [7, 3],
          [5, 5],
          [0, 0],
        ] as const
      ).map(graded),
    ).toEqual(['good', 'good', 'uncertain', 'bad', 'bad']);
    expect(qualityByTime(span(4), span(6), { bad: 0.5, good: 0.5 })).toBe('uncertain');
  });

  it('intervals that follow each other add up to the whole', () => {
    fc.assert(
      fc.property(history, fc.array(fc.integer({ min: 1, max: 999 }), { maxLength: 6 }), (samples, cuts) => {
        const edges = [0, ...new Set(cuts.toSorted((a, b) => a - b)), 1000];
        const parts = edges.slice(1).map((to, place) => {
          const part = window(edges[place]!, to, 1000);
          return [
            durationInState(samples, part, isOne)?.inState ?? 0,
            transitionsIn(samples, part) ?? 0,
          ] as const;
        });
        const whole = window(0, 1000);
        expect(parts.reduce((sum, [time]) => sum + time, 0)).toBe(
          durationInState(samples, whole, isOne)!.inState,
        );
        expect(parts.reduce((sum, [, changes]) => sum + changes, 0)).toBe(transitionsIn(samples, whole));
      }),
      { seed: 21, numRuns: 200 },
    );
  });
});

/** Values at odd milliseconds, so that none is at the start of an interval; good, uncertain and bad. */
const history = fc
  .uniqueArray(
    fc.record({
      ms: fc.integer({ min: 0, max: 499 }).map((half) => 2 * half + 1),
      value: fc.integer({ min: 0, max: 3 }),
      status: fc.constantFrom(GOOD, GOOD, GOOD, UNCERTAIN, BAD),
    }),
    { selector: ({ ms }) => ms, minLength: 1, maxLength: 25 },
  )
  .map((rows) =>
    rows.toSorted((a, b) => a.ms - b.ms).map(({ ms, value, status }) => ({ at: at(ms), value, status })),
  );

const theirs: Readonly<Record<number, StatusCode>> = {
  [GOOD]: StatusCodes.Good,
  [UNCERTAIN]: StatusCodes.Uncertain,
  [BAD]: StatusCodes.Bad,
};

function asTheirs(samples: readonly Sample<number>[]): DataValue[] {
  return samples.map(
    (one) =>
      new DataValue({
        sourceTimestamp: new Date(one.at / TICKS_PER_MS),
        statusCode: theirs[one.status]!,
        value: { dataType: 'Double', value: one.value },
      }),
  );
}

describe('time in a state, beside node-opcua’s aggregates', () => {
  it('good and bad times are its, wherever it has a good value to judge by', () => {
    let compared = 0;
    fc.assert(
      fc.property(history, fc.boolean(), (samples, uncertainIsBad) => {
        const known = samples.at(-1)!.at / TICKS_PER_MS + 1;
        for (const from of [0, 200, 400, 600, 800]) {
          const interval = getInterval(new Date(from), 200, 0, asTheirs(samples));
          const within = samples.filter((one) => one.at >= at(from) && one.at < at(from + 200));
          // without a good value in the interval it says 0, where the rule takes the value before it
          if (!within.some(({ status }) => severity(status) === 'good')) continue;
          const given = calculateBadAndGood(interval, { treatUncertainAsBad: uncertainIsBad });
          const ours = qualityTimes(samples, window(from, from + 200, known))!;
          const [good, bad] = uncertainIsBad
            ? [ours.good, ours.bad + ours.uncertain]
            : [ours.good + ours.uncertain, ours.bad];
          expect([given.durationGood, given.durationBad]).toEqual([
            millis(good as Span),
            millis(bad as Span),
          ]);
          compared += 1;
        }
      }),
      { seed: 31, numRuns: 300 },
    );
    expect(compared).toBeGreaterThan(500);
  });

  it('a bridged mean over an instant is its interpolated value', () => {
    let compared = 0;
    fc.assert(
      fc.property(history, fc.boolean(), fc.boolean(), (samples, sloped, uncertainIsBad) => {
        const kept = samples.filter(
          (one) =>
            severity(one.status) === 'good' || (!uncertainIsBad && severity(one.status) === 'uncertain'),
        );
        for (const from of [200, 500, 800]) {
          const between = kept.some((one) => one.at < at(from)) && kept.some((one) => one.at > at(from));
          if (!between) continue;
          const given = interpolatedValue(getInterval(new Date(from), 200, 0, asTheirs(samples)), {
            stepped: !sloped,
            treatUncertainAsBad: uncertainIsBad,
          });
          const instant = { from: at(from), to: (at(from) + 1) as Instant, knownUntil: at(1001) };
          const ours = timeAverageBridged(samples, instant, { sloped, uncertainIsBad })!;
          expect(ours.mean).toBeCloseTo(given.value.value, 3);
          compared += 1;
        }
      }),
      { seed: 41, numRuns: 300 },
    );
    expect(compared).toBeGreaterThan(300);
  });
});
