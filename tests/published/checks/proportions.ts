import { binomialAtLeast } from '../../../model/statistics/binomial.ts';
import { pChart } from '../../../model/statistics/controlChart.ts';
import { clopperPearson, wilson } from '../../../model/statistics/proportion.ts';
import { pooledTest } from '../../../model/statistics/twoProportions.ts';
import { from, type Topic } from './check.ts';

/** Nonconforming cans in 30 samples of 50. */
const cans = [
  12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7, 13, 9, 6,
];
/** Samples 31 to 54, after the machine was adjusted. */
const adjusted = [9, 6, 12, 5, 6, 4, 6, 3, 7, 6, 2, 4, 3, 6, 5, 4, 8, 5, 6, 7, 5, 6, 3, 5];

const chart = (counts: readonly number[]) => pChart(counts.map((count) => ({ count, trials: 50 })))!;
const limits = (counts: readonly number[]) => [
  chart(counts).points[0]!.upper,
  chart(counts).points[0]!.lower,
];
const outAt = (counts: readonly number[]) =>
  chart(counts).points.flatMap(({ out }, place) => (out ? [place + 1] : []));
const sum = (counts: readonly number[]) => counts.reduce((total, count) => total + count, 0);
const without = cans.filter((_, place) => place !== 14 && place !== 22);
const ends = (interval: { readonly lower: number; readonly upper: number } | undefined) => [
  interval?.lower,
  interval?.upper,
];
const shares = pooledTest({ count: sum(without), trials: 1400 }, { count: sum(adjusted), trials: 1200 });

export const proportions: Topic = {
  title: 'Shares of rejects',
  about: 'p chart with limits of three deviations, exact and score intervals, two shares.',
  checks: [
    ...from('[F+C] Montgomery, orange-juice cans (R qcc::orangejuice); NIST e-Handbook 6.3.3.2', [
      [
        'p chart of 30 samples of 50: sum, mean share',
        '347, 0.231333',
        () => [sum(cans), chart(cans).centre],
      ],
      ['p chart of 30 samples of 50: upper and lower limit', '0.410239, 0.052428', () => limits(cans)],
      ['p chart of 30 samples of 50: samples that are out', '15, 23', () => outAt(cans)],
      [
        'p chart without samples 15 and 23: sum, mean share',
        '301, 0.215000',
        () => [sum(without), chart(without).centre],
      ],
      ['p chart without samples 15 and 23: limits', '0.389297, 0.040703', () => limits(without)],
      [
        // places 15 to 21 moved up by one
        'p chart without samples 15 and 23: the sample then out, and its share',
        '21, 0.40',
        () => [outAt(without)[0]! + 1, chart(without).points[outAt(without)[0]! - 1]!.value],
      ],
    ]),
    ...from('[M] Montgomery, samples 31 to 54; recomputed', [
      [
        'p chart after the adjustment: sum, mean share',
        '133, 0.110833',
        () => [sum(adjusted), chart(adjusted).centre],
      ],
      ['p chart after the adjustment: limits', '0.244021, 0', () => limits(adjusted)],
    ]),
    ...from('[C] R 4.2.2, prop.test without correction', [
      [
        '301 of 1400 against 133 of 1200: pooled share, z, chi-square',
        '0.166923, 7.1006, 50.4187',
        () => [shares?.pooled, shares?.z, shares?.chiSquare],
      ],
      ['3 of 400, 95 %, score interval', '0.002554, 0.021816', () => ends(wilson(3, 400, 0.95))],
      ['0 of 400, 95 %, score interval', '0, 0.009512', () => ends(wilson(0, 400, 0.95))],
      ['17 of 1200, 95 %, score interval', '0.008864, 0.022570', () => ends(wilson(17, 1200, 0.95))],
    ]),
    ...from('[C] R 4.2.2, binom.test', [
      ['3 of 400, 95 %, exact interval', '0.001549, 0.021761', () => ends(clopperPearson(3, 400, 0.95))],
      ['0 of 400, 95 %, exact interval', '0, 0.009180', () => ends(clopperPearson(0, 400, 0.95))],
    ]),
    ...from('[C] R 4.2.2, pbinom', [
      [
        'share 0.02 in samples of 500: limit of three deviations, exact chance above it',
        '0.038783, 0.0031263',
        () => {
          const upper = 0.02 + 3 * Math.sqrt((0.02 * 0.98) / 500);
          return [upper, binomialAtLeast(Math.floor(500 * upper) + 1, 500, 0.02)];
        },
      ],
    ]),
  ],
};
