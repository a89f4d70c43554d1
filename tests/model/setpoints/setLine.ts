import type { EntryBody } from '../../../model/entries/entries.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import type { Adjustment, Line } from '../../../model/line/line.ts';
import { boundSignals, changes, goods, type Rows, running, smallLine } from '../smallLine.ts';

const signals = [
  ...boundSignals.slice(0, -2),
  { id: 'guide', role: 'adjustment', of: '2.1' } as const,
  ...boundSignals.slice(-2),
];

function adjustment(number: string, station: string, twenty: number, fortyEight: number): Adjustment {
  return {
    number,
    name: `guide ${number}`,
    station,
    unit: 'mm',
    decimals: 1,
    min: 0,
    max: 60,
    book: new Map([
      ['sachet-20', twenty],
      ['sachet-48', fortyEight],
    ]),
  };
}

/** The small line with four adjustments, 2.1 read by a sensor, and four steps of a changeover. */
export const setLine: Line = smallLine(
  {
    adjustments: [
      adjustment('1.1', 'pick', 20, 30),
      { ...adjustment('2.1', 'fold', 12, 14.5), wheel: { clockwise: 'down', perTurn: 0.5 } },
      adjustment('2.2', 'fold', 26, 31.5),
      adjustment('3.1', 'discharge', 40, 40),
    ],
    changeoverSteps: [
      { id: 'cleared', kind: 'check', name: 'old blanks off', station: 'pick', in: ['size', 'artwork'] },
      {
        id: 'cups',
        kind: 'part',
        name: 'suction cups',
        station: 'pick',
        in: ['size'],
        parts: new Map([['sachet-48', 'large']]),
      },
      { id: 'trial', kind: 'check', name: 'trial cartons', in: ['size'] },
      { id: 'first', kind: 'approval', name: 'first cartons', in: ['size', 'startUp'] },
    ],
  },
  signals,
);

export function entry(second: number, id: string, body: EntryBody, author: object = SCREEN): Rows[number] {
  return [second, 'entry', JSON.stringify({ id, at: second, author, ...body })];
}

const SCREEN = { kind: 'screen', screen: 'desk' };
export const PERSON = { kind: 'person', number: '7' };

export function setFold(...rows: readonly Rows[]): LineFold {
  const fold = new LineFold(setLine);
  fold.take(changes(setLine, rows.flat()));
  return fold;
}

/** Runs Sachet 20 at its rate from its start-up on, with its guide at 12. */
export const atRate: Rows = [
  ...running().map(([second, id, value]): Rows[number] => [second, id, value]),
  [0, 'guide', 12],
  ...goods(1, 100, 1),
];

/** From 101 on the changeover to Sachet 48: setting up until 400, the size told at 120. */
export const settingUp: Rows = [
  [101, 'state', 11],
  [101, 'reason', 202],
  [101, 'mode', 4],
  [120, 'size', 48],
];

/** Production is back at 400, and at its rate about a minute later. */
export const backAtRate: Rows = [
  [400, 'mode', 1],
  [400, 'reason', 0],
  [400, 'state', 6],
  ...goods(401, 500, 101),
];
