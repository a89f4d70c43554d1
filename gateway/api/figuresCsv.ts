import { figureOf } from '../../model/figures/figures.ts';
import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import { wordsIn } from '../../model/words/words.ts';
import { csvText } from './csvText.ts';

const { of: said, screen, kinds } = wordsIn('en').screen.past.figures;

/** Key figures as a file: each with its unit, range and definition, so that the file explains itself. Not known is empty. */
export function figuresCsv({ values }: FiguresAnswer): string {
  const number = (value: number | undefined) => (value === undefined ? '' : String(value));
  const rows = values.map(({ id, value, lower, upper, none }) => {
    const { unit, kind } = figureOf(id);
    const { name, how, source } = said[id];
    return [
      id,
      name,
      number(value),
      screen.fileUnits[unit],
      number(lower),
      number(upper),
      none === undefined ? '' : screen.none[none],
      kinds[kind],
      how,
      source ?? '',
    ];
  });
  return csvText([screen.fileColumns, ...rows]);
}
