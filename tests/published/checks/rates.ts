import { compareRates, countInterval, rateInterval } from '../../../model/statistics/poissonRate.ts';
import { binomialTest } from '../../../model/statistics/proportion.ts';
import { type Check, from, loose, type Topic } from './check.ts';

const intervals: readonly [count: number, printed: string][] = [
  [0, '0, 3.6889'],
  [1, '0.0253, 5.5716'],
  [5, '1.6235, 11.6683'],
  [10, '4.7954, 18.3904'],
  [20, '12.2165, 30.8884'],
];
const stops = compareRates({ count: 18, time: 40 }, { count: 7, time: 40 }, 0.95);
const cohorts = compareRates({ count: 11, time: 800 }, { count: 21, time: 3011 }, 0.95);
const ofCount =
  (count: number): Check['got'] =>
  () => {
    const { lower, upper } = countInterval(count, 0.95);
    return [lower, upper];
  };

export const rates: Topic = {
  title: 'Poisson counts and rates',
  about: 'Exact intervals of a count and a rate, exact comparison of two rates.',
  checks: [
    ...from('[C] R 4.2.2, poisson.test', [
      ...intervals.map(
        ([count, printed]) => [`count ${count}, 95 %, exact interval`, printed, ofCount(count)] as const,
      ),
      [
        '12 stops in 8 h: rate an hour, 95 %',
        '0.77507, 2.62020',
        () => {
          const interval = rateInterval({ count: 12, time: 8 }, 0.95);
          return [interval?.lower, interval?.upper];
        },
      ],
      [
        '18 stops in 40 h against 7 in 40 h: ratio, lower bound of 95 %, chance',
        '2.571429, 1.024796, 0.0432853',
        () => [stops?.ratio, stops?.interval.lower, stops?.chance],
      ],
      ['exact binomial test, 18 of 25 at one half', '0.0432853', () => binomialTest(18, 25, 0.5)],
      [
        '11 in 800 against 21 in 3011: ratio, chance',
        '1.971488, 0.0796686',
        () => [cohorts?.ratio, cohorts?.chance],
      ],
    ]),
    ...loose(1, 'printed too low: to 30 digits it is 7.283858780…', '[C] R 4.2.2, poisson.test', [
      ['18 stops in 40 h against 7 in 40 h: upper bound of 95 %', '7.283858', () => stops?.interval.upper],
    ]),
  ],
};
