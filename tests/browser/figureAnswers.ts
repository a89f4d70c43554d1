import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import { figureValues } from '../../model/figures/figureValues.ts';
import { indexOf } from '../../model/fold/lineIndex.ts';
import { type FiguresPast, NOTHING_PAST } from '../../model/past/figuresPast.ts';
import type { EpochMs, Millis } from '../../model/units/units.ts';
import { smallLine } from '../model/smallLine.ts';

const index = indexOf(smallLine());

/** Eight hours of a line, worked by hand. */
const sum: FiguresPast = {
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
  stops: { all: 20, stood: 60, own: 12, minor: 5, caused: 1, byGuard: 0 },
};

/** What the gateway answers to whoever asks for the figures of a stretch of time. */
export function figureAnswers(path: string, asked: URLSearchParams): FiguresAnswer | undefined {
  if (!path.endsWith('/past/figures')) return undefined;
  const moment = (name: string, otherwise: number) => Number(asked.get(name) ?? otherwise) as EpochMs;
  const from = moment('from', 0);
  const to = moment('to', from + 8 * 3_600_000);
  return {
    seen: { from, to, since: undefined, unknown: 0 as Millis, isolated: 0 as Millis },
    parts: 1,
    shifts: 1,
    first: from,
    last: to,
    values: figureValues({ index, sum, account: { possible: 23_000, total: 2220 } }),
    ideal: index.line.sizes.map(({ id, name, ideal }) => ({ id, name, ideal })),
    minorStopMinutes: 10,
  };
}
