import type { FiguresAnswer } from '../../model/figures/figuresAnswer.ts';
import { figureValues } from '../../model/figures/figureValues.ts';
import { indexOf } from '../../model/fold/lineIndex.ts';
import type { EpochMs, Millis } from '../../model/units/units.ts';
import { smallLine } from '../model/smallLine.ts';
import { caseA } from '../model/figures/caseA.ts';

const index = indexOf(smallLine());

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
    values: figureValues({ index, sum: caseA, account: { possible: 23_000, total: 2220 } }),
    ideal: index.line.sizes.map(({ id, name, ideal }) => ({ id, name, ideal })),
    minorStopMinutes: 10,
  };
}
