import type { StopRecord } from '../fold/state.ts';
import type { Instant, Span } from '../units/units.ts';
import { isUnseen, type Seen } from './seen.ts';

/** [CL1] What the time of a shift was used for. */
export type TimeClass =
  | 'producing'
  | 'stopped'
  | 'starved'
  | 'blocked'
  | 'changeover'
  | 'safety'
  | 'plannedPause'
  | 'pauseOver'
  | 'isolated'
  | 'unknown';

interface Stretch {
  readonly from: Instant;
  readonly to: Instant;
  readonly class: TimeClass;
}

/**
 * Time of the shift so far, in ticks by class; the sum is the time since it began, to the tick. A stop that belongs
 * to a changeover is changeover; its run-up is producing. Time before the first value is unknown.
 */
export function timeClasses(seen: Seen): Record<TimeClass, Span> {
  const { state } = seen;
  const from = state.shift.shift?.from ?? state.shift.from;
  const sums: Record<TimeClass, number> = {
    producing: 0,
    stopped: 0,
    starved: 0,
    blocked: 0,
    changeover: 0,
    safety: 0,
    plannedPause: 0,
    pauseOver: 0,
    isolated: 0,
    unknown: 0,
  };
  let reached: number = from;
  for (const stretch of stretches(seen, from)) {
    const begin = Math.max(stretch.from, reached);
    const end = Math.min(stretch.to, seen.now);
    if (end <= begin) continue;
    sums.producing += begin - reached;
    sums[stretch.class] += end - begin;
    reached = end;
  }
  sums[isUnseen(seen) ? 'unknown' : 'producing'] += Math.max(0, seen.now - reached);
  return sums as Record<TimeClass, Span>;
}

/** Stretches in which it did not produce, in order and without overlap: a gap hides what lies under it. */
function stretches(seen: Seen, from: Instant): Stretch[] {
  const { state } = seen;
  const gaps: Stretch[] = state.shift.gaps.map((gap) => ({ from: gap.from, to: gap.to, class: gap.kind }));
  if (state.shift.from > from) gaps.unshift({ from, to: state.shift.from, class: 'unknown' });
  if (state.gap) gaps.push({ from: state.gap.from, to: seen.now, class: 'unknown' });
  const stops = state.stops
    .filter((stop) => (stop.end ?? seen.now) > from)
    .flatMap((stop) => partsOf(seen, stop));
  const open = stops.flatMap((stop) => without(stop, gaps));
  return [...gaps, ...open].sort((a, b) => a.from - b.from);
}

function partsOf(seen: Seen, stop: StopRecord): Stretch[] {
  const to = stop.end ?? seen.now;
  if (stop.class !== 'pause') return [{ from: stop.begin, to, class: stop.class }];
  const allowed = Math.min(to, stop.begin + stop.allowance) as Instant;
  return [
    { from: stop.begin, to: allowed, class: 'plannedPause' },
    { from: allowed, to, class: 'pauseOver' },
  ];
}

function without(stretch: Stretch, gaps: readonly Stretch[]): Stretch[] {
  let left = [stretch];
  for (const gap of gaps) {
    left = left.flatMap((piece) => [
      { ...piece, to: Math.min(piece.to, gap.from) as Instant },
      { ...piece, from: Math.max(piece.from, gap.to) as Instant },
    ]);
    left = left.filter((piece) => piece.to > piece.from);
  }
  return left;
}
