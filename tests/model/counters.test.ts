import { describe, expect, it } from 'vitest';
import { counterStep } from '../../model/counters/counters.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { epochMs, seconds } from '../../model/units/units.ts';
import { viewOf } from '../../model/view/lineView.ts';
import { at, changes, foldOf, goods, running, smallLine } from './smallLine.ts';

const U16 = 65_536;
const U32 = 4_294_967_296;

describe('counters', () => {
  it('[CO1] the first value is the base and counts nothing', () => {
    const line = smallLine();
    const fold = new LineFold(line);
    fold.take(changes(line, [...running().slice(0, -2), [0, 'good', 4711], [1, 'good', 4712]]));
    expect(fold.state.shift.account.good).toBe(1);
  });

  it('[CO2] a counter that rolls over at its width goes on counting', () => {
    expect(counterStep(65_530, 3, U16, seconds(10), 120)).toEqual({ gained: 9, mark: 'rollover' });
    expect(counterStep(4_294_967_290, 5, U32, seconds(10), 120)).toEqual({ gained: 11, mark: 'rollover' });
    expect(counterStep(2_147_483_640, 2, 2 ** 31, seconds(10), 120)).toEqual({
      gained: 10,
      mark: 'rollover',
    });
    expect(counterStep(2_147_483_640, 2, 2 ** 31 - 1, seconds(10), 120)).toEqual({
      gained: 9,
      mark: 'rollover',
    });
    expect(counterStep(2_147_483_647, -2_147_483_648, U32, seconds(1), 120)).toEqual({
      gained: 1,
      mark: 'rollover',
    });
  });

  it('[CO1] where a link says that what follows is another machine’s, counters begin anew from their first value', () => {
    const fold = foldOf([
      ...running(),
      ...goods(1, 10, 1),
      [11, 'rejectOpen', 3],
      [20, 'link', 'anew'],
      [21, 'good', 500],
      [21, 'rejectOpen', 40_000],
      [22, 'good', 501],
      [23, 'rejectOpen', 40_001],
    ]);
    expect(fold.state.shift.account.good).toBe(11);
    expect(fold.state.shift.rejects).toBe(4);
    expect(fold.state.counterMarks).toEqual([]);
    expect(fold.state.gap).toBeNull();
  });

  it('[CO3] a fall that no rate could have made is a reset, and the new value is what was counted', () => {
    expect(counterStep(40_000, 0, U16, seconds(10), 60)).toEqual({ gained: 0, mark: 'reset' });
    expect(counterStep(40_000, 7, U16, seconds(10), 60)).toEqual({ gained: 7, mark: 'reset' });
  });

  it('[CO3] a jump up that no rate could have made is taken, and marked: it may have piled up for an hour, or longer', () => {
    expect(counterStep(100, 160, U16, seconds(1), 60)).toEqual({ gained: 60, mark: 'implausible' });
    expect(counterStep(100, 160, U16, seconds(60), 60)).toEqual({ gained: 60, mark: 'plain' });
    // 60 s are heard of; it stood for two hours before that, or is told so seldom
    expect(counterStep(0, 10_000, U16, seconds(60), 60, seconds(7200))).toEqual({
      gained: 10_000,
      mark: 'implausible',
    });
  });

  it('[CO3] a jump up that neither could have made is a counter set to another number: nothing was counted', () => {
    // an hour x 60 a minute x 1.5, and 20
    expect(counterStep(0, 5420, U16, seconds(1), 60)).toEqual({ gained: 5420, mark: 'implausible' });
    expect(counterStep(0, 5421, U16, seconds(1), 60)).toEqual({ gained: 0, mark: 'set' });
    // put back by 1,830 by hand: a counter of 16 bits shows that as a jump up
    expect(counterStep(3, 63_709, U16, seconds(1), 120)).toEqual({ gained: 0, mark: 'set' });
    const fold = foldOf([
      ...running(),
      ...goods(1, 10, 1),
      [11, 'good', 4_294_960_000],
      [12, 'good', 4_294_960_001],
    ]);
    expect(fold.state.shift.account.good).toBe(11);
    expect(fold.state.counterMarks.map(({ mark }) => mark)).toEqual(['set']);
  });

  it('[CO3] [CO4] what a counter did that counters do not is told among the notices of its shift, once for each kind', () => {
    const fold = foldOf([
      ...running(),
      [60, 'good', 60],
      [60, 'rejectOpen', 4000],
      [61, 'rejectOpen', 4000],
      [120, 'good', 0],
      [120, 'rejectOpen', 3],
      [130, 'good', 50],
      [131, 'good', 48],
    ]);
    const told = (second: number) =>
      viewOf(fold, at(second), { servers: [] }).matters.filter(({ kind }) => kind === 'counterReset');
    const moment = (second: number) => epochMs(at(second));
    expect(told(132)).toEqual([
      { kind: 'counterReset', mark: 'reset', counts: 'goodCount', of: undefined, at: moment(120), times: 2 },
      {
        kind: 'counterReset',
        mark: 'implausible',
        counts: 'rejectCount',
        of: 'open',
        at: moment(60),
        times: 1,
      },
      {
        kind: 'counterReset',
        mark: 'correction',
        counts: 'goodCount',
        of: undefined,
        at: moment(131),
        times: 1,
      },
    ]);
    fold.take(changes(smallLine(), [[8 * 3600 + 1, 'good', 48]]));
    expect(told(8 * 3600 + 2)).toEqual([]);
  });

  it('[CO4] a small step back is a correction: nothing is counted and it is told', () => {
    expect(counterStep(500, 498, U16, seconds(1), 60)).toEqual({ gained: 0, mark: 'correction' });
    // it had just rolled over
    expect(counterStep(2, 65_534, U16, seconds(1), 60)).toEqual({ gained: 0, mark: 'correction' });
    const line = smallLine();
    const fold = new LineFold(line);
    const events = fold.take(changes(line, [...running(), [10, 'good', 500], [11, 'good', 498]]));
    expect(events.filter((event) => event.kind === 'CounterMarked').at(-1)).toMatchObject({
      mark: 'correction',
    });
  });
});
