import { describe, expect, it } from 'vitest';
import { momentOf, shelfEnds, shelfTrouble } from '../../../dashboard/notices/shelving.ts';
import type { EpochMs } from '../../../model/units/units.ts';

const zone = 'Europe/Berlin';
const at = (said: string) => Date.parse(said) as EpochMs;
const said = (ms: number | undefined) => ms !== undefined && new Date(ms).toISOString();

describe('the end of a shelf', () => {
  it('is six in the morning of the next day by the clock of the line, also where the clock jumps that night', () => {
    const six = (now: string) => said(shelfEnds(at(now), zone, undefined, '').tomorrow);
    expect(six('2026-03-17T09:40:00Z')).toBe('2026-03-18T05:00:00.000Z');
    // half past midnight on the 18th at the line, still the 17th in Greenwich
    expect(six('2026-03-17T23:30:00Z')).toBe('2026-03-19T05:00:00.000Z');
    expect(six('2026-03-28T20:00:00Z')).toBe('2026-03-29T04:00:00.000Z');
  });

  it('is the end of the shift where there is one ahead, and no choice where there is none', () => {
    const now = at('2026-03-17T09:40:00Z');
    const end = at('2026-03-17T13:00:00Z');
    expect(shelfEnds(now, zone, end, '').shiftEnd).toBe(end);
    expect(shelfEnds(now, zone, undefined, '').shiftEnd).toBeUndefined();
    expect(shelfEnds(end, zone, end, '').shiftEnd).toBeUndefined();
  });

  it('is a moment of somebody’s own by the clock of the line, and none until it is said', () => {
    expect(said(momentOf('2026-03-17T22:15', zone))).toBe('2026-03-17T21:15:00.000Z');
    expect(said(momentOf('2026-07-01T22:15', zone))).toBe('2026-07-01T20:15:00.000Z');
    expect(momentOf('', zone)).toBeUndefined();
  });

  it('lies ahead, and a week at most', () => {
    const now = at('2026-03-17T09:40:00Z');
    expect(shelfTrouble(at('2026-03-17T09:40:00Z'), now)).toBe('past');
    expect(shelfTrouble(at('2026-03-24T10:00:00Z'), now)).toBe('far');
    const ends = shelfEnds(now, zone, undefined, '');
    for (const end of [ends.twoHours, ends.tomorrow, ends.week])
      expect(shelfTrouble(end!, now)).toBeUndefined();
  });
});
