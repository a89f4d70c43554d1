import type { PersonEntryKind } from '../entries/entries.ts';
import type { NoticePersonBody } from '../notices/noticeEntries.ts';
import type { NoticeCounts } from '../notices/counts.ts';
import { capital, many, small } from './english-say.ts';

/** What a person does about one notice. */
export type NoticeAct = Exclude<NoticePersonBody['kind'], 'noticeSettings'>;

const SENT: Readonly<Record<NoticeAct, string>> = {
  noticeTaken: 'Your “I’m going” is on its way.',
  noticeHanded: 'The handing over is on its way.',
  noticeShelved: 'On its way to the shelf.',
  noticeUnshelved: 'On its way off the shelf.',
  noticeClosed: 'What you said is on its way.',
};

const DONE: Readonly<Record<NoticeAct, string>> = {
  noticeTaken: 'You have it now.',
  noticeHanded: 'It is handed over.',
  noticeShelved: 'It is on the shelf.',
  noticeUnshelved: 'It is off the shelf.',
  noticeClosed: 'What you said is kept.',
};

/** What is said after something was done about a notice, and of the others that there are. */
export const noticeActWords = {
  isAct: (kind: PersonEntryKind): kind is NoticeAct => kind in SENT,
  sent: SENT,
  done: DONE,
  refused: 'Not done.',
  /** `open` and `untaken` without the one that something was done about. */
  others: ({ open, untaken }: Pick<NoticeCounts, 'open' | 'untaken'>) => {
    if (open === 0) return 'No other is open.';
    const taken =
      untaken === 0
        ? `${many(open, 'it is', 'all')} taken`
        : untaken === open
          ? `${many(open, 'it is', 'none')} ${many(open, 'not taken', 'taken')}`
          : `${small(untaken)} not taken`;
    return `${capital(small(open))} ${many(open, 'other is', 'others are')} open, ${taken}.`;
  },
  next: (title: string) => `The next one: ${title}`,
  all: 'All notices',
  read: 'Read',
  left: {
    title: 'Not said: somebody else closed it first',
    why: 'What you had typed is still here. It can be kept as a note, or thrown away.',
    /** As a note, which stands by itself. */
    note: (title: string, said: string) => `${title}. ${said}`,
    keep: 'Keep it as a note',
    drop: 'Throw it away',
  },
} as const;
