import type { Course } from '../../model/past/course.ts';

/** What can be gone to. */
export const TARGETS = ['stop', 'press', 'changeover', 'notice', 'note'] as const;
export type Target = (typeof TARGETS)[number];

/** Where each of a kind began, in order. Pauses and changeovers are no stops. */
export function momentsOf(course: Course, target: Target): readonly number[] {
  switch (target) {
    case 'stop':
      return course.stops
        .filter((stop) => stop.class !== 'pause' && stop.class !== 'changeover')
        .map(({ at }) => at);
    case 'press':
      return course.presses.map(({ at }) => at);
    case 'changeover':
      return course.changeovers.map(({ at }) => at);
    case 'notice':
      return course.notices.map(({ at }) => at);
    case 'note':
      return course.notes.filter(({ withdrawn }) => !withdrawn).map(({ at }) => at);
  }
}

/** What is gone to is shown so long after it began: by then a screen of that moment had it. */
export const LANDS_MS = 1_000;
/** Two that lie closer than this are one place to go to. */
const APART_MS = 500;

/** Where one is to be shown for what was gone to. A note is about the very moment that was looked at. */
function landingOf(target: Target, moment: number): number {
  return target === 'note' ? moment : moment + LANDS_MS;
}

/** Where the next one is shown, or the one before; undefined where there is none. */
export function nextOf(course: Course, target: Target, at: number, way: 1 | -1): number | undefined {
  const landings = momentsOf(course, target).map((moment) => landingOf(target, moment));
  return way > 0
    ? landings.find((landing) => landing > at + APART_MS)
    : landings.findLast((landing) => landing < at - APART_MS);
}
