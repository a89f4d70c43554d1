const again = 'Look at the notices again, and do what is still to be done.';

/** What is said of notices by the gateway: why something cannot be done with one. */
export const noticesWords = {
  describe: {
    list: 'Notices that are open, and those that have ended in thirty days, with what became of them',
    one: 'One notice, with its evidence, who was told, and what was done',
    settings: 'How notices are raised and who is told; by whom, when and why it was chosen',
    tried: 'What looser and stricter budgets of false notices would have done in the days before',
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
    takenAlready: {
      what: 'Somebody is going already.',
      why: 'This notice was taken a moment before.',
      mend: 'Nothing has to be done; it can be handed over.',
    },
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
