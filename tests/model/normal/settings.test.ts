import { describe, expect, it } from 'vitest';
import { falseAtALook, SETTINGS } from '../../../model/normal/settings.ts';
import { at } from '../smallLine.ts';

const HOURS = 3600;
/** What looks of a shift of eight hours may spend in all, one every so many seconds. */
const spentInAShift = (every: number) =>
  Array.from({ length: (8 * HOURS) / every }, (_, n) =>
    falseAtALook({ from: at(n * every), to: at((n + 1) * every) }),
  ).reduce((sum, one) => sum + one, 0);

describe('how rarely a look may call falsely', () => {
  it('[NW1] [NW2] [NW3] comes to the same in a shift, however often a line is looked at', () => {
    for (const every of [180, 300, 480, 1800])
      expect(spentInAShift(every)).toBeCloseTo(1 / SETTINGS.falseOnceInShifts, 12);
  });

  it('counts an hour at most where a line stood: a night brings no more than that', () => {
    const night = falseAtALook({ from: at(0), to: at(10 * HOURS) });
    expect(night).toBeCloseTo(1 / 8 / SETTINGS.falseOnceInShifts, 12);
  });
});
