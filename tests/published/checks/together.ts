import { holm } from '../../../model/statistics/holm.ts';
import { compareOverdispersed } from '../../../model/statistics/overdispersed.ts';
import { fisherExact } from '../../../model/statistics/twoProportions.ts';
import { from, type Topic } from './check.ts';

const seven = [0.5, 0.01, 0.001, 0.69, 0.02, 0.05, 0.0025];
/** 18 stops in 40 h against 7 in 30 h, of a rate of 0.4 an hour, where counts vary 1.8 times as much as by chance. */
const uneven = compareOverdispersed(
  { count: 18, time: 40 },
  { count: 7, time: 30 },
  { rate: 0.4, factor: 1.8 },
);
const wide = compareOverdispersed(
  { count: 190, time: 24 },
  { count: 52, time: 24.8 },
  { rate: 4.96, factor: 6 },
);

export const together: Topic = {
  title: 'Two counts, and several comparisons at once',
  about:
    'Exact comparison of two shares; of two counts that vary more than by chance; several comparisons under one level.',
  checks: [
    ...from('[F] R package HDLSSkST, Holm, example of its manual', [
      [
        'Holm’s procedure at 0.05 on 0.50, 0.01, 0.001, 0.69, 0.02, 0.05, 0.0025: which are called',
        '0, 0, 1, 0, 0, 0, 1',
        () => holm(seven).map((chance) => (chance < 0.05 ? 1 : 0)),
      ],
    ]),
    ...from('[K] Holm 1979: the smallest times 7, the next times 6, and never less than one before', [
      ['the same seven, adjusted', '1, 0.050, 0.007, 1, 0.08, 0.15, 0.015', () => holm(seven)],
    ]),
    ...from('[C] scipy 1.17, betabinom', [
      ['18 stops in 40 h against 7 in 30 h, factor 1.8', '0.28233827', () => uneven],
      ['190 rejects against 52, factor 6', '6.4334446e-5', () => wide],
    ]),
    ...from('[C] scipy 1.17, fisher_exact', [
      [
        '190 of 24,000 against 52 of 24,800',
        '7.111361707e-21',
        () => fisherExact({ count: 190, trials: 24_000 }, { count: 52, trials: 24_800 }),
      ],
    ]),
    ...from('[M] Fisher, The Design of Experiments (1935): the lady tasting tea', [
      [
        '3 of 4 against 1 of 4',
        '0.4857',
        () => fisherExact({ count: 3, trials: 4 }, { count: 1, trials: 4 }),
      ],
    ]),
  ],
};
