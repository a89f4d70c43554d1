import { describe, expect, it } from 'vitest';
import { epochMs } from '../../model/units/units.ts';
import { momentOf, shiftRows } from './checks/shifts.ts';

describe('shifts across clock changes', () => {
  it.each(shiftRows)('%s %j to %j', (zone, from, to, fromUtc, toUtc, hours) => {
    const ends = [epochMs(momentOf(from, zone)), epochMs(momentOf(to, zone))] as const;
    expect(ends).toEqual([Date.parse(fromUtc), Date.parse(toUtc)]);
    expect(ends[1] - ends[0]).toBe(hours * 3_600_000);
  });
});
