import { describe, expect, it } from 'vitest';
import {
  freeAfterNow,
  hours,
  isMarked,
  PHONE_STRIP,
  pips,
  WALL_STRIP,
  xOf,
  yOf,
} from '../../../dashboard/strip/scale.ts';
import type { TrendView } from '../../../model/view/trend.ts';
import { span, t } from '../views/build.ts';
import { stopped } from '../views/stopped.ts';

const { trend } = stopped;

describe('the strip of a shift', () => {
  it('lays the shift from edge to edge and the rate from floor to ceiling', () => {
    expect(xOf(trend.from, trend, WALL_STRIP)).toBe(78);
    expect(xOf(trend.to, trend, WALL_STRIP)).toBe(1274);
    expect(yOf(0, trend, WALL_STRIP)).toBe(210);
    expect(yOf(trend.maxRate, trend, WALL_STRIP)).toBe(66);
    expect(yOf(trend.maxRate * 3, trend, WALL_STRIP)).toBe(66);
    expect(yOf(-4, trend, WALL_STRIP)).toBe(210);
  });

  it('numbers stops by station without overlap', () => {
    const placed = pips(trend, WALL_STRIP);
    expect(placed).toHaveLength(12);
    for (let i = 1; i < placed.length; i++) {
      const [left, right] = [placed[i - 1]!, placed[i]!];
      expect(right.x - right.width / 2).toBeGreaterThanOrEqual(left.x + left.width / 2);
    }
  });

  it('numbers the longest where not all find room, the open one before all', () => {
    const spans = Array.from({ length: 90 }, (_, i) =>
      span(
        'stopped',
        `10:${String(i % 40).padStart(2, '0')}:00`,
        `10:${String(i % 40).padStart(2, '0')}:20`,
        (i % 11) + 1,
      ),
    );
    const crowded: TrendView = { ...trend, spans: [...spans, span('stopped', '10:41:00', undefined, 7)] };
    const placed = pips(crowded, PHONE_STRIP);
    expect(placed.length).toBeLessThan(20);
    expect(placed.some((pip) => pip.span.to === undefined)).toBe(true);
    for (const pip of placed) expect(Math.abs(pip.x - pip.slot)).toBeLessThanOrEqual(pip.width * 1.1 + 0.001);
  });

  it('has a tick for each hour, fewer where the strip is narrow, and right across a clock change', () => {
    expect(hours(trend, WALL_STRIP)).toHaveLength(9);
    expect(hours(trend, PHONE_STRIP).length).toBeLessThan(9);
    const short = { ...trend, to: t('13:00:00') };
    expect(hours(short, WALL_STRIP).at(-1)).toBe(t('13:00:00'));
  });

  it('marks slots of a station only since it is out of its normal', () => {
    const marked = new Map([[5, t('10:21:50')]]);
    expect(trend.spans.filter((one) => isMarked(one, marked))).toHaveLength(3);
    expect(isMarked(span('changeover', '10:30:00', '10:31:00', 5), marked)).toBe(false);
  });

  it('finds room for words after now beside the pauses still to come, or says there is none', () => {
    expect(freeAfterNow(trend, WALL_STRIP, 150)).toBeCloseTo(xOf(trend.now, trend, WALL_STRIP) + 14);
    const late = { ...trend, now: t('13:50:00'), pauses: [] };
    expect(freeAfterNow(late, WALL_STRIP, 170)).toBeUndefined();
  });
});
