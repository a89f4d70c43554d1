import type { Instant } from '../units/units.ts';
import type { LookFirst, NoticeFacts, NoticeKind } from './notice.ts';
import type { NoticeLevel } from './recipients.ts';

/** Something that holds at a moment and that a notice is to be about. */
export interface Condition {
  readonly key: string;
  readonly level: NoticeLevel;
  readonly facts: NoticeFacts;
  readonly since: Instant;
  readonly station?: string;
  readonly size?: string;
  /** The stop that it came with, or the newest of them. */
  readonly stop?: string;
  readonly look: readonly LookFirst[];
}

/** What holds at a moment, and of what nobody can tell: that stays as it was. */
export interface Conditions {
  readonly present: readonly Condition[];
  readonly undecided: (key: string) => boolean;
}

/** What a notice is about, in one word: its kind and of what. */
export function noticeKey(kind: NoticeKind, of = ''): string {
  return of === '' ? kind : `${kind}/${of}`;
}

/** The kind of notice that a key is of. */
export function kindOfKey(key: string): string {
  return key.split('/', 1)[0]!;
}
