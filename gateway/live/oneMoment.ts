import { type Instant, TICKS_PER_MS } from '../../model/units/units.ts';
import type { LiveLine } from './liveLine.ts';

/**
 * A line whose clock stands still, in whole milliseconds: an answer of many parts is made at one moment, so that what ends
 * now ends at the same one in each of them.
 */
export function atOneMoment(live: LiveLine): LiveLine {
  const now = (Math.ceil(live.now() / TICKS_PER_MS) * TICKS_PER_MS) as Instant;
  return {
    line: live.line,
    version: live.version,
    now: () => now,
    offer: (changes) => live.offer(changes),
    enter: (entry) => live.enter(entry),
    view: () => live.view(),
    unrecorded: () => live.unrecorded(),
    fold: () => live.fold(),
    position: () => live.position(),
    onEvents: (tell) => live.onEvents(tell),
    recordsDue: () => live.recordsDue(),
    takeOver: (making, state) => live.takeOver(making, state),
    stop: () => live.stop(),
  };
}
