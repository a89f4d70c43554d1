import { poissonAtLeast } from '../../../model/statistics/poisson.ts';
import { chanceAfter, surprise } from '../../../model/statistics/surprise.ts';
import { from, type Topic } from './check.ts';

/** Stops and hours of the past, hours now, stops now; mean, chance of so many or more, bits. */
const rows: readonly [before: number, hours: number, time: number, count: number, printed: string][] = [
  [12, 40, 1, 3, '0.3125, 0.004792, 7.705'],
  [12, 40, 0.5, 3, '0.15625, 0.000690, 10.502'],
  [0, 40, 1, 1, '0.0125, 0.012270, 6.349'],
  [40, 40, 1, 5, '1.0125, 0.004463, 7.808'],
];
const SOURCE = '[C] R 4.2.2, pnbinom and dnbinom';

export const surprises: Topic = {
  title: 'Surprise after a thin past',
  about: 'Gamma-Poisson prediction with the Jeffreys start, beside what a plain Poisson rate would say.',
  checks: [
    ...from(
      SOURCE,
      rows.map(([before, hours, time, count, printed]) => [
        `${before} stops in ${hours} h, then ${count} in ${time} h: mean, chance, bits`,
        printed,
        () => {
          const told = surprise({ count, time }, { count: before, time: hours });
          return [told?.mean, told?.chance, told?.bits];
        },
      ]),
    ),
    ...from(SOURCE, [
      [
        'the plain Poisson chances of the same',
        '0.003599, 0.000503, 0, 0.003660',
        () => rows.map(([before, hours, time, count]) => poissonAtLeast(count, (before / hours) * time)),
      ],
      [
        '12 stops in 40 h, then in 1 h: chance of exactly 0, 1, 2, 3, 4, 5',
        '0.734432, 0.223912, 0.0368636, 0.00434571, 0.000410723, 0.0000330582',
        () => [0, 1, 2, 3, 4, 5].map((count) => chanceAfter({ count, time: 1 }, { count: 12, time: 40 })),
      ],
    ]),
  ],
};
