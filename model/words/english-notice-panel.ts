import type { NoticeAct } from './english-notice-acts.ts';
import type { NoticeCounts } from '../notices/counts.ts';
import { noticeCount } from './english-notice-screen.ts';
import { capital, count, many } from './english-say.ts';

/** What the line-side panel says of notices: one question at a time. */
export const noticePanelWords = {
  imGoing: ['I’m going', 'you have it then'],
  notNow: ['not now', 'it stays open'],
  sayFound: ['say what was found', 'and done'],
  handOver: ['hand it over', 'to a number'],
  shelve: ['put it aside', 'with an end and a reason'],
  closeFinding: ['close its finding', 'with a number'],
  offShelf: ['take it back', 'off the shelf'],
  up: ['up'],
  down: ['further down'],
  toList: 'the list of notices',
  toLine: ['to the line', 'the first page'],
  others: ['the other notices', 'read them, take them'],
  again: ['read it again', 'with its caution'],
  title: 'Notices',
  found: 'What was found?',
  done: 'And what was done?',
  anyWords: 'In words, if you like; then close it.',
  type: 'type it here',
  closeIt: 'close it',
  keepIt: 'keep it',
  toWhom: 'Who has it from now on?',
  number: (person: string) => [`number ${person}`],
  untilWhen: 'Until when is it put aside?',
  whyAside: 'Why is it put aside?',
  foundThere: 'What was found? It may stay empty.',
  /** Short enough for keys; anything else is typed. */
  whys: [
    'part is ordered',
    'waits for the next pause',
    'waits for the changeover',
    'somebody is on it',
    'known, and watched',
    'not to be mended now',
    'test is planned',
    'wanted so for now',
  ],
  leftAsNote: ['keep what you typed', 'as a note: somebody closed it first'],
  leftOut: ['forget it', 'what you typed is gone then'],
  left: 'Typed here, and not said:',
  halfSaid: 'what was typed here is not said',
  recordTest: ['record a test', 'with a number'],
  page: (from: number, to: number, of: number) =>
    of === 0 ? '' : `${count(from)} to ${count(to)} of ${count(of)}`,
  earlier: ['those before'],
  further: (n: number) => [`${count(n)} more`],
  /** A narrow key: its second line has room for so much. */
  key: (counts: NoticeCounts): readonly string[] => [
    'Notices',
    counts.untaken > 0 ? `${noticeCount(counts)}, ${count(counts.untaken)} not taken` : noticeCount(counts),
  ],
  takenHere: 'taken here',
  unsaid: 'ended; nobody has said what was found',
  takenBy: (who: string, at: string) => `${capital(who)} has it since ${at}.`,
  aside: 'It is put aside at this panel, and stays open.',
  over: 'It has ended.',
  /** What was to be said, where somebody else had said it before. */
  yours: (found: string, done: string) => `You said: found: ${found}; done: ${done}.`,
  takeOver: ['take it over', 'you have it then'],
  since: 'since',
  none: 'Nothing is open.',
  evidence: (n: number) => `The ${many(n, 'stop', 'stops')} that ${many(n, 'speaks', 'speak')} for it:`,
  acts: {
    noticeTaken: 'You said that you are going.',
    noticeHanded: 'Handed over.',
    noticeShelved: 'Put aside.',
    noticeUnshelved: 'Taken back off the shelf.',
    noticeClosed: 'You said what was found and done.',
  } satisfies Readonly<Record<NoticeAct, string>>,
} as const;
