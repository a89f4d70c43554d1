import { mostWithin } from '../../../model/statistics/clusterAfterwards.ts';
import { laplaceTrend } from '../../../model/statistics/laplaceTrend.ts';
import {
  changePosterior,
  logLikelihoodSteady,
  poissonChanges,
} from '../../../model/statistics/poissonChange.ts';
import { powerLaw } from '../../../model/statistics/powerLaw.ts';
import { gapsBetween } from '../../../model/statistics/reverseArrangements.ts';
import { from, type Topic } from './check.ts';

/** Days of explosions in British coal mines after the begin of 1851, in years of 365.25 days (R boot::coal, 191 dates). */
const days = [
  74, 231, 354, 356, 480, 492, 496, 506, 722, 802, 814, 847, 913, 1145, 1971, 2011, 2023, 2052, 2242, 2339,
  2404, 2590, 2613, 2705, 2902, 3333, 3349, 3503, 3598, 3623, 3642, 3720, 3922, 3958, 4068, 4344, 4360, 4448,
  4673, 4726, 4743, 5281, 5468, 5502, 5603, 5644, 5783, 5825, 5826, 6076, 6156, 6159, 6483, 6539, 6570, 6666,
  6736, 6777, 6870, 6894, 6985, 7128, 7144, 7171, 7315, 7360, 7366, 7574, 7603, 7715, 7758, 7951, 8085, 8505,
  8600, 8725, 8759, 8886, 9104, 9106, 9106, 9484, 9520, 9535, 9566, 9781, 9792, 9929, 9933, 9948, 10020,
  10116, 10240, 10290, 10410, 10613, 10789, 10844, 10937, 10996, 11311, 11370, 11431, 11432, 11445, 11634,
  11979, 11999, 12080, 12366, 12480, 12588, 12776, 13009, 13037, 13059, 13120, 13198, 13297, 13623, 13898,
  13952, 14169, 14282, 14314, 14702, 14853, 15214, 15526, 15880, 16187, 16462, 16540, 16557, 17762, 18406,
  18873, 19744, 19792, 19915, 20371, 20869, 20918, 21049, 21231, 21486, 21680, 21904, 22470, 22932, 23160,
  23966, 24483, 26126, 26180, 26506, 27818, 28166, 28911, 29128, 29248, 29523, 29543, 29609, 29901, 29905,
  30273, 30580, 30916, 30935, 31264, 31594, 31906, 32442, 32587, 32662, 33026, 33063, 33082, 33238, 33285,
  33414, 35044, 35073, 35290, 35297, 35315, 36673, 39039, 39991, 40623,
];
const YEAR = 365.25;
const YEARS = 112;
const counts = Array.from(
  { length: YEARS },
  (_, year) => days.filter((day) => Math.floor(day / YEAR) === year).length,
);
const changes = poissonChanges(counts);
const [best] = changes;
const steady = logLikelihoodSteady(counts);
const posterior = changePosterior(counts, 2, 1);
const gaps = gapsBetween(days).slice(1);
const growth = powerLaw(days, YEARS * YEAR)!;

/** The year at whose end a change lies, as the literature names it. */
const yearOf = (after: number) => 1850 + after;
const likeliest = posterior
  .map((chance, place) => ({ chance, year: yearOf(place + 1) }))
  .sort((a, b) => b.chance - a.chance);

/** The first year by which the change has come with such a chance. */
function posteriorYear(below: number): number {
  let sum = 0;
  const sums = posterior.map((chance) => {
    sum += chance;
    return sum;
  });
  return yearOf(1 + sums.findIndex((one) => one >= below));
}

export const coal: Topic = {
  title: 'A real stream of events',
  about: 'Explosions in coal mines from 1851 to 1962, whose rate fell near 1890.',
  checks: [
    ...from('[C] R boot 1.3-28.1, coal; R 4.2.2', [
      ['explosions, years', '191, 112', () => [days.length, counts.length]],
      [
        'explosions of each year from 1851 to 1962',
        '4, 5, 4, 1, 0, 4, 3, 4, 0, 6, 3, 3, 4, 0, 2, 6, 3, 3, 5, 4, 5, 3, 1, 4, 4, 1, 5, 5, 3, 4, 2, 5, 2, 2, 3, 4, 2, 1, 3, 2, 2, 1, 1, 1, 1, 3, 0, 0, 1, 0, 1, 1, 0, 0, 3, 1, 0, 3, 2, 2, 0, 1, 1, 1, 0, 1, 0, 1, 0, 0, 0, 2, 1, 0, 0, 0, 1, 1, 0, 2, 3, 3, 1, 1, 2, 1, 1, 1, 1, 2, 3, 3, 0, 0, 0, 1, 4, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 1',
        () => counts,
      ],
      [
        'best single change: year, explosions and years before, and after',
        '1891, 127, 41, 64, 71',
        () => [
          yearOf(best!.after),
          best!.rateBefore * best!.after,
          best!.after,
          best!.rateAfter * (YEARS - best!.after),
          YEARS - best!.after,
        ],
      ],
      ['rates a year before and after', '3.097561, 0.901408', () => [best!.rateBefore, best!.rateAfter]],
      [
        'log-likelihood steady, with one change, twice the gain',
        '-203.570170, -168.575997, 69.988345',
        () => [steady, best!.logLikelihood, 2 * (best!.logLikelihood - steady)],
      ],
      [
        'next best years',
        '1890, 1889, 1887, 1892, 1886',
        () => changes.slice(1, 6).map(({ after }) => yearOf(after)),
      ],
      [
        'posterior of the year, both rates from gamma(2, 1): likeliest and chances',
        '1891, 0.2383, 1890, 0.1843, 1889, 0.1463',
        () => likeliest.slice(0, 3).flatMap(({ year, chance }) => [year, chance]),
      ],
      [
        'posterior of the year: mean, 95 %',
        '1889.937, 1886, 1896',
        () => [
          posterior.reduce((sum, chance, place) => sum + chance * yearOf(place + 1), 0),
          posteriorYear(0.025),
          posteriorYear(0.975),
        ],
      ],
      ['Laplace on the dates, 1851 to 1963: z', '-7.678157', () => laplaceTrend(days, YEARS * YEAR)?.z],
      ['2 Σ ln(T/t), degrees', '575.209, 382', () => [growth.statistic, growth.degrees]],
      [
        'gaps in days: how many, shortest, middle, mean, longest',
        '190, 0, 113.5, 213.416, 2366',
        () => {
          const sorted = gaps.toSorted((a, b) => a - b);
          const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
          return [gaps.length, sorted[0], (sorted[94]! + sorted[95]!) / 2, mean, sorted.at(-1)];
        },
      ],
      ['most in a trailing year', '7', () => mostWithin(days, YEAR)?.count],
    ]),
  ],
};
