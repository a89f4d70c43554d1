import type { Signs, SymptomKnowledge } from '../../../model/diagnosis/symptoms.ts';
import type { AdjustmentKnown, Cell, Troubled } from '../../../model/diagnosis/troubled.ts';
import { type Instant, MINUTE } from '../../../model/units/units.ts';

/** Small troubles worked by hand: a station with two adjustments and board, ten stretches of 30 minutes. */
export const at = (minute: number) => (minute * MINUTE) as Instant;

const signs = (rejects: Signs['rejects'], stops: Signs['stops'], symptoms: Signs['symptoms']): Signs => ({
  ...{ rejects, stops, symptoms },
});
const open = signs(new Map([['open', 'often']]), new Map(), new Map([['off-score', 'often']]));
const jams = signs(new Map(), new Map([[51, 'often']]), new Map([['crushed', 'often']]));

export const knowledge: SymptomKnowledge = {
  adjustments: [
    { number: '5.1', stations: ['major'], loose: 'easily', shows: 1, high: open, low: jams },
    { number: '5.2', stations: ['major'], loose: 'seldom', shows: 1, high: open, low: jams },
    { number: '9.1', stations: ['top'], loose: 'easily', shows: 1, high: open, low: jams },
  ],
  causes: [{ id: 'board', name: 'board of this lot', stations: ['major'], begins: ['lot'], signs: open }],
};

export const unread = (number: string, more: Partial<AdjustmentKnown> = {}): AdjustmentKnown => ({
  ...{ number, hasSensor: false, reading: undefined, cost: undefined, moves: [] },
  best: { value: 30, sd: 0.2 },
  ...more,
});

/** Rejects and stops of each stretch of 1,000 cartons; two of either are usual. */
export function cellsOf(rejects: readonly number[], stops: readonly number[]): readonly Cell[] {
  return rejects.map((count, nth) => ({
    ...{ from: at(30 * nth), to: at(30 * (nth + 1)), cartons: 1000 },
    counts: [count, stops[nth]!],
  }));
}

const usualStops = [2, 2, 1, 3, 2, 2, 2, 1, 3, 2];
export const courses = {
  usual: cellsOf([2, 1, 3, 2, 2, 2, 1, 2, 3, 2], usualStops),
  fromFirst: cellsOf([8, 9, 7, 8, 10, 8, 9, 8, 7, 9], usualStops),
  fromFifth: cellsOf([2, 1, 3, 2, 9, 8, 10, 9, 8, 9], usualStops),
  creeping: cellsOf([2, 1, 3, 2, 3, 4, 6, 8, 9, 11], usualStops),
};

export const troubled = (cells: readonly Cell[], more: Partial<Troubled> = {}): Troubled => ({
  station: 'major',
  reasons: [
    { kind: 'reject', id: 'open', station: 'major', usual: 0.002 },
    { kind: 'stop', id: 51, station: 'major', usual: 0.002 },
  ],
  ...{ cells, began: 'size', alike: 20, symptoms: new Map(), happenings: [] },
  adjustments: [unread('5.1'), unread('5.2'), unread('9.1')],
  ...more,
});
