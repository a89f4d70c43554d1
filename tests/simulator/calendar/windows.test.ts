import { expect, it } from 'vitest';
import { pausesOf, shiftAfter, shiftAt } from '../../../model/calendar/calendar.ts';
import { HOUR, type Instant, instantFromMs } from '../../../model/units/units.ts';
import { pauseWindows, shiftWindows } from '../../../simulator/calendar/windows.ts';
import { simulatedLine } from '../simulatedLine.ts';

const { calendar, zone } = simulatedLine();
const moment = (iso: string) => instantFromMs(Date.parse(iso));

it('[TI5] shifts around both clock changes are those of the model, though worked out apart from it', () => {
  for (const [from, to] of [
    ['2026-03-27T00:00:00Z', '2026-03-31T00:00:00Z'],
    ['2026-10-23T00:00:00Z', '2026-10-27T00:00:00Z'],
  ] as const) {
    const mine = shiftWindows(calendar, zone, moment(from), moment(to));
    let shift = shiftAt(calendar, zone, moment(from));
    for (const window of mine) {
      expect({ rule: shift?.rule, from: shift?.from, to: shift?.to }).toEqual(window);
      if (!shift) throw new Error('the model has no shift here');
      const pauses = pausesOf(calendar, zone, shift).map(({ rule, from: begins, to: ends, allowance }) => ({
        rule,
        from: begins,
        to: ends,
        allowance,
      }));
      const own = pauseWindows(calendar, zone, shift.from, shift.to).filter(
        (pause) => pause.from >= window.from && pause.to <= window.to,
      );
      expect(pauses).toEqual(own);
      shift = shiftAfter(calendar, zone, shift.from);
    }
    expect(mine.length).toBeGreaterThan(11);
  }
});

it('[TI5] the night of the spring change has seven hours, that of the autumn change nine', () => {
  const night = (iso: string) => {
    const [window] = shiftWindows(calendar, zone, moment(iso), (moment(iso) + 1) as Instant);
    return window && (window.to - window.from) / HOUR;
  };
  expect(night('2026-03-29T00:30:00Z')).toBe(7);
  expect(night('2026-10-25T00:30:00Z')).toBe(9);
});
