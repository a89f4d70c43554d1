import { describe, expect, it } from 'vitest';
import { studentTBelow, studentTQuantile } from '../../../model/statistics/studentT.ts';

describe('Student’s t', () => {
  it('has the quantiles of the NIST/SEMATECH e-Handbook, 1.3.6.7.2 (from memory)', () => {
    const rows = [
      [0.975, 1, 12.706],
      [0.975, 6, 2.447],
      [0.95, 10, 1.812],
      [0.99, 30, 2.457],
      [0.975, 100, 1.984],
    ] as const;
    for (const [share, degrees, t] of rows) expect(studentTQuantile(share, degrees)).toBeCloseTo(t, 3);
  });

  it('is even, and with one degree the Cauchy distribution', () => {
    expect(studentTQuantile(0.025, 6)).toBeCloseTo(-studentTQuantile(0.975, 6), 12);
    expect(studentTQuantile(0.5, 3)).toBe(0);
    for (const t of [-3, -0.5, 0.2, 1, 40])
      expect(studentTBelow(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 12);
  });
});
