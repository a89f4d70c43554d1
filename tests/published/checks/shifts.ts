import { wallClock } from '../../../model/calendar/calendar.ts';
import { epochMs, type Instant } from '../../../model/units/units.ts';
import { from, type Topic } from './check.ts';

type Clock = readonly [year: number, month: number, day: number, clock: string];
type Row = readonly [zone: string, from: Clock, to: Clock, fromUtc: string, toUtc: string, hours: number];

/** Begin and end on the wall, in UTC, and how long that is. */
export const shiftRows: readonly Row[] = [
  [
    'Europe/Berlin',
    [2025, 10, 25, '22:00'],
    [2025, 10, 26, '06:00'],
    '2025-10-25T20:00Z',
    '2025-10-26T05:00Z',
    9,
  ],
  [
    'Europe/Berlin',
    [2026, 3, 28, '22:00'],
    [2026, 3, 29, '06:00'],
    '2026-03-28T21:00Z',
    '2026-03-29T04:00Z',
    7,
  ],
  [
    'Europe/Berlin',
    [2025, 10, 25, '14:00'],
    [2025, 10, 25, '22:00'],
    '2025-10-25T12:00Z',
    '2025-10-25T20:00Z',
    8,
  ],
  [
    'Europe/Berlin',
    [2025, 10, 26, '06:00'],
    [2025, 10, 26, '14:00'],
    '2025-10-26T05:00Z',
    '2025-10-26T13:00Z',
    8,
  ],
  [
    'Europe/Berlin',
    [2026, 10, 24, '22:00'],
    [2026, 10, 25, '06:00'],
    '2026-10-24T20:00Z',
    '2026-10-25T05:00Z',
    9,
  ],
  [
    'America/New_York',
    [2025, 11, 1, '22:00'],
    [2025, 11, 2, '06:00'],
    '2025-11-02T02:00Z',
    '2025-11-02T11:00Z',
    9,
  ],
  [
    'America/Sao_Paulo',
    [2025, 10, 25, '22:00'],
    [2025, 10, 26, '06:00'],
    '2025-10-26T01:00Z',
    '2025-10-26T09:00Z',
    8,
  ],
  [
    'Asia/Kolkata',
    [2025, 10, 25, '22:00'],
    [2025, 10, 26, '06:00'],
    '2025-10-25T16:30Z',
    '2025-10-26T00:30Z',
    8,
  ],
  [
    'Europe/Berlin',
    [2025, 10, 26, '00:00'],
    [2025, 10, 27, '00:00'],
    '2025-10-25T22:00Z',
    '2025-10-26T23:00Z',
    25,
  ],
  [
    'Europe/Berlin',
    [2026, 3, 29, '00:00'],
    [2026, 3, 30, '00:00'],
    '2026-03-28T23:00Z',
    '2026-03-29T22:00Z',
    23,
  ],
];

export function momentOf([year, month, day, clock]: Clock, zone: string): Instant {
  return wallClock({ year, month, day }, clock, zone);
}

/** To the minute where nothing is lost by that. */
function utc(at: Instant): string {
  return new Date(epochMs(at)).toISOString().replace(':00.000Z', 'Z');
}

const onTheWall = ([year, month, day, clock]: Clock) =>
  `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')} ${clock}`;

export const shifts: Topic = {
  title: 'Shifts across clock changes',
  about: 'Begin, end and hours from the time on the wall.',
  checks: from(
    '[C] IANA time-zone rules, data 2025c, by Node 20.20.2 with ICU',
    shiftRows.map(([zone, begin, end, fromUtc, toUtc, hours]) => [
      `${zone}, ${onTheWall(begin)} to ${onTheWall(end)}`,
      `${fromUtc}, ${toUtc}, ${hours}`,
      () => {
        const [first, last] = [momentOf(begin, zone), momentOf(end, zone)];
        return [utc(first), utc(last), (epochMs(last) - epochMs(first)) / 3_600_000];
      },
    ]),
  ),
};
