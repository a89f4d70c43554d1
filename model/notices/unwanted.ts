import type { Author } from '../entries/entries.ts';
import type { Instant } from '../units/units.ts';
import { roundAt } from './coming.ts';
import { isHandedTo, type NoticeRecord } from './notice.ts';
import type { ShutOff } from './shutOff.ts';

/** What became of a notice, or of a person, so that a message that still waits is sent no more. */
export const WITHDRAWN_WHYS = [
  'taken',
  'handedOn',
  'closed',
  'ended',
  'shelved',
  'again',
  'accessEnded',
] as const;

export interface Withdrawal {
  readonly why: (typeof WITHDRAWN_WHYS)[number];
  readonly by: Author | null;
  /** When that was, in line time; null where the tape does not say. */
  readonly at: Instant | null;
}

/**
 * [NR3] Why a person is to be told no more by a message of a round that still waits; undefined while it is wanted. Of a notice
 * that is taken only whoever it was handed to since is told; of one that came again, in its new round.
 */
export function unwanted(
  notice: Readonly<NoticeRecord>,
  { person, round }: { readonly person: string; readonly round: number },
  shutOff: ShutOff,
): Withdrawal | undefined {
  const { ended, taken, handed, owner, shelved } = notice;
  if (shutOff.has(person)) return { why: 'accessEnded', by: null, at: null };
  if (ended) return { why: ended.how === 'closed' ? 'closed' : 'ended', by: ended.by, at: ended.at };
  if (taken) {
    if (isHandedTo(notice, person) && round === notice.round) return undefined;
    if (handed?.from === person && owner !== person) return { why: 'handedOn', by: handed.by, at: handed.at };
    return { why: 'taken', by: taken.by, at: taken.at };
  }
  if (shelved) return { why: 'shelved', by: shelved.by, at: shelved.at };
  return round < notice.round ? { why: 'again', by: null, at: roundAt(notice) } : undefined;
}
