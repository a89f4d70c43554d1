import type { CourseNote } from '../past/course.ts';
import type { Happened } from './happened.ts';

/**
 * [RP21] What happened in a stretch, and at their moments what is noted of it now. A note without a moment of its own is no
 * entry beside that; one about another moment is, where it was written.
 */
export function withNotes(
  happened: readonly Happened[],
  notes: readonly CourseNote[],
  { from, to }: { readonly from: number; readonly to: number },
): readonly Happened[] {
  const entered = happened.filter(({ entry }) => entry?.kind !== 'note' || entry.about !== undefined);
  const noted = notes
    .filter(({ at, withdrawn }) => !withdrawn && at >= from && at < to)
    .map(
      ({ id, at, words, later, said }): Happened => ({
        ...{ at, kind: 'note', name: words, station: undefined, of: id },
        note: { later, written: said.at },
      }),
    );
  return [...entered, ...noted].sort((a, b) => a.at - b.at);
}
