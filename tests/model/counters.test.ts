import { describe, expect, it } from 'vitest';
import { counterStep } from '../../model/counters/counters.ts';
import { LineFold } from '../../model/fold/fold.ts';
import { seconds } from '../../model/units/units.ts';
import { changes, running, smallLine } from './smallLine.ts';

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

  it('[CO3] a fall that no rate could have made is a reset, and the new value is what was counted', () => {
    expect(counterStep(40_000, 0, U16, seconds(10), 60)).toEqual({ gained: 0, mark: 'reset' });
    expect(counterStep(40_000, 7, U16, seconds(10), 60)).toEqual({ gained: 7, mark: 'reset' });
  });

  it('[CO3] a jump up that no rate could have made is taken, and marked', () => {
    expect(counterStep(100, 160, U16, seconds(1), 60)).toEqual({ gained: 60, mark: 'implausible' });
    expect(counterStep(100, 160, U16, seconds(60), 60)).toEqual({ gained: 60, mark: 'plain' });
  });

  it('[CO4] a small step back is a correction: nothing is counted and it is told', () => {
    expect(counterStep(500, 498, U16, seconds(1), 60)).toEqual({ gained: 0, mark: 'correction' });
    const line = smallLine();
    const fold = new LineFold(line);
    const events = fold.take(changes(line, [...running(), [10, 'good', 500], [11, 'good', 498]]));
    expect(events.filter((event) => event.kind === 'CounterMarked').at(-1)).toMatchObject({
      mark: 'correction',
    });
  });
});
