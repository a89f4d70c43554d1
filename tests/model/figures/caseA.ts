import { type FiguresPast, NOTHING_PAST } from '../../../model/past/figuresPast.ts';

/** Case A of `check-values`: minutes and cartons worked by hand, 60 a minute. */
export const caseA: FiguresPast = {
  ...NOTHING_PAST,
  pot: 480,
  plannedDown: 30,
  elements: {
    pbt: 450,
    apt: 372,
    aust: 18,
    adet: 42,
    adot: 18,
    plannedRunTime: 21_204 / 60,
    pq: 21_204,
    gq: 20_780,
    failures: 7,
    restoring: 42,
  },
  made: { good: 20_780, rejected: 400, crushed: 24, notLoaded: 3, missed: 5 },
  stops: { all: 20, stood: 78, own: 12, minor: 5, caused: 1, byGuard: 0 },
};
