import { describe, expect, it } from 'vitest';
import { viewOf } from '../../model/view/lineView.ts';
import { at, foldOf, type Rows, running, smallLine } from './smallLine.ts';

const NINE = 3 * 3600;
const { calendar } = smallLine();
/** A break between nine and ten, and a pause at twelve. */
const twoPauses = smallLine({
  calendar: {
    ...calendar,
    pauses: [
      ...calendar.pauses,
      { id: 'noon', name: 'pause', shift: 'early', from: '12:00', to: '12:30', allowanceMinutes: 10 },
    ],
  },
});

/** Runs from shortly before nine, and stands from nine on for so many seconds, stopped by a person. */
function standsAtNine(long: number): Rows {
  return [
    ...running(NINE - 60),
    [NINE, 'state', 2],
    [NINE, 'reason', 201],
    [NINE + long, 'state', 6],
    [NINE + long, 'reason', 0],
  ];
}

function planAt(rows: Rows, second: number) {
  return viewOf(foldOf(rows, twoPauses), at(second), { servers: [] }).plan;
}

describe('the pauses of the plan', () => {
  it('[PL1] one that is over is not the next one, and its rest is time to produce in', () => {
    const back = NINE + 17 * 60;
    const plan = planAt(standsAtNine(17 * 60), back + 60);
    expect(plan.nextPause).toEqual({ name: 'pause', at: at8601('12:00'), allowance: 600_000 });
    // observed from a minute before nine; of the rest of the shift only the pause at noon is left out
    expect(plan.planned).toBe(60 * (1 + 1 + (8 * 60 - 3 * 60 - 18 - 10)));
  });

  it('[PL1] while it is taken, the next one is the one after it', () => {
    expect(planAt(standsAtNine(17 * 60).slice(0, -2), NINE + 300).nextPause).toMatchObject({ name: 'pause' });
  });

  it('[PL1] a short stop in its window is not yet the pause: it is still to come, and its moment does not move', () => {
    for (const later of [40, 400])
      expect(planAt(standsAtNine(30), NINE + later).nextPause).toEqual({
        name: 'break',
        at: at8601('09:00'),
        allowance: 1_170_000,
      });
  });
});

function at8601(clock: string): number {
  return Date.parse(`2026-03-17T${clock}:00+01:00`);
}
