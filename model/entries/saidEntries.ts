import type { EpochMs, Millis } from '../units/units.ts';
import type { Author, Entry, EntryBody } from './entries.ts';

/** What people say of a stop beside what the PLC's first fault said of it: the station's own, or it waited for one. */
export const CAUSE_CLASSES = ['stopped', 'starved', 'blocked'] as const;
export type CauseClass = (typeof CAUSE_CLASSES)[number];

/** From so long after the stop's beginning on it was this: the first part begins with the stop, and each later. */
export interface CausePart {
  readonly after: Millis;
  /** Null at no one station. */
  readonly station: string | null;
  readonly class: CauseClass;
}

/** [EN3] What was changed at a station. Settings and lots are told as people read them: text. */
export type Changed =
  | {
      readonly of: 'adjustment';
      readonly adjustment: string;
      readonly from?: string | undefined;
      readonly to?: string | undefined;
    }
  | { readonly of: 'part'; readonly name: string }
  | { readonly of: 'lot'; readonly name: string }
  | { readonly of: 'other' };

export const MEASURES = ['stops', 'rejects'] as const;
export type Measure = (typeof MEASURES)[number];

export type SaidEntryBody =
  /** [EN2] A stop's cause as people know it, beside what the PLC said; several where it was one thing first and then another. */
  | {
      readonly kind: 'cause';
      readonly stop: string;
      readonly parts: readonly CausePart[];
      readonly words: string;
    }
  /** [EN3] A change that was made, and what is expected of it, which is judged later. `notice`: what it was made because of. */
  | {
      readonly kind: 'changed';
      readonly station: string;
      readonly changed: Changed;
      readonly words: string;
      readonly expects?: { readonly measure: Measure; readonly direction: 'fewer' };
      readonly notice?: string;
    }
  /** [EN4] Cartons a minute for a size and a crew from now on, until the next for both; null: as the line's file says. */
  | {
      readonly kind: 'target';
      readonly size: string;
      readonly crew: number;
      readonly perMinute: number | null;
    }
  /** [EN1] What an entry should have said; without a body it should not have been made. Both stay. */
  | {
      readonly kind: 'correction';
      /**
       * Id of what was seen to be corrected: the entry as it was first made, or the newest correction of it. Tapes before that
       * name the entry as it was first made, also where it was corrected before.
       */
      readonly of: string;
      readonly was: CorrectableKind;
      readonly body?: CorrectableBody;
      readonly why?: string;
    };

/** What can be corrected: what the line did, and who took or shelved a notice, is not said but done. */
export const CORRECTABLE = [
  'reason',
  'cause',
  'note',
  'changed',
  'tested',
  'takenOut',
  'handedOver',
  'crew',
  'target',
  'reading',
  'asBook',
  'fitted',
  'noticeClosed',
] as const;
export type CorrectableKind = (typeof CORRECTABLE)[number];
export type CorrectableBody = Extract<EntryBody, { readonly kind: CorrectableKind }>;
export type CorrectableEntry = Extract<Entry, { readonly kind: CorrectableKind }>;

/** One correction of an entry: what was said in its place, null where it was withdrawn. */
export interface Corrected {
  readonly id: string;
  readonly at: EpochMs;
  readonly author: Author;
  readonly body: CorrectableBody | null;
  readonly why: string | null;
}

/** An entry and all that was said in its place, oldest first. */
export interface Said {
  readonly first: CorrectableEntry;
  readonly corrections: readonly Corrected[];
}

export function isCorrectable(entry: Entry): entry is CorrectableEntry {
  return (CORRECTABLE as readonly string[]).includes(entry.kind);
}

/** [EN1] Id of what was said last of it, by which it is corrected: whoever saw another one did not see what counts. */
export function newestOf({ first, corrections }: Said): string {
  return corrections.at(-1)?.id ?? first.id;
}

/** Whether an id names this entry or one of its corrections. */
export function isSaidBy({ first, corrections }: Said, id: string): boolean {
  return first.id === id || corrections.some((one) => one.id === id);
}

/** [EN1] The entry that counts now; of one that was withdrawn, the correction that did. */
export function entryNow({ first, corrections }: Said): Entry {
  const last = corrections.at(-1);
  if (!last) return first;
  const { author, body } = last;
  if (body) return { ...body, id: first.id, at: first.at, author };
  const why = last.why === null ? {} : { why: last.why };
  return { kind: 'correction', id: last.id, at: last.at, author, of: first.id, was: first.kind, ...why };
}
