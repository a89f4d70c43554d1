import { HOUR, MINUTE, type Span } from '../units/units.ts';

/** Roles of the counters that are counted here; a step of theirs that no counter makes is marked. */
export const COUNTED = [
  'pickedCount',
  'goodCount',
  'rejectCount',
  'presentedCount',
  'missedPickCount',
  'notLoadedCount',
  'crushedCount',
  'nearMissCount',
  'stopDeviceCount',
] as const;
export type Counted = (typeof COUNTED)[number];

/** What one new reading of a counter means. */
export interface CounterStep {
  /** Counted since the last reading; never negative. */
  readonly gained: number;
  /** reset: it began anew at zero. set: to a number that it cannot have counted. */
  readonly mark: 'plain' | 'rollover' | 'reset' | 'set' | 'correction' | 'implausible';
}

/** Steps back of no more than this, also back over the end of its width, are corrections, not roll-overs or resets. */
const CORRECTION_MOST = 20;
/** A step may need half again the highest rate, and this many more, before it is not believed. */
const MARGIN = 1.5;
export const SLACK = 20;

/**
 * What a counter gained from one reading to the next. `wraps` is its number of values, `elapsed` the time in which it
 * may have counted (line time since it was last known to stand), `rateMax` its highest believable rate per minute; `own`
 * the time since it moved itself, which is longer where it stood, or is told seldom.
 * A step that such a rate cannot have made is a reset if the value fell, and counts from zero, or nothing where it cannot
 * have made the new value either; a step up that it cannot have made in its own time, nor in
 * an hour, counts nothing: what had piled up somewhere may come at once. How often a
 * counter rolled over while it may have made half its width nobody knows: then a fall is a reset, too.
 */
export function counterStep(
  before: number,
  now: number,
  wraps: number,
  elapsed: Span,
  rateMax: number,
  own: Span = elapsed,
): CounterStep {
  const most = mostIn(elapsed, rateMax);
  if (now >= before)
    return steppedUp(now - before, most, mostIn(Math.max(own, HOUR) as Span, rateMax), wraps);
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
  if (now > most) return { gained: 0, mark: 'set' };
  return { gained: Math.max(0, now), mark: 'reset' };
}

function steppedUp(gained: number, most: number, ever: number, wraps: number): CounterStep {
  if (gained <= most) return { gained, mark: 'plain' };
  // put back by hand, just after it had rolled over
  if (wraps - gained <= CORRECTION_MOST) return { gained: 0, mark: 'correction' };
  // it was set to another number, as by hand or by a program download
  return gained <= ever ? { gained, mark: 'implausible' } : { gained: 0, mark: 'set' };
}
