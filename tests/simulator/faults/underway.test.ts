import { expect, it } from 'vitest';
import { after, type Instant, SECOND, type Span } from '../../../model/units/units.ts';
import { readFaults } from '../../../simulator/faults/language.ts';
import { Underway } from '../../../simulator/faults/underway.ts';
import { monday } from '../simulatedLine.ts';

it('a fault that lasts is under way from its beginning until, and not with, its end', () => {
  let now: Instant = monday;
  const faults = readFaults('0:00:10 queues of 5 for 3 s\n0:00:12 queues of 9 for 3 s\n0:00:12 clock local');
  const underway = new Underway(faults, monday, () => now);
  const sizes = [9, 10, 12, 13, 14, 15].map((second) => {
    now = after(monday, (second * SECOND) as Span);
    return underway.find('queue')?.size;
  });
  expect(sizes).toEqual([undefined, 5, 5, 9, 9, undefined]);
  expect(underway.find('twice')).toBeUndefined();
});
