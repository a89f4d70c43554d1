import { memo, useMemo } from 'react';
import type { Course } from '../../model/past/course.ts';
import { words } from '../app/words.ts';
import { measure } from '../type/measure.ts';
import { boardOf, cutsOf } from './board.ts';
import { type TimeBox, xOf } from './scale.ts';

const said = words.screen.past.replay;
const TYPE = 13;
const PATTERN: Partial<Readonly<Record<string, string>>> = {
  changeover: 'url(#setting)',
  isolated: 'url(#isolated)',
  unknown: 'url(#unseen)',
};

/** Where a board stands, px; one that is hung has its floor above. */
export interface Standing {
  readonly floor: number;
  readonly top: number;
}

/** The most that a strip shows; two that are held against one another show the same. */
export function mostOf(courses: readonly Course[]): number {
  return Math.max(
    10,
    ...courses.flatMap(({ strip }) => [(strip.target ?? 0) * 1.2, ...strip.rates.map((one) => one ?? 0)]),
  );
}

/** A stretch as board, and what was cut out of it. */
export const CourseBoard = memo(function CourseBoard({
  course,
  box,
  most,
  floor,
  top,
}: Standing & { readonly course: Course; readonly box: TimeBox; readonly most: number }) {
  const drawn = useMemo(() => {
    const y = (rate: number) => floor + ((top - floor) * rate) / most;
    return { board: boardOf(course.strip, box, y, floor), cuts: cutsOf(course.strip, box), y };
  }, [course, box, most, floor, top]);
  const { target } = course.strip;
  const [upper, height] = [Math.min(top, floor), Math.abs(floor - top)];
  return (
    <g>
      <path d={drawn.board.filled} className="boardfill" />
      <path d={drawn.board.line} className="boardline" />
      {drawn.cuts.map(({ cut, left, right }) => (
        <g key={`${cut.kind} ${cut.from}`}>
          <rect x={left} y={upper} width={right - left} height={height} fill="var(--ground)" />
          {PATTERN[cut.kind] && (
            <rect x={left} y={upper} width={right - left} height={height} fill={PATTERN[cut.kind]} />
          )}
          <path
            d={`M${left} ${top}V${floor}M${right} ${top}V${floor}`}
            className={isScored(cut.kind) ? 'scoreline' : 'edge'}
          />
          <Inside cut={cut} left={left} right={right} upper={upper} height={height} />
        </g>
      ))}
      {target !== undefined && (
        <path d={`M${xOf(box.from, box)} ${drawn.y(target)}H${xOf(box.to, box)}`} className="targetline" />
      )}
      <path d={`M${box.left} ${floor}H${box.right}`} className="floorline" />
    </g>
  );
});

function isScored(kind: string): boolean {
  return kind === 'plannedPause' || kind === 'pauseOver' || kind === 'changeover' || kind === 'unknown';
}

/** What it was, upright where it does not fit along; left out where neither does. */
function Inside({
  cut,
  left,
  right,
  upper,
  height,
}: {
  readonly cut: Course['strip']['cuts'][number];
  readonly left: number;
  readonly right: number;
  readonly upper: number;
  readonly height: number;
}) {
  const name =
    cut.kind === 'unknown'
      ? said.notSeen(cut.to - cut.from)
      : cut.kind === 'plannedPause'
        ? said.break
        : cut.kind === 'changeover'
          ? said.changeover(undefined)
          : undefined;
  if (name === undefined || right - left < TYPE + 4) return null;
  const wide = measure(name, TYPE);
  const along = wide + 8 <= right - left;
  if (!along && wide + 8 > height) return null;
  const [x, y] = [(left + right) / 2, upper + height / 2];
  return (
    <g transform={along ? `translate(${x} ${y})` : `translate(${x} ${y}) rotate(-90)`}>
      <rect x={-wide / 2 - 3} y={-9} width={wide + 6} height={18} fill="var(--ground)" />
      <text fontSize={TYPE} textAnchor="middle" dy=".36em" className="ink2">
        {name}
      </text>
    </g>
  );
}
