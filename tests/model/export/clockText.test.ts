import { describe, expect, it } from 'vitest';
import { clockMoment, clockText } from '../../../model/export/clockText.ts';

describe('moments by the line’s clock', () => {
  it('[OI2] are read as they are written, in summer and in winter, with and without a time of day', () => {
    const zone = 'Europe/Berlin';
    for (const [text, iso] of [
      ['2026-03-16', '2026-03-16T00:00:00+01:00'],
      ['2026-07-16T06:30', '2026-07-16T06:30:00+02:00'],
      ['2026-07-16T06:30:59', '2026-07-16T06:30:59+02:00'],
      // it does not exist: the clock went on from two to three
      ['2026-03-29T02:30', '2026-03-29T03:30:00+02:00'],
      // it exists twice: the first
      ['2026-10-25T02:30', '2026-10-25T02:30:00+02:00'],
    ] as const)
      expect(clockMoment(text, zone), text).toBe(Date.parse(iso));
    expect(clockText(Date.parse('2026-07-16T04:30:59.7Z'), zone)).toBe('2026-07-16T06:30:59');
    for (const text of ['', '2026-13-01', '2026-03-16T24:00', '2026-03-16T06:00Z', 'yesterday'])
      expect(clockMoment(text, zone), text).toBeUndefined();
  });
});
