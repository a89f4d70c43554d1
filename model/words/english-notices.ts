import type { Done, Found } from '../notices/answers.ts';
import type { NoticeAnswer } from '../notices/notice.ts';
import { noticeSaidWords } from './english-notice-said.ts';
import { capital, onDay } from './english-say.ts';

const again = 'Look at the notices again, and do what is still to be done.';

function answerSaid({ found, done, words }: NoticeAnswer): string {
  const said = `found: ${noticeSaidWords.found[found]}; done: ${noticeSaidWords.done[done]}.`;
  return words === null ? said : `${said} “${words}”`;
}

/** What is said of notices by the gateway: why something cannot be done with one. */
export const noticesWords = {
  describe: {
    list: 'Notices that are open, and those that have ended in thirty days, with what became of them',
    one: 'One notice, with its evidence, who was told, and what was done',
    settings: 'How notices are raised and who is told; by whom, when and why it was chosen',
    tried:
      'What looser and stricter budgets of false notices would have done in the days before, and what the settings in use would have told, by kind and by person',
    triedDraft: 'The same of settings that are sent along and not saved',
  },

  log: {
    disk: (folder: string, why: string) => `How full the disk of ${folder} is cannot be told. ${why}`,
    notRead: (what: string) =>
      `What stations usually do cannot be read, so nothing is judged by it; all else is: ${what}`,
    notWritten: (what: string) =>
      `What is to be told of the line is not recorded yet; it is tried again: ${what}`,
  },

  refused: {
    unknown: (notice: string) => ({
      what: `There is no notice ${notice}.`,
      why: 'It never was raised here, or ended so long ago that it is no longer kept.',
      mend: again,
    }),
    ended: {
      what: 'This notice has ended.',
      why: 'It is back to normal, or somebody has closed it.',
      mend: 'What was found and done can still be said of it.',
    },
    person: (number: string) => `number ${number}`,
    moment: onDay,
    takenAlready: (who: string, since: string) => ({
      what: `${capital(who)} is going already, since ${since}.`,
      why: 'It was taken, taken over or handed over before this came.',
      mend: 'Nothing has to be done. Whoever is to go all the same takes it over on the notice’s page.',
    }),
    yours: (since: string) => ({
      what: `You have this notice already, since ${since}.`,
      why: 'It was taken under your number, or handed over to it.',
      mend: 'Nothing has to be done.',
    }),
    closedAlready: (who: string, at: string, answer: NoticeAnswer) => ({
      what: `This notice was closed before you, by ${who} at ${at}: ${answerSaid(answer)}`,
      why: 'Two people said what was found at about the same time. What was said first stays.',
      mend: 'What you said is still shown where you said it. On the notice’s page it can be entered as a correction.',
    }),
    otherNotice: {
      what: 'The correction is said of another notice.',
      why: 'What takes the place of a closing is said of the same notice.',
      mend: 'Nothing was recorded. Withdraw what was said of the wrong one, and say it of the right one.',
    },
    saidSince: {
      what: 'What that entry said of the notice counts no more.',
      why: 'Something else was said of it since.',
      mend: again,
    },
    foundFits: (found: Found, fit: readonly Found[]) => notFit(found, fit),
    doneFits: (done: Done, fit: readonly Done[]) => notFit(done, fit),
    takeFirst: {
      what: 'Nobody has taken this notice yet.',
      why: 'It is closed by whoever went and looked.',
      mend: 'Press “I’m going” first, then say what was found and done.',
    },
    notShelved: {
      what: 'This notice is not shelved.',
      why: 'Its time was over, or somebody took it.',
      mend: again,
    },
    closeFinding: {
      what: 'This notice is closed with its finding.',
      why: 'Something read open or pressed while the line ran: a person answers for it with a number.',
      mend: 'Close the finding on the Safety stops screen.',
    },
    shelfPast: {
      what: 'A shelf ends later than now.',
      why: 'The moment that was given is past.',
      mend: 'Choose a later one.',
    },
    shelfLong: {
      what: 'A notice is shelved for a week at most.',
      why: 'What is put aside for longer is forgotten.',
      mend: 'Choose an earlier end; it can be shelved again then.',
    },
    handedToNobody: (to: string) => ({
      what: `Number ${to} is told of no notices.`,
      why: 'It is not among those whom notices reach, so it would go unseen.',
      mend: 'Choose somebody who is, or add that number to who is told.',
    }),
    handedShutOff: (to: string) => ({
      what: `The access of number ${to} has ended.`,
      why: 'Whoever is shut off is told of nothing, so it would go unseen.',
      mend: 'Choose somebody else; an admin can give that number its access back.',
    }),
    noStation: (station: string) => ({
      what: `The line has no station ${station}.`,
      why: 'The settings of notices name it.',
      mend: 'Take it out, or give the name as the line file has it.',
    }),
    noShift: (shift: string) => ({
      what: `The line has no shift ${shift}.`,
      why: 'The hours of somebody who is told name it.',
      mend: 'Take it out, or give the name as the line file has it.',
    }),
  },
} as const;

function notFit(answer: string, fit: readonly string[]) {
  return {
    what: `The answer ${answer} does not fit this notice.`,
    why: 'Each kind of notice has answers of its own, so that they can be counted.',
    mend: `Send one of these: ${fit.join(', ')}. What fits none goes into the words, with the answer other.`,
  };
}
