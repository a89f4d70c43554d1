import type { Course, CourseStop } from '../../model/past/course.ts';
import { type TimeBox, xOf } from './scale.ts';

/** A stop no wider than this is drawn so wide, so that it is seen. */
const SLOT = 3;
/** Pips of stops stand so far apart at least. */
const APART = 21;

/** The board of a stretch: filled where anything is known, its edge drawn apart. Nothing is joined across what is not known. */
export function boardOf(
  { rates, bucketMs }: Pick<Course['strip'], 'rates' | 'bucketMs'>,
  box: TimeBox,
  y: (rate: number) => number,
  floor: number,
): { readonly filled: string; readonly line: string } {
  let filled = '';
  let line = '';
  let open = false;
  let right = 0;
  rates.forEach((rate, place) => {
    const x = xOf(Math.min(box.to, box.from + (place + 0.5) * bucketMs), box);
    if (rate === null) {
      if (open) filled += `V${floor}Z`;
      open = false;
      return;
    }
    if (open) {
      filled += `L${x} ${y(rate)}`;
      line += `L${x} ${y(rate)}`;
    } else {
      const begin = xOf(box.from + place * bucketMs, box);
      filled += `M${begin} ${floor}V${y(rate)}L${x} ${y(rate)}`;
      line += `M${begin} ${y(rate)}L${x} ${y(rate)}`;
    }
    open = true;
    right = xOf(Math.min(box.to, box.from + (place + 1) * bucketMs), box);
    if (place === rates.length - 1 || rates[place + 1] === null) filled += `H${right}`;
  });
  if (open) filled += `V${floor}Z`;
  return { filled, line };
}

/** What is cut out of the board, each at least so wide that it is seen. */
export function cutsOf({ cuts }: Pick<Course['strip'], 'cuts'>, box: TimeBox) {
  return cuts.map((cut) => {
    const [from, to] = [xOf(cut.from, box), xOf(cut.to, box)];
    const short = Math.max(0, SLOT - (to - from)) / 2;
    return { cut, left: Math.max(box.left, from - short), right: Math.min(box.right, to + short) };
  });
}

/** Where the stops' stations are written, so that none stands on another: those of the longest stops first. */
export function freePips(stops: readonly CourseStop[], box: TimeBox) {
  const chosen: { readonly stop: CourseStop; readonly x: number; readonly pip: number }[] = [];
  const longest = stops
    .filter(({ station }) => station !== undefined)
    .sort((a, b) => (b.until ?? box.to) - b.at - ((a.until ?? box.to) - a.at));
  for (const stop of longest) {
    const x = (xOf(stop.at, box) + xOf(Math.min(stop.until ?? box.to, box.to), box)) / 2;
    const pip = Math.min(box.right - 10, Math.max(box.left + 10, x));
    if (chosen.every((other) => Math.abs(other.pip - pip) >= APART)) chosen.push({ stop, x, pip });
  }
  return chosen;
}
