import { type MtbfBounds, mtbfBounds, mtbfLowerBound } from '../../../model/statistics/mtbfBounds.ts';
import { from, loose, type Topic } from './check.ts';

const ends = (bounds: MtbfBounds | undefined) => [bounds?.lower, bounds?.upper];
/** Bounds in units of the mean itself. */
const factors = (failures: number, confidence: number) => ends(mtbfBounds(failures, failures, confidence));

const printed: readonly [failures: number, at80: string, at90: string, at95: string][] = [
  [1, '0.2571, 9.4912', '0.2108, 19.4957', '0.1795, 39.4979'],
  [5, '0.5391, 2.0554', '0.4756, 2.5379', '0.4285, 3.0798'],
  [10, '0.6491, 1.6074', '0.5895, 1.8432', '0.5438, 2.0853'],
];

export const mtbf: Topic = {
  title: 'Mean time between failures',
  about: 'Bounds by chi-square, also of a time without a failure.',
  checks: [
    ...from('[F] formula NIST e-Handbook 8.4.5.1; [C] R 4.2.2, qchisq', [
      [
        '2 failures in 800 h, 90 %: mean time, bounds',
        '400, 127.069, 2251.229',
        () => {
          const bounds = mtbfBounds(800, 2, 0.9);
          return [bounds?.mtbf, bounds?.lower, bounds?.upper];
        },
      ],
      ...printed.flatMap(([failures, at80, at90, at95]) => [
        [`factors of ${failures} failures, 80 %`, at80, () => factors(failures, 0.8)] as const,
        [`factors of ${failures} failures, 90 %`, at90, () => factors(failures, 0.9)] as const,
        [`factors of ${failures} failures, 95 %`, at95, () => factors(failures, 0.95)] as const,
      ]),
      [
        'no failure in 800 h: lower bound at 60, 80, 90, 95 %',
        '873.085, 497.068, 347.436, 267.047',
        () => [0.6, 0.8, 0.9, 0.95].map((confidence) => mtbfLowerBound(800, 0, confidence)),
      ],
      ['no failure in 800 h: mean time', '-', () => mtbfBounds(800, 0, 0.9)?.mtbf],
      [
        'watched until the tenth failure at 1478 h, 90 %',
        '94.1089, 272.4220',
        () => ends(mtbfBounds(1478, 10, 0.9, 'failure')),
      ],
    ]),
    ...loose(0.5, 'printed in whole hours', '[M] example of NIST e-Handbook 8.4.5.1', [
      ['2 failures in 800 h, 90 %: bounds', '127, 2251', () => ends(mtbfBounds(800, 2, 0.9))],
    ]),
  ],
};
