import { describe, expect, it } from 'vitest';
import type { FigureId } from '../../../model/figures/figures.ts';
import type { Report } from '../../../model/report/report.ts';
import { wordsIn } from '../../../model/words/words.ts';
import { inventedReport } from './inventedReport.ts';

const { report: said, figures } = wordsIn('en').screen.past;
const { asUsual, odds } = said.paper;

/** Stations of which some have a usual count, and some are named. */
function stations(...all: readonly ('thin' | 'usual' | 'more' | 'noCount')[]): Report['stations'] {
  const one = inventedReport().stations[0]!;
  return all.map((kind) => ({
    ...one,
    kind: kind === 'noCount' ? undefined : 'reject',
    usual: kind === 'thin' || kind === 'noCount' ? undefined : 4,
    more: kind === 'more',
  }));
}

describe('what a report says of its stations', () => {
  it('[RE2] is that nothing could be judged, where nothing was', () => {
    expect(asUsual({ stations: stations('thin', 'thin', 'noCount') })).toBe(
      'No station could be judged: the past is too thin.',
    );
  });

  it('[RE2] is how many could be judged, where some could', () => {
    expect(asUsual({ stations: stations('usual', 'usual', 'thin', 'noCount') })).toBe(
      '2 of 3 stations could be judged: none is further from its own past than its runs differ by.',
    );
    expect(asUsual({ stations: stations('usual', 'thin') })).toBe(
      '1 of 2 stations could be judged: it is not further from its own past than its runs differ by.',
    );
    expect(asUsual({ stations: stations('more', 'usual', 'thin', 'thin') })).toBe(
      'Of the others 1 could be judged and is as usual; of 2 the past is too thin.',
    );
    expect(asUsual({ stations: stations('more', 'thin') })).toBe('Of the others the past is too thin.');
  });

  it('[RE2] is that none is further from its past, only where all were judged', () => {
    expect(asUsual({ stations: stations('usual', 'usual', 'noCount') })).toBe(
      'No station is further from its own past than its runs differ by.',
    );
    expect(asUsual({ stations: stations('more', 'usual') })).toBe('The others are as usual.');
    expect(asUsual({ stations: stations('more') })).toBe('');
  });

  it('[RE2] has the odds of shifts on shift reports alone, and where something was judged', () => {
    const judged = stations('usual', 'thin');
    expect(odds({ kind: 'shift', stations: judged })).toContain('simulated shifts');
    for (const kind of ['week', 'month', 'order', 'size'] as const)
      expect(odds({ kind, stations: judged })).toBe('');
    expect(odds({ kind: 'shift', stations: stations('thin') })).toBe('');
  });
});

describe('a figure of a page that was signed', () => {
  it('is never said to be all of it where something is missing', () => {
    const { inUnit } = figures.screen;
    expect(inUnit('coverage', 1 - 1 / 28_800)).toBe('99.9 %');
    expect(inUnit('coverage', 1)).toBe('100.0 %');
    expect(inUnit('coverage', 0.9994)).toBe('99.9 %');
    expect(inUnit('coverage', 0.9982)).toBe('99.8 %');
  });

  it('[RE4] that there is no more is called by its id, with its number', () => {
    const gone = 'cartonsOfOld' as FigureId;
    expect(figures.screen.nameOf(gone)).toBe('cartonsOfOld');
    expect(said.signed.difference({ figure: gone, was: 12.5, is: undefined })).toBe(
      'cartonsOfOld: 12.50, now none',
    );
    const value = { id: gone, value: 12.5, lower: undefined, upper: undefined, none: undefined };
    expect(figures.screen.told(value)).toEqual(['12.50', '']);
  });
});
