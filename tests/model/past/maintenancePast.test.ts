import { describe, expect, it } from 'vitest';
import { lastDays, maintenanceStations } from '../../../model/past/maintenancePast.ts';
import { LineFold } from '../../../model/fold/fold.ts';
import { epochMs, type Instant, instantFromMs } from '../../../model/units/units.ts';
import { at, changes, goods, type Rows, running, smallLine } from '../smallLine.ts';

const rows: Rows = [
  ...running(),
  ...goods(1, 9, 1),
  [10, 'state', 11],
  [10, 'reason', 51],
  [310, 'state', 6],
  [310, 'reason', 0],
  ...goods(311, 399, 10),
  [400, 'state', 11],
  [400, 'reason', 11],
  [430, 'state', 6],
  [430, 'reason', 0],
];

describe('what Maintenance shows', () => {
  it('[HE2] stations outside their own normal come first, then by time that stood; each day has its own', () => {
    const fold = new LineFold(smallLine());
    fold.take(changes(smallLine(), rows));
    const worse = (outside: readonly string[]) =>
      ['pick', 'fold', 'discharge'].map((station) => ({
        station,
        outside: outside.includes(station) ? (['stops'] as const) : [],
        tooThin: [],
      }));
    const days = [at(-100), at(100), at(500)];
    const of = (outside: readonly string[]) =>
      maintenanceStations(fold.index, fold.state.stops, days, worse(outside));
    expect(of([]).map(({ station, stops, stood }) => [station.id, stops, stood])).toEqual([
      ['fold', 1, 300_000],
      ['pick', 1, 30_000],
      ['discharge', 0, 0],
    ]);
    expect(of([])[0]!.days).toEqual([
      { stops: 1, stood: 90_000 },
      { stops: 0, stood: 210_000 },
    ]);
    expect(of(['discharge']).map(({ station }) => station.id)).toEqual(['discharge', 'fold', 'pick']);
  });

  it('[HE2] days begin at the line’s own midnight, also where the clock is put on', () => {
    const now = instantFromMs(Date.parse('2026-03-30T10:00:00Z'));
    const days = lastDays(now, 'Europe/Berlin', 3);
    expect(days.map((day) => new Date(epochMs(day as Instant)).toISOString())).toEqual([
      '2026-03-27T23:00:00.000Z',
      '2026-03-28T23:00:00.000Z',
      '2026-03-29T22:00:00.000Z',
      '2026-03-30T10:00:00.000Z',
    ]);
  });
});
