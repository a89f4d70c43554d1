import { type NoticeRecord, noticeState } from './notice.ts';

/** [NS1] How many notices there are, by one definition for every screen. */
export interface NoticeCounts {
  /** Not ended and not on a shelf, whatever they are about and however grave. */
  readonly open: number;
  /** Those of them that nobody has taken, back to normal or not. */
  readonly untaken: number;
  readonly shelved: number;
}

/** Counts all of them, also those that a view has no room for. */
export function countNotices(notices: readonly Readonly<NoticeRecord>[]): NoticeCounts {
  const states = notices.map(noticeState);
  const shelved = states.filter((state) => state === 'shelved').length;
  const untaken = states.filter((state) => state === 'raised' || state === 'returned').length;
  const taken = states.filter((state) => state === 'taken').length;
  return { open: untaken + taken, untaken, shelved };
}
