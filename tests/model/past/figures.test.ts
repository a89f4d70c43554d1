import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { StopRecord } from '../../../model/fold/state.ts';
import { indexOf } from '../../../model/fold/lineIndex.ts';
import * as kpi from '../../../model/kpi/kpi.ts';
import { coverageOf, figuresPast, madeOf, producedOf } from '../../../model/past/figuresPast.ts';
import { timePast } from '../../../model/past/timePast.ts';
import { type Instant, instantFromMs, minutes, type Span } from '../../../model/units/units.ts';
import { at, MORNING, smallLine } from '../smallLine.ts';

const line = smallLine();
const index = indexOf(line);
const minute = (n: number) => at(60 * n);
const instant = (iso: string) => instantFromMs(Date.parse(iso));

/** A stop of so many minutes, by default the machine's own. */
function stop(from: number, to: number, change: Partial<StopRecord> = {}): StopRecord {
  return {
    id: `stop-${from}`,
    begin: minute(from),
    end: minute(to),
    endSeen: true,
    reason: 51,
    kind: 'machine',
    class: 'stopped',
    station: 'fold',
    from: 'state',
    attempt: 1,
    episode: `stop-${from}`,
    pauseRule: null,
    allowance: 0 as Span,
    lastGoodBefore: minute(from),
    firstGood: null,
    cartonsBefore: 0,
    size: 'sachet-20',
    order: null,
    chain: [],
    lost: 0,
    answer: null,
    notNowAt: null,
    ...change,
  };
}

const place = (id: string) => index.tallied.findIndex((signal) => line.signals[signal]!.id === id);
function gained(counts: Readonly<Record<string, number>>): readonly number[] {
  const list = index.tallied.map(() => 0);
  for (const [id, count] of Object.entries(counts)) list[place(id)] = count;
  return list;
}

/** An early shift of 480 minutes: a break, a changeover, jams, starved, a press, and a stretch that nobody saw. */
const stops = [
  stop(30, 45),
  stop(60, 62),
  stop(62.5, 64, { attempt: 2, episode: 'stop-60' }),
  stop(90, 110, { class: 'changeover', kind: 'changeover' }),
  stop(180, 205, { class: 'pause', kind: null, allowance: minutes(20) }),
  stop(240, 246, { class: 'starved', kind: 'starved' }),
  stop(300, 303, { class: 'safety', kind: 'safety' }),
  stop(400, 412, { kind: null }),
];
const gaps = [{ from: minute(330), to: minute(350), kind: 'unknown' as const }];
const shift = { index, from: MORNING, to: minute(480), stops, gaps, begun: MORNING };
const gains = [
  {
    size: 'sachet-20',
    gained: gained({ good: 12_000, rejectOpen: 100, rejectEmpty: 40, crushed: 20, missed: 9 }),
  },
  { size: 'sachet-48', gained: gained({ good: 3000, rejectOpen: 30 }) },
];
const figures = figuresPast({ ...shift, time: timePast(shift), gains, now: shift.to });

describe('key figures of a stretch', () => {
  it('[KP1] are made of the classes of time, which add up to the shift', () => {
    const { classes, inShifts, outside } = timePast(shift);
    expect([inShifts, outside]).toEqual([minutes(480), 0]);
    expect(Object.values(classes).reduce((sum, one) => sum + one, 0)).toBe(inShifts);
    const { pbt, apt, aust, adet, adot } = figures.elements;
    // 480 less 20 of the break and 20 not seen; 15 + 2 + 1.5 + 12 stopped, 3 by a press; 6 starved, 5 of the break beyond
    expect([pbt, aust, adet, adot]).toEqual([440, 20, 33.5, 11]);
    expect(apt).toBe(440 - 20 - 33.5 - 11);
    expect(coverageOf(figures)).toBeCloseTo(460 / 480, 12);
  });

  it('[KP2] class each carton once', () => {
    expect(figures.made).toEqual({ good: 15_000, rejected: 130, crushed: 20, notLoaded: 40, missed: 9 });
    expect([figures.elements.pq, figures.elements.gq, producedOf(figures.made)]).toEqual([
      15_150, 15_000, 15_150,
    ]);
    // 12,120 at 60 a minute and 3,030 at 30
    expect(figures.elements.plannedRunTime).toBe(202 + 101);
    expect(figures.withoutRate).toBe(0);
  });

  it('[KP2] name cartons of a size that is not known, and leave them out of what they would spoil', () => {
    const one = figuresPast({
      ...shift,
      time: timePast(shift),
      gains: [...gains, { size: undefined, gained: gained({ good: 7 }) }],
      now: shift.to,
    });
    expect(one.withoutRate).toBe(7);
    expect(one.elements.plannedRunTime).toBe(303);
  });

  it('count as stops what is no planned pause and no changeover, and add up how long it stood', () => {
    expect(figures.stops).toMatchObject({ all: 6, stood: 15 + 2 + 1.5 + 6 + 3 + 12, own: 3, minor: 1 });
  });

  it('[KP3] count as failures the own stops that are no minor ones, a re-jam with the stop before it', () => {
    expect([figures.stops.own, figures.elements.failures, figures.elements.restoring]).toEqual([3, 2, 27]);
    expect(kpi.mttr(figures.elements)).toBe(13.5);
    expect(kpi.mtbf(figures.elements, 'failures')).toBe((375.5 + 20) / 2);
    const none = figuresPast({
      ...shift,
      stops: [],
      time: timePast({ ...shift, stops: [] }),
      gains,
      now: shift.to,
    });
    expect(kpi.mtbf(none.elements, 'failures')).toBeUndefined();
    expect(none.elements.apt).toBe(460);
  });

  it('[KP1] are undefined, and not zero, where no shift is', () => {
    const closed = smallLine({ calendar: { shifts: line.calendar.shifts.slice(0, 1), pauses: [] } });
    const night = {
      ...shift,
      index: indexOf(closed),
      from: minute(500),
      to: minute(600),
      stops: [],
      gaps: [],
    };
    const time = timePast(night);
    expect([time.inShifts, time.outside]).toEqual([0, minutes(100)]);
    const none = figuresPast({ ...night, time, gains: [], now: night.to });
    const { elements } = none;
    expect([coverageOf(none), kpi.availability(elements), kpi.oee(elements)]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });

  it('[KP1] of two pieces add up to those of the whole, wherever it is cut', () => {
    const of = (from: Instant, to: Instant) => {
      const piece = { ...shift, from, to };
      return figuresPast({ ...piece, time: timePast(piece), gains: [], now: shift.to }).elements;
    };
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 480 * 60 - 1 }), (second) => {
        const [first, second_] = [of(MORNING, at(second)), of(at(second), shift.to)];
        const sum = kpi.add(first, second_);
        const whole = of(MORNING, shift.to);
        for (const key of ['pbt', 'apt', 'aust', 'adet', 'adot'] as const)
          expect(sum[key]).toBeCloseTo(whole[key], 9);
        expect(sum.failures).toBe(whole.failures);
        expect(first.pbt).toBeCloseTo(first.apt + first.aust + first.adet + first.adot, 9);
      }),
      { seed: 22400, numRuns: 200 },
    );
  });

  it('[KP1] [TI5] of a night in which the clocks change last as long as it did', () => {
    const night = (from: string, to: string) => {
      const asked = {
        ...shift,
        from: instant(from),
        to: instant(to),
        stops: [],
        gaps: [],
        begun: instant(from),
      };
      return timePast(asked).inShifts / minutes(60);
    };
    // Europe/Berlin; lengths from the IANA rules, Node 20 with ICU 2025c
    expect(night('2025-10-25T20:00Z', '2025-10-26T05:00Z')).toBe(9);
    expect(night('2026-03-28T21:00Z', '2026-03-29T04:00Z')).toBe(7);
  });

  it('[KP2] a carton that a loading position did not load is no reject', () => {
    expect(madeOf(index, gained({ rejectEmpty: 3, notLoadedFront: 5 }))).toMatchObject({ rejected: 0 });
  });
});
