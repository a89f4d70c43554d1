import { describe, expect, it } from 'vitest';
import { type AlignedSide, axisOf, momentOf, placeOf } from '../../../../model/past/compared/aligned.ts';
import { windowsOfCartons, windowsOfTime } from '../../../../model/past/compared/windows.ts';
import type { Stretch } from '../../../../model/past/stretches.ts';
import { type EpochMs, type Instant, MINUTE } from '../../../../model/units/units.ts';

/** Minutes of one clock; the second shift begins a thousand of them later. */
const at = (minute: number) => Math.round(minute * MINUTE) as Instant;
const from = (a: number, b: number): Stretch => ({ from: at(a), to: at(b) });
const first = { ...from(0, 480), origin: at(0), dark: [] as Stretch[] };
const second = { ...from(1000, 1480), origin: at(1000), dark: [] as Stretch[] };

describe('two stretches laid over one another', () => {
  it('[RP11] what was not seen of one is left out of both, by whole minutes', () => {
    const windows = windowsOfTime(
      { ...first, dark: [from(192.5, 198.2)] },
      { ...second, dark: [from(1198, 1201), from(1470, 1480)] },
      at(340.7),
    );
    expect(windows).toEqual({
      here: from(0, 340),
      there: from(1000, 1340),
      kept: {
        here: [from(0, 192), from(201, 340)],
        there: [from(1000, 1192), from(1201, 1340)],
      },
      leftOut: [from(192, 201)],
      ended: undefined,
    });
  });

  it('[RP10] from another zero than their beginning they begin there, and nothing is held before it', () => {
    const moved = { ...second, origin: at(1100) };
    expect(windowsOfTime({ ...first, origin: at(30) }, moved, at(90))).toMatchObject({
      here: from(30, 90),
      there: from(1100, 1160),
    });
    expect(windowsOfTime({ ...first, origin: at(30) }, moved, at(12)).kept).toEqual({ here: [], there: [] });
  });

  it('[RP11] the shorter one ends it, and which one that is is said', () => {
    const short = { ...second, to: at(1100.5) };
    expect(windowsOfTime(first, short, at(300))).toMatchObject({ here: from(0, 100), ended: 'there' });
    expect(windowsOfTime(short, first, at(1480))).toMatchObject({ here: from(1000, 1100), ended: 'here' });
    expect(windowsOfTime(first, short, at(100))).toMatchObject({ here: from(0, 100), ended: undefined });
  });

  it('[RP10] on cartons the other is taken to the minute in which it had as many, or as far as it ever came', () => {
    const made = (begin: number, counts: readonly number[]) =>
      counts.map((cartons, minute) => ({ at: at(begin + minute), cartons }));
    const here = { ...first, made: made(0, [0, 50, 100, 100, 140, 190]) };
    const there = { ...second, made: made(1000, [0, 0, 60, 120, 180]) };
    expect(windowsOfCartons(here, there, at(3.5))).toEqual({
      here: from(0, 3),
      there: from(1000, 1003),
      kept: { here: [from(0, 3)], there: [from(1000, 1003)] },
      leftOut: [],
      ended: undefined,
    });
    expect(windowsOfCartons(here, there, at(5))).toMatchObject({
      here: from(0, 5),
      there: from(1000, 1004),
      ended: 'there',
    });
    expect(windowsOfCartons(here, there, at(0.5)).kept).toEqual({ here: [], there: [] });
  });
});

describe('the axis of both', () => {
  const ms = (minute: number) => (minute * 60_000) as EpochMs;
  const side = (more: Partial<AlignedSide>): AlignedSide => ({
    ...{ from: ms(0), to: ms(5), origin: ms(0), made: undefined },
    ...more,
  });

  it('[RP10] of time is as long as both, and a moment of one is found in the other, if it was there', () => {
    const [a, b] = [side({ origin: ms(2) }), side({ from: ms(100), to: ms(110), origin: ms(101) })];
    expect(axisOf([a, b])).toEqual({ from: ms(-2), to: ms(9) });
    expect(momentOf(b, placeOf(a, ms(3)))).toBe(ms(102));
    expect(momentOf(b, placeOf(a, ms(0)))).toBeUndefined();
    expect(momentOf(a, placeOf(b, ms(110)))).toBeUndefined();
  });

  it('[RP10] of cartons stands still while the line does: a place is the moment at which it was reached first', () => {
    const made = [0, 60, 60, 60, 120].map((cartons, minute) => ({ at: ms(minute), cartons }));
    const one = side({ made });
    expect([0, 0.5, 2, 3.5, 5].map((minute) => placeOf(one, ms(minute)))).toEqual([0, 30, 60, 90, 120]);
    expect([0, 30, 60, 90, 120, 121].map((place) => momentOf(one, place))).toEqual(
      [0, 0.5, 1, 3.5, 4].map(ms).concat([undefined as never]),
    );
    expect(axisOf([one])).toEqual({ from: 0, to: 120 });
  });
});
