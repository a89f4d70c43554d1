import type { TakenWhy } from '../entries/entries.ts';
import { count, many } from './english-say.ts';

const cartons = (n: number) => `${count(n)} ${many(n, 'carton', 'cartons')}`;

/** Sentences about blanks and cartons, balanced: what was picked, what became of it, and what nobody can say. */
export const balanceWords = {
  /** What hands took out of the pockets or brought back: on a panel, at a desk, on a phone. */
  taken: {
    key: ['Taken out', 'samples, by hand, brought back'],
    title: 'Cartons that no counter tells of',
    asksWhy: 'What were they?',
    whys: {
      sample: ['samples', 'taken out to be looked at'],
      byHand: ['taken out', 'a pocket emptied by hand'],
      broughtBack: ['brought back', 'closed by hand, put in again'],
    },
    howMany: {
      sample: 'How many samples were taken?',
      byHand: 'How many cartons were taken out?',
      broughtBack: 'How many cartons were brought back?',
    },
    noCount: 'no count yet',
    enter: ['enter it', 'the unaccounted changes by it'],
    told: 'No counter sees this. Without an entry it shows as unaccounted for.',
    doubt: (n: number) => `${count(n)} at once: is that right?`,
    doubtWhy: 'More than two machines’ pockets hold.',
    asTyped: (n: number) => [count(n), 'as typed'],
    again: ['type it again', 'nothing is entered yet'],
    toWhys: 'to what they were',
    toKeys: 'to the number as typed',
    keep: 'Record it',
    label: 'Cartons taken out, or brought back',
    number: 'How many',
    why: 'What they were',
    choices: {
      sample: 'samples taken out',
      byHand: 'taken out by hand',
      broughtBack: 'closed by hand, brought back',
    },
    titles: {
      sample: 'Samples taken out',
      byHand: 'Cartons taken out by hand',
      broughtBack: 'Cartons closed by hand, brought back',
    },
    hint: (why: TakenWhy, n: number) =>
      why === 'broughtBack'
        ? `${cartons(n)} more will come to the check than were picked.`
        : `${cartons(n)} will not come to the check.`,
  },
} as const;
