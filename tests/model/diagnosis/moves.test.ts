import { describe, expect, it } from 'vitest';
import { joined } from '../../../model/diagnosis/moves.ts';
import type { Move } from '../../../model/diagnosis/troubled.ts';
import { at } from './troubles.ts';

const move = (minute: number, from: number | undefined, to: number, by: Move['by'] = 'hand'): Move => ({
  ...{ at: at(minute), from, to, by },
});

describe('moves as people speak of them', () => {
  it('[DG2] what one hand did in a few minutes is one move, from where it began to where it ended', () => {
    expect(joined([move(63, 31, 32), move(60, 30, 31), move(71, 32, 32.5), move(90, 32.5, 30)])).toEqual([
      move(60, 30, 32.5),
      move(90, 32.5, 30),
    ]);
  });

  it('[DG2] all that a sensor’s reading crept is one move, and what was set at the changeover is another', () => {
    const crept = [
      move(100, 30, 30.1, 'drift'),
      move(160, 30.1, 30.2, 'drift'),
      move(280, 30.2, 31, 'drift'),
    ];
    expect(joined([move(0, undefined, 30, 'changeover'), ...crept])).toEqual([
      move(0, undefined, 30, 'changeover'),
      move(100, 30, 31, 'drift'),
    ]);
  });

  it('nothing moved is nothing', () => {
    expect(joined([])).toEqual([]);
  });
});
