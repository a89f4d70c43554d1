import { describe, expect, it } from 'vitest';
import { wallClock } from '../../model/calendar/calendar.ts';
import { epochMs } from '../../model/units/units.ts';

type Row = [
  zone: string,
  from: [number, number, number, string],
  to: [number, number, number, string],
  fromUtc: string,
  toUtc: string,
];

/** Shift lengths from the IANA time-zone rules (data 2025c, computed with ICU). */
const rows: Row[] = [
  [
    'Europe/Berlin',
    [2025, 10, 25, '22:00'],
    [2025, 10, 26, '06:00'],
    '2025-10-25T20:00Z',
    '2025-10-26T05:00Z',
  ],
  ['Europe/Berlin', [2026, 3, 28, '22:00'], [2026, 3, 29, '06:00'], '2026-03-28T21:00Z', '2026-03-29T04:00Z'],
  [
    'Europe/Berlin',
    [2025, 10, 25, '14:00'],
    [2025, 10, 25, '22:00'],
    '2025-10-25T12:00Z',
    '2025-10-25T20:00Z',
  ],
  [
    'Europe/Berlin',
    [2025, 10, 26, '06:00'],
    [2025, 10, 26, '14:00'],
    '2025-10-26T05:00Z',
    '2025-10-26T13:00Z',
  ],
  [
    'Europe/Berlin',
    [2026, 10, 24, '22:00'],
    [2026, 10, 25, '06:00'],
    '2026-10-24T20:00Z',
    '2026-10-25T05:00Z',
  ],
  [
    'America/New_York',
    [2025, 11, 1, '22:00'],
    [2025, 11, 2, '06:00'],
    '2025-11-02T02:00Z',
    '2025-11-02T11:00Z',
  ],
  [
    'America/Sao_Paulo',
    [2025, 10, 25, '22:00'],
    [2025, 10, 26, '06:00'],
    '2025-10-26T01:00Z',
    '2025-10-26T09:00Z',
  ],
  [
    'Asia/Kolkata',
    [2025, 10, 25, '22:00'],
    [2025, 10, 26, '06:00'],
    '2025-10-25T16:30Z',
    '2025-10-26T00:30Z',
  ],
  [
    'Europe/Berlin',
    [2025, 10, 26, '00:00'],
    [2025, 10, 27, '00:00'],
    '2025-10-25T22:00Z',
    '2025-10-26T23:00Z',
  ],
  ['Europe/Berlin', [2026, 3, 29, '00:00'], [2026, 3, 30, '00:00'], '2026-03-28T23:00Z', '2026-03-29T22:00Z'],
];

describe('shifts across clock changes', () => {
  it.each(rows)('%s %j to %j', (zone, from, to, fromUtc, toUtc) => {
    const moment = ([year, month, day, clock]: Row[1]) =>
      epochMs(wallClock({ year, month, day }, clock, zone));
    expect([moment(from), moment(to)]).toEqual([Date.parse(fromUtc), Date.parse(toUtc)]);
  });
});
