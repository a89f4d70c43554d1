import type { Learned, SetPointRow, SetPointsPast } from '../../model/past/setPointsPast.ts';
import { words } from '../app/words.ts';
import type { Numbered } from '../figures/pieces.ts';

const { past } = words.screen;
const said = past.setPoints;
const { count } = past;

/** Numbers of the heading's answer, in the order in which its sentences have them. */
export function leadNumbers({ sums, rows }: SetPointsPast): readonly Numbered[] {
  const { off, adjustments, confirmed, unknown } = sums;
  return [
    ['setPointSum', off > 0 ? count(off) : ''],
    ['setPointSum', count(adjustments)],
    ...rows
      .filter(({ stands }) => stands.tried === 'never')
      .map((row): Numbered => ['adjustmentOff', said.signed(row.stands.off ?? 0, row)]),
    ['setPointSum', confirmed > 0 ? count(confirmed) : ''],
    ['setPointSum', unknown > 0 ? count(unknown) : ''],
  ];
}

/** Numbers of what the book was learned from. */
export function learnedNumbers({ from }: SetPointsPast): readonly Numbered[] {
  return from.runs === 0
    ? []
    : [
        ['setPointRuns', count(from.runs)],
        ['setPointCartons', count(from.cartons)],
      ];
}

/** Numbers of which number an adjustment should have. */
export function whichNumbers(row: SetPointRow): readonly Numbered[] {
  const { learned, book } = row;
  return [
    ...(learned?.recommended === undefined
      ? []
      : ([['setPointRecommended', said.number(learned.recommended, row)]] as const)),
    ...(book === undefined ? [] : ([['adjustmentBook', said.number(book, row)]] as const)),
  ];
}

/** Numbers of how that is known. */
export function howNumbers(row: SetPointRow): readonly Numbered[] {
  const { learned } = row;
  if (!learned) return [];
  const { likely } = learned;
  return [
    ...countedNumbers(learned),
    ...(likely
      ? ([
          ['setPointLikely', said.number(likely.from, row)],
          ['setPointLikely', said.number(likely.to, row)],
        ] as const)
      : []),
  ];
}

export function countedNumbers({ runs, settings, lots }: Learned): readonly Numbered[] {
  return [
    ['setPointRuns', count(runs)],
    ['setPointSettings', count(settings)],
    ['setPointLots', lots > 0 ? count(lots) : ''],
  ];
}

export function teachesNumbers(row: SetPointRow): readonly Numbered[] {
  const teaches = row.learned?.teaches;
  return teaches ? [['setPointTeaches', said.number(teaches.to, row)]] : [];
}
