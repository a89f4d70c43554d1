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

/** A stretch of one class. */
export interface ClassStretch {
  readonly from: Instant;
  readonly to: Instant;
  readonly class: TimeClass;
}

/** What stops and gaps are as far as classes of time go; an open stop lasts until the end that is looked at. */
export type ClassStop = Pick<StopRecord, 'begin' | 'end' | 'class' | 'allowance'>;
export interface ClassGap {
  readonly from: Instant;
  readonly to: Instant;
  readonly kind: 'unknown' | 'isolated';
}

/**
 * Time of the shift so far, in ticks by class; the sum is the time since it began, to the tick. A stop that belongs
 * to a changeover is changeover; its run-up is producing. Time before the first value is unknown.
 */
export function timeClasses(seen: Seen): Record<TimeClass, Span> {
  const { state, now } = seen;
  const from = state.shift.shift?.from ?? state.shift.from;
  const gaps: ClassGap[] = [...state.shift.gaps];
  if (state.shift.from > from) gaps.unshift({ from, to: state.shift.from, kind: 'unknown' });
  if (state.gap) gaps.push({ from: state.gap.from, to: now, kind: 'unknown' });
  const sums = noTime();
  const stretches = classStretches({ from, to: now }, state.stops, gaps);
  for (const [place, stretch] of stretches.entries()) {
    // what looks like producing up to now is not known where nothing is told
    const blind = place === stretches.length - 1 && stretch.class === 'producing' && isUnseen(seen);
    sums[blind ? 'unknown' : stretch.class] += stretch.to - stretch.from;
  }
  return sums as Record<TimeClass, Span>;
}

export function noTime(): Record<TimeClass, number> {
  return {
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
}

/** [CL1] A stretch of time by its classes, in order, without a hole and without overlap: a gap hides what lies under it. */
export function classStretches(
  { from, to }: { readonly from: Instant; readonly to: Instant },
  stops: readonly ClassStop[],
  gaps: readonly ClassGap[],
): readonly ClassStretch[] {
  const hidden = gaps.map((gap): ClassStretch => ({ from: gap.from, to: gap.to, class: gap.kind }));
  const sorted = hidden.toSorted((a, b) => a.from - b.from);
  // of those behind none reaches further: the latest end so far stands for them
  let passed = 0;
  const open = stops
    .filter((stop) => (stop.end ?? to) > from && stop.begin < to)
    .toSorted((a, b) => a.begin - b.begin)
    .flatMap((stop) => partsOf(stop, to))
    .flatMap((part) => {
      while (passed < sorted.length && sorted[passed]!.to <= part.from) passed += 1;
      return without(part, sorted, passed);
    });
  const result: ClassStretch[] = [];
  let reached = from;
  for (const stretch of [...hidden, ...open].sort((a, b) => a.from - b.from)) {
    const begin = Math.max(stretch.from, reached) as Instant;
    const end = Math.min(stretch.to, to) as Instant;
    if (end <= begin) continue;
    if (begin > reached) result.push({ from: reached, to: begin, class: 'producing' });
    result.push({ from: begin, to: end, class: stretch.class });
    reached = end;
  }
  if (reached < to) result.push({ from: reached, to, class: 'producing' });
  return result;
}

function partsOf(stop: ClassStop, until: Instant): ClassStretch[] {
  const to = stop.end ?? until;
  if (stop.class !== 'pause') return [{ from: stop.begin, to, class: stop.class }];
  const allowed = Math.min(to, stop.begin + stop.allowance) as Instant;
  return [
    { from: stop.begin, to: allowed, class: 'plannedPause' },
    { from: allowed, to, class: 'pauseOver' },
  ];
}

/** What of a stretch no gap hides; the gaps by their beginning, and none before the first one counts. */
function without(stretch: ClassStretch, gaps: readonly ClassStretch[], first: number): ClassStretch[] {
  const left: ClassStretch[] = [];
  let { from } = stretch;
  for (let place = first; place < gaps.length && gaps[place]!.from < stretch.to; place += 1) {
    const gap = gaps[place]!;
    if (gap.to <= from) continue;
    if (gap.from > from) left.push({ ...stretch, from, to: gap.from });
    from = gap.to;
  }
  if (from < stretch.to) left.push({ ...stretch, from });
  return left;
}
