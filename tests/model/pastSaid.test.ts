import { expect, it } from 'vitest';
import { past } from '../../model/words/english-say.ts';

it('how long something was is told in whole minutes, and what was there at all is never nothing', () => {
  expect([0, 1, 999, 1000, 59_400, 60_000, 119_999, 3_600_000].map(past)).toEqual([
    '0 s',
    'under 1 s',
    'under 1 s',
    '1 s',
    '59 s',
    '1 min',
    '1 min',
    '1 h 00 min',
  ]);
});
