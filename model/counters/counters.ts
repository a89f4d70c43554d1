import { HOUR, MINUTE, type Span } from '../units/units.ts';

/** Roles of the counters that are counted here; a step of theirs that no counter makes is marked. */
export const COUNTED = [
  'goodCount',
  'rejectCount',
  'presentedCount',
  'missedPickCount',
  'notLoadedCount',
  'crushedCount',
  'stopDeviceCount',
] as const;
export type Counted = (typeof COUNTED)[number];

/** What one new reading of a counter means. */
export interface CounterStep {
  /** Counted since the last reading; never negative. */
  readonly gained: number;
  readonly mark: 'plain' | 'rollover' | 'reset' | 'correction' | 'implausible';
}

/** Steps back of no more than this, also back over the end of its width, are corrections, not roll-overs or resets. */
const CORRECTION_MOST = 20;
/** A step may need half again the highest rate, and this many more, before it is not believed. */
const MARGIN = 1.5;
export const SLACK = 20;

/** Nobody misses more than a day of a machine at its highest rate. */
const UNSEEN_MOST = 24 * HOUR;

/**
 * What a counter gained from one reading to the next. `wraps` is its number of values, `elapsed` the time in which it
 * may have counted (line time since it was last known to stand), `rateMax` its highest believable rate per minute.
 * A step that such a rate cannot have made is a reset if the value fell, and counts from zero, or nothing where it cannot
 * have made the new value either; and one that counts nothing where not even a day could have made it. How often a
 * counter rolled over while it may have made half its width nobody knows: then a fall is a reset, too.
 */
export function counterStep(
  before: number,
  now: number,
  wraps: number,
  elapsed: Span,
  rateMax: number,
): CounterStep {
  const most = mostIn(elapsed, rateMax);
  if (now >= before) return steppedUp(now - before, most, rateMax, wraps);
  const rolled = now - before + wraps;
  if (rolled <= most && most <= wraps / 2) return { gained: rolled, mark: 'rollover' };
  if (before - now <= CORRECTION_MOST && now > 0) return { gained: 0, mark: 'correction' };
  return resetTo(now, most);
}

/** What a machine of such a highest rate can have made in a time, at most. */
export function mostIn(elapsed: Span, rateMax: number): number {
  return (Math.max(0, elapsed) / MINUTE) * rateMax * MARGIN + SLACK;
}

/** It began anew, and counted what it shows; unless it was set to a number that it cannot have counted since. */
export function resetTo(now: number, most: number): CounterStep {
  return { gained: now > 0 && now <= most ? now : 0, mark: 'reset' };
}

function steppedUp(gained: number, most: number, rateMax: number, wraps: number): CounterStep {
  if (gained <= most) return { gained, mark: 'plain' };
  // put back by hand, just after it had rolled over
  if (wraps - gained <= CORRECTION_MOST) return { gained: 0, mark: 'correction' };
  // no machine makes so much unseen: the counter was set to another number, as a program download may do
  if (gained > (UNSEEN_MOST / MINUTE) * rateMax * MARGIN) return { gained: 0, mark: 'reset' };
  return { gained, mark: 'implausible' };
}
