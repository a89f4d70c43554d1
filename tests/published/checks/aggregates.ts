import { BAD, GOOD } from '../../../model/status/status.ts';
import {
  durationInState,
  type InState,
  qualityTimes,
  transitionsIn,
} from '../../../model/statistics/durationInState.ts';
import type { Sample, Window } from '../../../model/statistics/regions.ts';
import { timeAverage, timeAverageBridged } from '../../../model/statistics/timeAverage.ts';
import { type Instant, millis, seconds, type Span } from '../../../model/units/units.ts';
import { from, type Topic } from './check.ts';

const UNCERTAIN = 0x40000000;
type Told<Value> = readonly [second: number, value: Value, status?: number];

function told<Value>(rows: readonly Told<Value>[]): readonly Sample<Value>[] {
  return rows.map(([second, value, status = GOOD]) => ({
    at: seconds(second) as number as Instant,
    value,
    status,
  }));
}

/** The standard's data, without the first entry, which says that there is none yet. */
export const h1 = told([
  [10, 10],
  [20, 20],
  [30, 30],
  [40, 40, BAD],
  [50, 50],
  [60, 60],
  [70, 70, UNCERTAIN],
  [80, 80],
  [90, 90],
]);
export const h2 = told([
  [2, 10],
  [25, 20],
  [28, 25],
  [39, 30],
  [42, 0, BAD],
  [48, 40],
  [52, 50],
  [72, 60],
  [77, 70, UNCERTAIN],
  [83, 70],
  [86, 80],
  [90, 90],
]);
export const h4 = told([
  [2, true],
  [25, false],
  [28, true],
  [39, true],
  [42, false, BAD],
  [48, true],
  [52, false],
  [72, false],
  [77, true, UNCERTAIN],
  [83, true],
  [86, false],
  [90, true],
]);

/** The last region ends one millisecond after the last sample, as the standard has it. */
const KNOWN = (seconds(90) + seconds(0.001)) as Instant;

function intervals(length: number): Window[] {
  return Array.from({ length: Math.ceil(100 / length) }, (_, place) => ({
    from: seconds(place * length) as number as Instant,
    to: seconds((place + 1) * length) as number as Instant,
    knownUntil: KNOWN,
  }));
}

const of16 = intervals(16);
const of5 = intervals(5);
const ms = (span: Span | undefined) => span && millis(span);
const inState = (isIn: (value: boolean) => boolean) =>
  of16.map((window) => durationInState(h4, window, isIn));
const quality = (one: InState | undefined) => one && one.quality + (one.partial ? ' partial' : '');

/** The quality of each interval of five seconds, by the second at which it begins. */
function secondsOf(wanted: string): number[] {
  const all = of5.map((window) => timeAverageBridged(h1, window, { sloped: true, uncertainIsBad: false }));
  return all.flatMap((average, place) => (average?.quality === wanted ? [place * 5] : []));
}

/** Shares of half and half, and stepped. */
const steppedHalf = { sloped: false, shares: { bad: 0.5, good: 0.5 } };

export const aggregates: Topic = {
  title: 'OPC UA aggregates',
  about: 'The example data of OPC 10000-13, Annex A.1: H1 even, H2 and H3 uneven, H4 Boolean.',
  checks: [
    ...from('[F+C] OPC 10000-13 v1.04, A.21', [
      [
        'DurationInStateNonZero of H4, 16 s, in ms',
        '14000, 13000, 10000, 4000, 0, 3001, -',
        () => inState((value) => value).map((one) => ms(one?.inState)),
      ],
    ]),
    ...from('[F+C] OPC 10000-13 v1.04, A.20', [
      [
        'DurationInStateZero of H4, 16 s, in ms',
        '0, 3000, 0, 12000, 13000, 4000, -',
        () => inState((value) => !value).map((one) => ms(one?.inState)),
      ],
    ]),
    ...from('[F] OPC 10000-13 v1.04, A.20 and A.21', [
      [
        'status of both',
        'uncertain partial, good, uncertain, good, uncertain, uncertain partial, -',
        () => inState((value) => value).map(quality),
      ],
    ]),
    ...from('[C] from the rule in OPC 10000-13, 5.4.3.24', [
      [
        'NumberOfTransitions of H4, 16 s',
        '1, 2, 0, 1, 0, 3, -',
        () => of16.map((window) => transitionsIn(h4, window)),
      ],
      [
        'NumberOfTransitions of H2, 16 s',
        '1, 2, 1, 2, 1, 3, -',
        () => of16.map((window) => transitionsIn(h2, window)),
      ],
    ]),
    ...from(
      '[C] from the rule in OPC 10000-13, 5.4.3.31; an open library has 0 for the third and the fifth',
      [
        [
          'DurationGood of H1, 16 s, in ms',
          '6000, 16000, 8000, 14000, 6000, 10001, -',
          () => of16.map((window) => ms(qualityTimes(h1, window)?.good)),
        ],
      ],
    ),
    ...from('[F+C] an open library’s test of OPC 10000-13, Annex A', [
      [
        'DurationBad of H1, 16 s, in ms',
        '10000, 0, 8000, 2000, 0, 0, -',
        () => of16.map((window) => ms(qualityTimes(h1, window)?.bad)),
      ],
      [
        'DurationGood of H2, 16 s, in ms',
        '14000, 16000, 10000, 16000, 13000, 7001, -',
        () => of16.map((window) => ms(qualityTimes(h2, window)?.good)),
      ],
    ]),
    ...from('[F+C] OPC 10000-13 v1.04, A.4', [
      [
        'TimeAverage of H1, 5 s',
        '-, -, 12.5, 17.5, 22.5, 27.5, 32.5, 37.5, 42.5, 47.5, 52.5, 57.5, 62.5, 67.5, 72.5, 77.5, 82.5, 87.5, 90, 90',
        () =>
          of5.map((window) => timeAverageBridged(h1, window, { sloped: true, uncertainIsBad: false })?.mean),
      ],
    ]),
    ...from('[F] OPC 10000-13 v1.04, A.4', [
      ['TimeAverage of H1: seconds that are good', '10, 15, 20, 25, 50, 55, 80, 85', () => secondsOf('good')],
      [
        'TimeAverage of H1: seconds that are uncertain',
        '30, 35, 40, 45, 60, 65, 70, 75, 90, 95',
        () => secondsOf('uncertain'),
      ],
    ]),
    ...from('[C] by the definition; the first figure [F]', [
      [
        'TimeAverage of H2, 5 s',
        '10.652, 12.391, 14.565, 16.739, 18.913, 23.682, 27.045, 29.384, 33.889, 40, 49.45, 52.75, 55.25, 57.75, 60.618, 65, 70.515, 83.667, 90, 90',
        () => of5.map((window) => timeAverageBridged(h2, window, { sloped: true })?.mean),
      ],
    ]),
    ...from('[C] by the definition', [
      [
        'TimeAverage of H3, 5 s',
        '10, 10, 10, 10, 10, 22, 25, 26, 30, 34, 46, 50, 50, 50, 56, 60, 64, 78, 90, 90',
        () => of5.map((window) => timeAverageBridged(h2, window, { sloped: false })?.mean),
      ],
    ]),
    ...from('[F] OPC 10000-13 v1.04, A.5', [
      [
        'TimeAverage2 of H1, 5 s',
        '-, -, 12.5, 17.5, 22.5, 27.5, 30, 30, -, -, 52.5, 57.5, 62.5, 67.5, 72.5, 77.5, 82.5, 87.5, 90, -',
        () => of5.map((window) => timeAverage(h1, window, { sloped: true, uncertainIsBad: false })?.mean),
      ],
    ]),
    ...from('[F] correction of 2021 for OPC 10000-13 v1.05 (tracker item 6227)', [
      [
        'TimeAverage2 of H3 at 40 and 45 s, shares of 50 %',
        '30, uncertain, 40, uncertain',
        () =>
          of5.slice(8, 10).flatMap((window) => {
            const average = timeAverage(h2, window, steppedHalf);
            return [average?.mean, average?.quality];
          }),
      ],
    ]),
  ],
};
