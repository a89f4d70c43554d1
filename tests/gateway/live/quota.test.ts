import { describe, expect, it } from 'vitest';
import { createQuota } from '../../../gateway/live/quota.ts';

describe('a quota', () => {
  it('lets so many through at once, and so many a minute on the long run', () => {
    let now = 0;
    const quota = createQuota({ burst: 3, perMinute: 6 }, () => now);
    const taken = (tries: number) => Array.from({ length: tries }, () => quota.take()).filter(Boolean).length;
    expect(taken(10)).toBe(3);
    now += 9_999;
    expect(taken(10)).toBe(0);
    now += 1;
    expect(taken(10)).toBe(1);
    now += 20_000;
    expect(taken(10)).toBe(2);
    now += 3_600_000;
    expect(taken(10)).toBe(3);
  });

  it('gives nothing for a clock that is put back', () => {
    let now = 1_000_000;
    const quota = createQuota({ burst: 1, perMinute: 60 }, () => now);
    expect(quota.take()).toBe(true);
    now = 0;
    expect(quota.take()).toBe(false);
    now = 1000;
    expect(quota.take()).toBe(true);
  });
});
