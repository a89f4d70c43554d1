import { cChart } from '../../../model/statistics/controlChart.ts';
import { poissonAtLeast, poissonAtMost } from '../../../model/statistics/poisson.ts';
import { from, type Topic } from './check.ts';

/** Defects on 25 wafers. */
const wafers = [
  16, 14, 28, 16, 12, 20, 10, 12, 10, 17, 19, 17, 14, 16, 15, 13, 14, 16, 11, 20, 11, 19, 16, 31, 13,
];
const chart = cChart(wafers)!;

export const counts: Topic = {
  title: 'Counts',
  about: 'c chart with limits of three deviations, and how rare what lies beyond them truly is.',
  checks: [
    ...from('[F+C] NIST e-Handbook 6.3.3.1, 25 wafers', [
      [
        'c chart: sum, mean, upper and lower limit',
        '400, 16, 28, 4',
        () => [
          wafers.reduce((total, count) => total + count, 0),
          chart.centre,
          chart.points[0]!.upper,
          chart.points[0]!.lower,
        ],
      ],
      [
        'c chart: the points that are out (one equal to the limit is not)',
        '24',
        () => chart.points.flatMap(({ out }, place) => (out ? [place + 1] : [])),
      ],
    ]),
    ...from('[C] R 4.2.2, ppois', [
      [
        'Poisson of mean 16: chance of more than 28, of fewer than 4',
        '0.0021886, 0.0000931',
        () => [poissonAtLeast(29, 16), poissonAtMost(3, 16)],
      ],
      [
        'alarms, mean 1, 2 and 5 in 10 minutes: chance of 10 or more',
        '1.114e-7, 4.650e-5, 0.031828',
        () => [1, 2, 5].map((mean) => poissonAtLeast(10, mean)),
      ],
    ]),
  ],
};
