import { describe, expect, it } from 'vitest';
import type { FigureId } from '../../../model/figures/figures.ts';
import type { FigureValue } from '../../../model/figures/figureValues.ts';
import { timeStrips } from '../../../model/figures/timeStrips.ts';

function values(of: Partial<Record<FigureId, number>>): readonly FigureValue[] {
  return Object.entries(of).map(([id, value]) => ({
    id: id as FigureId,
    value,
    lower: undefined,
    upper: undefined,
    none: undefined,
  }));
}

/** Minutes worked by hand: 480 in shifts, 30 of pauses, 18 down, 42 delayed, 18 set up, and so 372 producing. */
const DAY = {
  plannedOperationTime: 480,
  plannedDownTime: 30,
  notSeen: 0,
  plannedBusyTime: 450,
  downTime: 18,
  busyTime: 432,
  delayTime: 42,
  processingTime: 390,
  setupTime: 18,
  actualProductionTime: 372,
} as const;

describe('the strips of time', () => {
  it('[KP4] end with what the good cartons needed, each part with the figure that it is', () => {
    const strips = timeStrips(values({ ...DAY, idealTime: 350, qualityRatio: 0.98 }));
    expect(strips.map(({ figure, minutes }) => [figure, minutes])).toEqual([
      ['plannedOperationTime', 480],
      ['plannedBusyTime', 450],
      ['busyTime', 432],
      ['processingTime', 390],
      ['actualProductionTime', 372],
      ['idealTime', 350],
      ['goodTime', 343],
    ]);
    expect(strips.slice(4).flatMap(({ cuts }) => cuts.map(({ kind, figure }) => [kind, figure]))).toEqual([
      ['slower', 'paceTime'],
      ['spoiled', 'spoiledTime'],
    ]);
  });

  it('[KP4] end where it produced without an ideal rate, and say where it ran faster than that', () => {
    expect(timeStrips(values(DAY)).at(-1)?.id).toBe('actualProductionTime');
    const fast = timeStrips(values({ ...DAY, idealTime: 380, qualityRatio: 1 }));
    expect(fast[4]?.cuts).toEqual([{ kind: 'faster', figure: 'paceTime', minutes: 8 }]);
    expect(timeStrips(values({ plannedOperationTime: 0 }))).toEqual([]);
  });
});
