import { clusterAfterwards } from '../../../model/statistics/clusterAfterwards.ts';
import {
  chanceOfCluster,
  chanceOfPair,
  newAlarmRate,
  smallestCount,
  timeBetweenClusters,
} from '../../../model/statistics/scanStatistic.ts';
import { type Check, from, type Topic } from './check.ts';

const SHIFT = 8;

/** Chances within 2, 3 and 16 windows of so many expected a window. */
function naus(psi: number, count: number): Check['got'] {
  const rule = { rate: psi, window: 1, count };
  return () => [2, 3, 16].map((span) => chanceOfCluster(rule, span));
}

/** Rate an hour, window in minutes, count; new alarms in a shift, chance of one, mean hours between. */
const rules: readonly [rate: number, minutes: number, count: number, printed: string][] = [
  [0.5, 15, 2, '0.441248, 0.341050, 18.92'],
  [0.5, 15, 3, '0.027578, 0.025607, 302.3'],
  [0.5, 30, 3, '0.097350, 0.083016, 88.88'],
  [0.5, 60, 4, '0.050544, 0.040098, 179.4'],
  [1, 30, 3, '0.606531, 0.402630, 15.01'],
  [1, 30, 4, '0.101088, 0.081962, 89.70'],
  [2, 30, 5, '0.245253, 0.174277, 40.04'],
];

function ruleFigures(rate: number, minutes: number, count: number): Check['got'] {
  const rule = { rate, window: minutes / 60, count };
  return () => [newAlarmRate(rule) * SHIFT, chanceOfCluster(rule, SHIFT), timeBetweenClusters(rule)];
}

/** Least counts for windows of 15, 30 and 60 minutes: at most 0.1 new alarms a shift, at most 0.01. */
const leastCounts: readonly [rate: number, tenth: string, hundredth: string][] = [
  [0.25, '3, 3, 3', '3, 4, 4'],
  [0.5, '3, 3, 4', '4, 4, 5'],
  [1, '4, 5, 6', '5, 6, 7'],
  [2, '5, 6, 8', '6, 7, 10'],
  [3, '6, 7, 10', '7, 9, 12'],
];
const least = (rate: number, wanted: number) => () =>
  [0.25, 0.5, 1].map((window) => smallestCount(rate, window, wanted / SHIFT));

const afterwards = (count: number, all: number, share: number) => () =>
  clusterAfterwards(count, all, share).chance;

export const clusters: Topic = {
  title: 'So many stops within so long',
  about: 'How often a cluster of stops comes by chance alone, before and after the fact.',
  checks: [
    ...from('[C] exact rate of new alarms; tried by a simulation of 200,000 h', [
      [
        'rate 1 an hour, 30 minutes, 3 stops: new alarms an hour',
        '0.075816',
        () => newAlarmRate({ rate: 1, window: 0.5, count: 3 }),
      ],
      [
        'rate 2 an hour, 30 minutes, 3 stops: new alarms in 8 h',
        '2.943',
        () => SHIFT * newAlarmRate({ rate: 2, window: 0.5, count: 3 }),
      ],
    ]),
    ...from('[M] formula of Naus 1982; [C] tried by simulation', [
      [
        '1 expected a window, 3 stops: chance in 2, 3, 16 windows',
        '0.221822, 0.337486, 0.918209',
        naus(1, 3),
      ],
      [
        '1.5 expected a window, 4 stops: chance in 2, 3, 16 windows',
        '0.201802, 0.313096, 0.902477',
        naus(1.5, 4),
      ],
      [
        '2 expected a window, 5 stops: chance in 2, 3, 16 windows',
        '0.177424, 0.280348, 0.873400',
        naus(2, 5),
      ],
      ...rules.map(
        ([rate, minutes, count, printed]) =>
          [
            `rate ${rate} an hour, ${minutes} minutes, ${count} stops: new alarms in 8 h, chance of one, hours between`,
            printed,
            ruleFigures(rate, minutes, count),
          ] as const,
      ),
    ]),
    ...from('[C] exact sum', [
      [
        '2 stops, rate 0.5 an hour, 15 minutes: chance in 8 h',
        '0.341123',
        () => chanceOfPair(0.5, 0.25, SHIFT),
      ],
      ['2 stops, rate 1 an hour, 30 minutes: chance in 8 h', '0.901914', () => chanceOfPair(1, 0.5, SHIFT)],
      [
        '2 stops, rate 0.25 an hour, 10 minutes: chance in 8 h',
        '0.0747593',
        () => chanceOfPair(0.25, 1 / 6, SHIFT),
      ],
    ]),
    ...from(
      '[C] from the exact rate',
      leastCounts.flatMap(([rate, tenth, hundredth]) => [
        [
          `least count, rate ${rate} an hour, 15, 30, 60 minutes, 0.1 new alarms in 8 h`,
          tenth,
          least(rate, 0.1),
        ],
        [
          `least count, rate ${rate} an hour, 15, 30, 60 minutes, 0.01 new alarms in 8 h`,
          hundredth,
          least(rate, 0.01),
        ],
      ]),
    ),
    ...from('[C] formula of Naus 1965; tried by simulation', [
      ['afterwards, 4 of 6 stops in a tenth of the shift', '0.042635', afterwards(4, 6, 0.1)],
      ['afterwards, 3 of 5 in a twentieth', '0.063235', afterwards(3, 5, 0.05)],
      ['afterwards, 5 of 8 in a tenth', '0.017601', afterwards(5, 8, 0.1)],
      ['afterwards, 6 of 10 in a quarter', '0.250341', afterwards(6, 10, 0.25)],
      ['afterwards, 2 of 5 in a twentieth', '0.672320', afterwards(2, 5, 0.05)],
      [
        'afterwards, 3 of 8 in 30 minutes of 8 h, beyond where it is exact',
        '0.4077',
        afterwards(3, 8, 1 / 16),
      ],
      [
        'afterwards, 4 of 8 in 30 minutes of 8 h, beyond where it is exact',
        '0.04712',
        afterwards(4, 8, 1 / 16),
      ],
    ]),
  ],
};
