import { laplaceTrend } from '../../../model/statistics/laplaceTrend.ts';
import { powerLaw } from '../../../model/statistics/powerLaw.ts';
import {
  chanceOfPairs,
  gapsBetween,
  reverseArrangements,
} from '../../../model/statistics/reverseArrangements.ts';
import { from, type Topic } from './check.ts';

/** Hours of failures, watched until 1500 h. */
const failures = [5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478];
const growth = powerLaw(failures, 1500)!;
const pairs = reverseArrangements(gapsBetween(failures))!;

export const failureTrend: Topic = {
  title: 'Trend of failures',
  about: 'Whether the failures of one machine grow rarer: Laplace, reverse arrangements, power law.',
  checks: from('[M] data of the NIST e-Handbook reliability-growth example; [C] R 4.2.2, plain arithmetic', [
    ['gaps', '5, 35, 3, 132, 214, 323, 35, 48, 504, 179', () => gapsBetween(failures)],
    [
      'Laplace until 1500 h: z, two-sided chance',
      '-1.326949, 0.184525',
      () => [laplaceTrend(failures, 1500)?.z, laplaceTrend(failures, 1500)?.chance],
    ],
    ['Laplace until the failure at 1478 h: z', '-1.910959', () => laplaceTrend(failures, 1478, 'failure')?.z],
    [
      // two gaps are 35 h, so the exact chance below is not theirs
      'reverse arrangements: pairs with the longer gap later, pairs, chance',
      '33, 45, -',
      () => [pairs.later, pairs.pairs, pairs.chance],
    ],
    [
      'chance of 33 or more of 45 among all orders of ten gaps, no two alike',
      '0.036275',
      () => chanceOfPairs(33, 10),
    ],
    [
      'MIL-HDBK-189: 2 Σ ln(T/t), degrees, upper chance',
      '37.228081, 20, 0.010986',
      () => [growth.statistic, growth.degrees, growth.rarer],
    ],
    [
      'power law: shape, without its bias, growth slope',
      '0.537229, 0.483506, 0.516494',
      () => [growth.shape, growth.shapeCorrected, 1 - growth.shapeCorrected!],
    ],
    [
      'mean time between failures at 1500 h, by either shape',
      '279.2106, 310.2340',
      () => [growth.mtbfNow, growth.mtbfNowCorrected],
    ],
  ]),
};
