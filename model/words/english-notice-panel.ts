import type { NoticeView } from '../view/noticesView.ts';
import { capital } from './english-say.ts';

/** What the line-side panel says of notices: one question at a time. */
export const noticePanelWords = {
  imGoing: ['I’m going', 'you have it then'],
  notNow: ['not now', 'it stays open, and on the first page'],
  found: 'What was found?',
  done: 'And what was done?',
  /** A narrow key: its second line has room for so much. */
  key: ({ station, state }: Pick<NoticeView, 'station' | 'state'>, more: number): readonly string[] => {
    const taken = state !== 'raised' && state !== 'returned';
    const alone = taken ? 'say what was found' : 'notice, not taken';
    return [
      station === undefined ? 'Notice' : capital(station.name),
      more === 0 ? alone : `${taken ? 'taken' : 'not taken'}; ${more} more`,
    ];
  },
  takenBy: (who: string) => `${capital(who)} has it.`,
  /** What was to be said, where somebody else had said it before. */
  yours: (found: string, done: string) => `You said: found: ${found}; done: ${done}.`,
  since: 'since',
} as const;
