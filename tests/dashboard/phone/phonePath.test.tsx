import { describe, expect, it } from 'vitest';
import { rowOf } from '../../../dashboard/phone/phone-path.tsx';
import { drawn } from '../draw.tsx';
import { views } from '../views/views.ts';

const { stopped } = views;
const PITCH = 366 / 11;

function losing(lost: number) {
  return stopped.path.stations.map((station) => ({ ...station, lost }));
}

describe('cartons lost under the drawings of a phone', () => {
  it('stand in one row while they find room, and in two where they do not', () => {
    expect(rowOf(losing(455), PITCH)).toEqual({ type: 16, end: 80 });
    expect(rowOf(losing(1455), PITCH)).toEqual({ type: 14, end: 98 });
  });

  it.each(Object.entries(views))('are never smaller than 14 px, nor cut, in %s', (_name, view) => {
    for (const lost of [999, 9_999, 123_456]) {
      const path = { ...view.path, stations: losing(lost) };
      const part = /<section class="phonepath">.*?<\/section>/.exec(
        drawn('phone', { ...view, path, plan: { ...view.plan, shift: stopped.plan.shift } }),
      )?.[0];
      const sizes = [...(part ?? '').matchAll(/font-size="([\d.]+)"/g)].map(([, size]) => Number(size));
      expect(sizes.length).toBe(11);
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(14);
      expect(part).not.toContain('…');
    }
  });
});
