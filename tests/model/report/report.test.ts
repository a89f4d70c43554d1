import { describe, expect, it } from 'vitest';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import type { PastStop, StopsPast } from '../../../model/past/stopsPast.ts';
import type { Report } from '../../../model/report/report.ts';
import { reportDifferences } from '../../../model/report/reportDifferences.ts';
import { reportStops, sizeShares } from '../../../model/report/reportParts.ts';
import { type PeriodAsked, reportPeriod } from '../../../model/report/reportPeriod.ts';
import { reportMoments } from '../../../model/report/reportMoments.ts';
import { reportStations, type SizeShare } from '../../../model/report/reportStations.ts';
import { reportStrip } from '../../../model/report/reportStrip.ts';
import { epochMs, type EpochMs, type Instant, instantFromMs } from '../../../model/units/units.ts';
import { smallLine } from '../smallLine.ts';

const line = smallLine();
const index = indexOf(line);
const moment = (iso: string) => instantFromMs(Date.parse(iso));
const iso = (at: Instant) => new Date(epochMs(at)).toISOString();

/** Three shifts a day, every day, in Berlin. */
const calendar: PeriodAsked['calendar'] = {
  shifts: [
    { id: 'early', name: 'early', from: '06:00', to: '14:00', days: [1, 2, 3, 4, 5, 6, 7] },
    { id: 'late', name: 'late', from: '14:00', to: '22:00', days: [1, 2, 3, 4, 5, 6, 7] },
    { id: 'night', name: 'night', from: '22:00', to: '06:00', days: [1, 2, 3, 4, 5, 6, 7] },
  ],
  pauses: [],
};

function asked(kind: PeriodAsked['kind'], at: string, change: Partial<PeriodAsked> = {}): PeriodAsked {
  return {
    kind,
    at: moment(at),
    now: moment('2026-12-31T12:00Z'),
    calendar,
    zone: 'Europe/Berlin',
    order: undefined,
    size: undefined,
    orders: [],
    ...change,
  };
}

const spanOf = (wish: PeriodAsked) => {
  const period = reportPeriod(wish);
  return period && [iso(period.from), iso(period.to)];
};

describe('the period of a report', () => {
  it('[RE1] [TI5] is the shift of a moment, as long as it was', () => {
    // the night in which the clocks go back has nine hours
    expect(spanOf(asked('shift', '2026-10-25T00:30Z'))).toEqual([
      '2026-10-24T20:00:00.000Z',
      '2026-10-25T05:00:00.000Z',
    ]);
    expect(reportPeriod(asked('shift', '2026-10-25T00:30Z'))?.shift).toBe('night');
  });

  it('[RE1] is the shifts that began in a week from Monday on, the last night with its end on Monday', () => {
    // ISO week 43 of 2026: Monday 19 to Sunday 25 October
    const week = ['2026-10-19T04:00:00.000Z', '2026-10-26T05:00:00.000Z'];
    expect(spanOf(asked('week', '2026-10-19T05:00Z'))).toEqual(week);
    expect(spanOf(asked('week', '2026-10-25T22:30Z'))).toEqual(week);
    // early on Monday belongs to the night that began on Sunday, and yet to this week by its own day
    expect(spanOf(asked('week', '2026-10-26T02:00Z'))?.[0]).toBe('2026-10-26T05:00:00.000Z');
  });

  it('[RE1] is the shifts that began in a month, across a year', () => {
    expect(spanOf(asked('month', '2026-02-11T12:00Z'))).toEqual([
      '2026-02-01T05:00:00.000Z',
      '2026-03-01T05:00:00.000Z',
    ]);
    expect(spanOf(asked('month', '2025-12-31T22:30Z'))?.[0]).toBe('2025-12-01T05:00:00.000Z');
  });

  it('[RE1] of an order is from its first beginning to its last end, or now', () => {
    const began = (at: string, order: string) => ({ at: moment(at), order, crew: null });
    const orders = [
      began('2026-05-01T06:00Z', 'A'),
      began('2026-05-01T09:00Z', 'B'),
      began('2026-05-02T06:00Z', 'A'),
      began('2026-05-02T08:00Z', 'C'),
    ];
    const of = (order: string) => spanOf(asked('order', '2026-05-01T07:00Z', { order, orders }));
    expect(of('A')).toEqual(['2026-05-01T06:00:00.000Z', '2026-05-02T08:00:00.000Z']);
    expect(of('C')).toEqual(['2026-05-02T08:00:00.000Z', '2026-12-31T12:00:00.000Z']);
    expect(of('none')).toBeUndefined();
    const goesOn = (order: string) =>
      reportPeriod(asked('order', '2026-05-01T07:00Z', { order, orders }))?.goesOn;
    expect([goesOn('A'), goesOn('C')]).toEqual([false, true]);
  });

  it('[RE1] goes on until its last shift is over, also between two shifts', () => {
    const mornings = { ...calendar, shifts: calendar.shifts.slice(0, 1) };
    const at = (now: string) => reportPeriod(asked('week', now, { now: moment(now), calendar: mornings }));
    // Wednesday evening; the week ends with Sunday's shift, at 14:00 in Berlin
    const midweek = at('2026-05-06T18:00Z');
    expect([midweek?.goesOn, midweek && iso(midweek.to)]).toEqual([true, '2026-05-06T18:00:00.000Z']);
    const over = at('2026-05-10T12:00Z');
    expect([over?.goesOn, over && iso(over.to)]).toEqual([false, '2026-05-10T12:00:00.000Z']);
    expect(at('2026-05-04T03:00Z')).toBeUndefined();
  });

  it('[RE1] is none where no shift is, or it has not begun', () => {
    const weekdays = {
      ...calendar,
      shifts: calendar.shifts.slice(0, 1).map((rule) => ({ ...rule, days: [1] as const })),
    };
    const sunday = asked('shift', '2026-05-03T08:00Z', { calendar: weekdays as PeriodAsked['calendar'] });
    expect(reportPeriod(sunday)).toBeUndefined();
    expect(reportPeriod(asked('shift', '2027-05-03T08:00Z'))).toBeUndefined();
    expect(reportPeriod(asked('size', '2026-05-03T08:00Z'))).toBeUndefined();
  });

  it('[RE1] can be chosen week by week and month by month, none twice and none left out', () => {
    const now = Date.parse('2026-03-31T23:30Z') as EpochMs;
    const first = Date.parse('2024-03-01T05:00Z') as EpochMs;
    const newest = Date.parse('2026-03-31T20:00Z') as EpochMs;
    const seen = { now, zone: 'Europe/Berlin', first, newest };
    const weeks = reportMoments('week', seen).map(
      ({ at }) => spanOf(asked('week', new Date(at).toISOString()))?.[0],
    );
    expect(new Set(weeks).size).toBe(weeks.length);
    const months = reportMoments('month', seen).map(({ at }) => new Date(at).toISOString().slice(0, 7));
    expect(months.slice(0, 4)).toEqual(['2026-03', '2026-02', '2026-01', '2025-12']);
  });
});

const placeOf = (id: string) => index.tallied.findIndex((signal) => line.signals[signal]!.id === id);
function gained(counts: Readonly<Record<string, number>>): readonly number[] {
  const list = index.tallied.map(() => 0);
  for (const [id, count] of Object.entries(counts)) list[placeOf(id)] = count;
  return list;
}
const stationWith = (shares: readonly SizeShare[]) =>
  reportStations(index, shares).find(({ kind }) => kind === 'reject')!;

describe('stations of a report', () => {
  /** Ten earlier runs of 5,000 cartons, with 50 rejects each, more or less. */
  const usual = [42, 57, 50, 46, 61, 48, 52, 39, 55, 50].map((rejectOpen) =>
    gained({ good: 5000 - rejectOpen, rejectOpen }),
  );

  it('[RE2] stand beside what as many cartons of the same sizes bring', () => {
    const same = stationWith([
      { size: 'a', gained: gained({ good: 9900, rejectOpen: 100 }), earlier: usual },
      {
        size: 'b',
        gained: gained({ good: 1996, rejectOpen: 4 }),
        earlier: [12, 8, 10].map((rejectOpen) => gained({ good: 5000 - rejectOpen, rejectOpen })),
      },
    ]);
    // 10,000 of a at 1 in 100, and 2,000 of b at 2 in 1,000
    expect(same).toMatchObject({ counted: 104, among: 12_000, more: false });
    expect(same.usual).toBeGreaterThan(98);
    expect(same.usual).toBeLessThan(110);
  });

  it('[RE2] are named only where chance explains it too seldom', () => {
    const of = (rejects: number) =>
      stationWith([
        { size: 'a', gained: gained({ good: 10_000 - rejects, rejectOpen: rejects }), earlier: usual },
      ]);
    expect(of(130).more).toBe(false);
    expect(of(330).more).toBe(true);
    expect(of(330).lower! < 33 && 33 < of(330).upper!).toBe(true);
  });

  it('[RE2] allow for how earlier runs differed: what is far from runs alike is near to runs that are not', () => {
    const unlike = [20, 90, 15, 120, 30, 80, 25, 60, 10, 100].map((rejectOpen) =>
      gained({ good: 5000 - rejectOpen, rejectOpen }),
    );
    const now = gained({ good: 9670, rejectOpen: 330 });
    expect(stationWith([{ size: 'a', gained: now, earlier: usual }]).more).toBe(true);
    expect(stationWith([{ size: 'a', gained: now, earlier: unlike }]).more).toBe(false);
  });

  it('[RE2] have no usual where their past is thin', () => {
    const thin = [20, 18].map((rejectOpen) => gained({ good: 2000 - rejectOpen, rejectOpen }));
    expect(
      stationWith([{ size: 'a', gained: gained({ good: 100, rejectOpen: 90 }), earlier: thin }]),
    ).toMatchObject({
      usual: undefined,
      more: false,
    });
  });

  it('[RE2] are told apart by size, stretch by stretch, and what came before', () => {
    const at = (n: number) => n as Instant;
    const tallyAt = (moment: Instant) => [moment * 2];
    const sizes = [
      { at: at(0), size: 'a' },
      { at: at(50), size: 'b' },
      { at: at(80), size: 'a' },
    ];
    const shares = sizeShares([{ from: at(60), to: at(100) }], sizes, sizes, tallyAt);
    expect(shares).toEqual([
      { size: 'b', gained: [40], earlier: [[20]] },
      { size: 'a', gained: [40], earlier: [[100]] },
    ]);
  });
});

/** Stops so long, one after another, as the past tells them. */
function stopsOf(lengths: readonly number[]) {
  const list = lengths.map((lasted, n) => ({ id: `s${n}`, at: n * 1000, lasted }) as PastStop);
  const none = { stops: 0, stood: 0, rows: [] };
  const row = (id: string, long: number) => ({
    id,
    name: id,
    kind: 'machine',
    minor: { stops: 1, stood: 1 },
    long: { stops: 1, stood: long },
  });
  const past = {
    stops: lengths.length,
    stood: lengths.reduce((sum, one) => sum + one, 0),
    own: { ...none, rows: Array.from({ length: 12 }, (_, n) => row(`r${n}`, n * 10)) },
    outside: none,
    unknown: none,
  } as unknown as StopsPast;
  return { past, list };
}

describe('lists of a report', () => {
  it('[RE3] keep what took longest, in order, and tell what the rest came to', () => {
    const { past, list } = stopsOf([5, 90, 10, 20, 30, 40, 50, 60, 70, 80, 1, 2]);
    const { list: shown, more, carried } = reportStops(past, list, { from: 0 as EpochMs, listed: true });
    expect(carried).toEqual({ stops: 0, stood: 0 });
    expect(shown.map(({ lasted }) => lasted)).toEqual(
      [90, 10, 20, 30, 40, 50, 60, 70, 80, 5].sort((a, b) => stopsAt(a) - stopsAt(b)),
    );
    expect(more).toEqual({ stops: 2, stood: 3 });
    function stopsAt(lasted: number) {
      return list.find((one) => one.lasted === lasted)!.at;
    }
  });

  it('[RE3] [ST9] tell apart what went on from before, which is none of its stops', () => {
    const { past, list } = stopsOf([60, 5, 10]);
    const { list: shown, more, carried } = reportStops(past, list, { from: 1 as EpochMs, listed: true });
    expect(shown.map(({ id }) => id)).toEqual(['s1', 's2']);
    expect([more, carried]).toEqual([
      { stops: 0, stood: 0 },
      { stops: 1, stood: 60 },
    ]);
  });

  it('[RE3] of first faults have their rest in one row', () => {
    const { past, list } = stopsOf([5]);
    const { rows, moreRows } = reportStops(past, list, { from: 0 as EpochMs, listed: false });
    expect(rows.map(({ id }) => id)).toEqual(['r11', 'r10', 'r9', 'r8', 'r7', 'r6', 'r5', 'r4', 'r3', 'r2']);
    expect(moreRows).toEqual({ rows: 2, stops: 4, stood: 1 + 10 + 1 + 0 });
  });
});

describe('the strip of a report', () => {
  const minute = (n: number) => instantFromMs(n * 60_000);
  /** 50 good cartons in each minute. */
  const asked = {
    from: minute(0),
    to: minute(4),
    stretches: [{ from: minute(0), to: minute(4) }],
    tallyAt: (at: Instant) => [(50 * epochMs(at)) / 60_000],
    good: [0],
    stops: [],
    gaps: [],
    begun: minute(0),
    target: 52,
    stationOf: () => undefined,
  };

  it('[CV1] has no rate where nobody was looking, and no zero', () => {
    const strip = reportStrip({
      ...asked,
      gaps: [{ from: minute(2), to: instantFromMs(2 * 60_000 + 10_000), kind: 'unknown' }],
    });
    expect(strip.rates).toEqual([50, 50, null, 50]);
    expect(strip.cuts.map(({ kind }) => kind)).toEqual(['unknown']);
  });

  it('[RE1] of an order has nothing of what ran between its own runs', () => {
    const strip = reportStrip({
      ...asked,
      stretches: [
        { from: minute(0), to: minute(1) },
        { from: minute(3), to: minute(4) },
      ],
      gaps: [{ from: minute(1), to: minute(2), kind: 'unknown' }],
    });
    expect(strip.rates).toEqual([50, null, null, 50]);
    expect(strip.cuts).toEqual([]);
  });

  it('has a rate wherever it was seen, however long its period is', () => {
    const days = 31 * 24 * 60;
    const strip = reportStrip({
      ...asked,
      to: minute(days),
      stretches: [{ from: minute(0), to: minute(days) }],
    });
    expect(strip.rates.length).toBeLessThanOrEqual(240);
    expect(strip.rates.every((rate) => rate === 50)).toBe(true);
  });
});

describe('a signed report', () => {
  const page = (model: string, good: number): Report =>
    ({
      model,
      figures: [
        { id: 'good', value: good, lower: undefined, upper: undefined, none: undefined },
        { id: 'oee', value: 0.1 + 0.2, lower: undefined, upper: undefined, none: undefined },
      ],
    }) as unknown as Report;

  it('[RE4] differs from what is known now by figures, with the reason', () => {
    const since = (model: string) => reportDifferences(page('12.a', 100), page(model, 103));
    expect(since('12.a')).toEqual({
      figures: [{ figure: 'good', was: 100, is: 103 }],
      parts: [],
      why: 'laterData',
    });
    expect([since('13.a').why, since('13.b').why, since('12.b').why]).toEqual([
      'newModel',
      'newModel',
      'otherLine',
    ]);
  });

  it('[RE4] differs by each part of the page, as by an answer to a stop', () => {
    const signed = { ...page('12.a', 100), notes: [], unseen: [] } as unknown as Report;
    const now = { ...signed, stops: { list: [{ said: 'glue low' }] }, moreNotes: 1 } as unknown as Report;
    expect(reportDifferences(signed, now)).toEqual({ figures: [], parts: ['stops'], why: 'laterData' });
  });

  it('[RE4] does not differ by how a number is kept', () => {
    const later = page('12.a', 100);
    expect(
      reportDifferences(page('12.a', 100), {
        ...later,
        figures: later.figures.map((one) => (one.id === 'oee' ? { ...one, value: 0.3 } : one)),
      }),
    ).toEqual({ figures: [], parts: [], why: undefined });
    expect(0.1 + 0.2 === 0.3).toBe(false);
  });
});
