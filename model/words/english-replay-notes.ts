import type { Entry } from '../entries/entries.ts';
import type { CourseNote } from '../past/course.ts';
import type { HappenedNote } from '../replay/happened.ts';
import { count, dated, exactly, many } from './english-say.ts';

/** Sentences about notes and bookmarks of the Replay screen. */
export const replayNoteWords = {
  open: 'Note or bookmark here',
  label: (about: number, zone: string) => `What is to be noted of ${exactly(about, zone)}`,
  keep: (isEmpty: boolean) => (isEmpty ? 'Mark the moment' : 'Write the note'),
  close: 'Leave it',
  hint: 'Without words it is a bookmark.',
  title: (n: number) => `${count(n)} ${many(n, 'note', 'notes')} of this shift`,
  none: 'Nothing is noted of this shift.',
  bookmark: 'bookmark',
  withdrawn: 'withdrawn',
  see: (moment: number, zone: string) => exactly(moment, zone),
  written: ({ later, said }: CourseNote, by: string, zone: string) =>
    later ? `written ${dated(said.at, undefined, zone)}, ${by}` : `written then, ${by}`,
  foot: 'Notes stand here as known now. As shown then, one is there only from when it was written; those written after their moment have a dashed flag.',
  flag: ({ words }: Pick<CourseNote, 'words'>) => (words === '' ? 'bookmark' : words),
  /** In the list of what happened. */
  inList: (words: string, note: HappenedNote | undefined, zone: string) =>
    `${words === '' ? 'bookmark' : `note: ${words}`}${note?.later ? `, written ${dated(note.written, undefined, zone)}` : ''}`,
  entered: (entry: Entry | undefined, zone: string) =>
    entry?.kind === 'note' && entry.about !== undefined
      ? `a note about ${dated(entry.about, undefined, zone)} was written`
      : 'somebody entered something',
} as const;
