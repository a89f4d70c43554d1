import {
  countCusumRunLength,
  poissonChance,
  poissonReference,
} from '../../../model/statistics/countCusum.ts';
import { cusum, cusumRunLength, shewhartRunLength } from '../../../model/statistics/cusum.ts';
import { ewma, ewmaLimit, ewmaRunLength } from '../../../model/statistics/ewma.ts';
import { from, loose, type Topic } from './check.ts';

const around50 = [
  52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4,
  53.6, 52.1,
];
const around325 = [
  324.93, 324.68, 324.73, 324.35, 325.35, 325.23, 324.13, 324.53, 325.23, 324.6, 324.63, 325.15, 328.33,
  327.25, 327.83, 328.5, 326.68, 327.78, 326.88, 328.35,
];
const means = ewma(around50, 0.3, 50);
const sums = cusum(around325, 325, 0.3175, 4.1959);
const limit = ewmaLimit(2.0539, 0.3, 3);
/** k = 1.5; the sum is a multiple of ½, so S > 5 is S ≥ 5.5. */
const reached = { parts: 2, reference: 3, decision: 10 };
const exceeded = { parts: 2, reference: 3, decision: 11 };

export const ewmaCusum: Topic = {
  title: 'EWMA and CUSUM',
  about: 'Values as handbooks print them, and average run lengths worked out.',
  checks: [
    ...from('[F+C] NIST e-Handbook 6.3.2.4', [
      [
        'EWMA of weight 0.3 from 50',
        '50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99',
        () => means,
      ],
      ['upper limit of three deviations, s 2.0539', '52.5884', () => 50 + limit],
      ['values out of the limits', '0', () => means.filter((mean) => Math.abs(mean - 50) > limit).length],
    ]),
    ...loose(1, 'the last digit is cut from 47.411568', '[F] NIST e-Handbook 6.3.2.4', [
      ['lower limit of three deviations, s 2.0539', '47.4115', () => 50 - limit],
    ]),
    ...from('[C] plain arithmetic', [
      [
        'exact upper limits after 1, 2, 3 values',
        '51.8485, 52.2564, 52.4314',
        () => [1, 2, 3].map((after) => 50 + ewmaLimit(2.0539, 0.3, 3, after)),
      ],
    ]),
    ...from('[M] data of NIST e-Handbook 6.3.2.3; [C] recomputed', [
      [
        'CUSUM around 325, k 0.3175: sums above at 13 to 16',
        '3.0125, 4.9450, 7.4575, 10.6400',
        () => sums.high.slice(12, 16),
      ],
      ['first alarm with h 4.1959, at value', '14', () => sums.alarm! + 1],
      ['largest sum below', '0.7050', () => Math.max(...sums.low)],
      ['last sum above', '19.0600', () => sums.high.at(-1)],
    ]),
    ...from('[C] R spc 0.6.7, xcusum.arl, two-sided', [
      [
        'CUSUM k 0.5, h 4: run length in control, off by 1 deviation',
        '167.68, 8.38',
        () => [cusumRunLength(0.5, 4, 0), cusumRunLength(0.5, 4, 1)],
      ],
      [
        'CUSUM k 0.5, h 5: run length in control, off by 1 deviation',
        '465.44, 10.38',
        () => [cusumRunLength(0.5, 5, 0), cusumRunLength(0.5, 5, 1)],
      ],
    ]),
    ...from('[C] R spc 0.6.7, xewma.arl, two-sided, fixed limits', [
      [
        'EWMA of weight 0.1, width 2.7 (often quoted as 500): run length in control, off by 1 deviation',
        '368.99, 9.73',
        () => [ewmaRunLength(0.1, 2.7, 0), ewmaRunLength(0.1, 2.7, 1)],
      ],
      [
        'EWMA of weight 0.1, width 2.814: run length in control, off by 1 deviation',
        '499.58, 10.33',
        () => [ewmaRunLength(0.1, 2.814, 0), ewmaRunLength(0.1, 2.814, 1)],
      ],
    ]),
    ...from('[C] R 4.2.2, pnorm', [
      ['three deviations: run length in control', '370.40', () => shewhartRunLength(3, 0)],
    ]),
    ...from('[C] plain arithmetic', [
      [
        'reference of a Poisson CUSUM: 1 to 2, 2 to 4, 4 to 7',
        '1.442695, 2.885390, 5.360821',
        () => [poissonReference(1, 2), poissonReference(2, 4), poissonReference(4, 7)],
      ],
    ]),
    ...from('[C] R surveillance 1.20.3, arlCusum; simulated', [
      [
        'Poisson CUSUM k 1.5, alarm at S ≥ 5: run length at mean 1, at 2',
        '273.65, 9.438',
        () => [1, 2].map((mean) => countCusumRunLength(poissonChance(mean), reached)),
      ],
    ]),
    ...from('[C] R spc 0.6.7, pois.cusum.arl; simulated', [
      [
        'Poisson CUSUM k 1.5, alarm at S > 5: run length at mean 1, at 2',
        '407.96, 10.425',
        () => [1, 2].map((mean) => countCusumRunLength(poissonChance(mean), exceeded)),
      ],
    ]),
  ],
};
