import type { Entry } from '../entries/entries.ts';
import { type Instant, instantFromMs } from '../units/units.ts';
import type { RecordBodies } from './records.ts';

type NoteEntry = Extract<Entry, { kind: 'note' }>;

/** [RP21] A note as it is said now or, where it was withdrawn, as it was said last. */
export interface Noted {
  readonly words: string;
  /** The moment that it is about: its own where it has one, else that at which it was entered. */
  readonly about: Instant;
  /** It has a moment of its own, whenever it was entered. */
  readonly marks: boolean;
  readonly withdrawn: boolean;
}

/** Undefined for what is no note. */
export function notedIn({ at, entry, said }: RecordBodies['entry']): Noted | undefined {
  const note = lastSaid(entry, said);
  if (!note) return undefined;
  const { words, about } = note;
  return {
    words,
    about: about === undefined ? at : instantFromMs(about),
    marks: about !== undefined,
    withdrawn: entry.kind !== 'note',
  };
}

function lastSaid(
  entry: Entry,
  said: RecordBodies['entry']['said'],
): Pick<NoteEntry, 'words' | 'about'> | undefined {
  if (entry.kind === 'note') return entry;
  const bodies = [said?.first, ...(said?.corrections ?? []).map(({ body }) => body)];
  return bodies.findLast((body) => body?.kind === 'note');
}
