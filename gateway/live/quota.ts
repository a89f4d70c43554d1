/** So many at once, and so many a minute on the long run. */
export interface Quota {
  /** Takes one if there is one left. */
  take(): boolean;
}

export function createQuota(
  allowed: { readonly burst: number; readonly perMinute: number },
  now: () => number,
): Quota {
  let left = allowed.burst;
  let filled = now();
  return {
    take: () => {
      const at = now();
      left = Math.min(allowed.burst, left + (Math.max(0, at - filled) / 60_000) * allowed.perMinute);
      filled = at;
      if (left < 1) return false;
      left -= 1;
      return true;
    },
  };
}
