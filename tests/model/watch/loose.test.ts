import { describe, expect, it } from 'vitest';
import type { LineFold } from '../../../model/fold/fold.ts';
import { completed, FIRST_SETTINGS, type NoticeRules } from '../../../model/notices/settings.ts';
import { epochMs } from '../../../model/units/units.ts';
import { seenAt } from '../../../model/view/seen.ts';
import { conditionsOf } from '../../../model/watch/conditions.ts';
import { lookFirst } from '../../../model/watch/lookFirst.ts';
import { entry, setFold } from '../setpoints/setLine.ts';
import { at, goods, type Rows, running } from '../smallLine.ts';

const ran: Rows = [...running(), [0, 'guide', 12], ...goods(1, 200, 1)];
/** Ten marks in ten moves, one every minute from 300 on; the line goes on counting. */
const creeping: Rows = Array.from({ length: 10 }, (_, n): Rows[number] => [
  300 + 60 * n,
  'guide',
  12.1 + 0.1 * n,
]);

const told = (fold: LineFold, second: number, marks = 4, holding: readonly string[] = []) => {
  const rules: NoticeRules = {
    ...FIRST_SETTINGS.when,
    loose: { on: true, marks },
    rate: { ...FIRST_SETTINGS.when.rate, on: false },
  };
  return conditionsOf({
    seen: seenAt(fold, at(second)),
    outside: { servers: [] },
    wall: epochMs(at(second)),
    begun: epochMs(at(0)),
    rules,
    holding: new Set(holding),
    stations: [],
    tested: new Map(),
    disk: undefined,
  }).present.filter(({ facts }) => facts.kind === 'loose');
};

describe('an adjustment that works loose', () => {
  it('[WL2] is told when its sensor has gone four marks in several moves, with where it was left', () => {
    expect(told(setFold(ran, creeping.slice(0, 3)), 430)).toEqual([]);
    const [one] = told(setFold(ran, creeping.slice(0, 4)), 490);
    expect(one).toMatchObject({ key: 'loose/2.1', station: 'fold', level: 'call', since: at(300) });
    expect(one?.facts).toMatchObject({ left: 12, reads: 12.4, book: 12, adjustment: '2.1' });
    expect(told(setFold(ran, creeping.slice(0, 4)), 490, 5)).toEqual([]);
  });

  it('[WL2] once told it holds until it is clearly back, so that it does not come and go at the border', () => {
    const back: Rows = [
      [540, 'guide', 12.3],
      [600, 'guide', 12.2],
      [660, 'guide', 12.1],
    ];
    const nearly = setFold(ran, creeping.slice(0, 4), back.slice(0, 2));
    expect(told(nearly, 610)).toEqual([]);
    expect(told(nearly, 610, 4, ['loose/2.1'])).toHaveLength(1);
    expect(told(setFold(ran, creeping.slice(0, 4), back), 670, 4, ['loose/2.1'])).toEqual([]);
  });

  it('[WL1] one large move is a hand’s, and so is every move while the line stands', () => {
    expect(told(setFold(ran, [[300, 'guide', 13]]), 310)).toEqual([]);
    const stood: Rows = [[290, 'state', 11], [290, 'reason', 51], ...creeping];
    expect(told(setFold(ran, stood), 900)).toEqual([]);
  });

  it('[WL1] hands that set it, or say where it stands, begin it anew', () => {
    const crept = creeping.slice(0, 5);
    expect(told(setFold(ran, crept), 560)).toHaveLength(1);
    expect(told(setFold(ran, crept, [[570, 'guide', 13.4]]), 580)).toEqual([]);
    const reading = {
      kind: 'reading',
      station: 'fold',
      adjustment: '2.1',
      value: 12.5,
      how: 'typed',
    } as const;
    expect(told(setFold(ran, crept, [entry(570, 'r', reading)]), 580)).toEqual([]);
  });

  it('[WL1] a sensor that wavers by a mark is no adjustment that creeps', () => {
    const wavering: Rows = Array.from({ length: 20 }, (_, n): Rows[number] => [
      300 + 60 * n,
      'guide',
      n % 2 === 0 ? 12.1 : 12,
    ]);
    const fold = setFold(ran, wavering);
    expect(told(fold, 1600, 1)).toEqual([]);
    expect(fold.state.creeps).toEqual([]);
  });

  it('[WL2] at a station without a sensor the scales are named that nobody reads, the longest ago first', () => {
    const read = (adjustment: string, value: number) =>
      ({ kind: 'reading', station: 'fold', adjustment, value, how: 'typed' }) as const;
    const fold = setFold(ran, [entry(210, 'a', read('2.2', 26))]);
    expect(lookFirst(fold.index, fold.state, 'fold', [])).toEqual([
      {
        kind: 'readScale',
        adjustment: '2.2',
        name: 'guide 2.2',
        unit: 'mm',
        decimals: 1,
        entered: 26,
        at: epochMs(at(210)),
      },
    ]);
  });

  it('[WL2] settings from before it was known have it as it is at first', () => {
    const { loose: _, ...when } = FIRST_SETTINGS.when;
    const { loose: __, ...levels } = when.levels;
    const old = { ...FIRST_SETTINGS, when: { ...when, levels } } as never;
    expect(completed(old)).toEqual(FIRST_SETTINGS);
  });
});
