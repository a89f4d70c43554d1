import type { FigureId } from '../figures/figures.ts';
import { happeningFigures } from './english-figures-happenings.ts';
import { lineFigures } from './english-figures-line.ts';
import { setPointFigures } from './english-figures-setpoints.ts';
import { stationFigures } from './english-figures-station.ts';
import { type FigureWords, outputFigures } from './english-figures-output.ts';

/** Every figure, in words. */
export const FIGURE_WORDS: Readonly<Record<FigureId, FigureWords>> = {
  ...outputFigures,
  ...lineFigures,
  ...happeningFigures,
  ...stationFigures,
  ...setPointFigures,
};
