/** What the past says when it is asked as of a position of the tape that it cannot answer. */
export const asOfWords = {
  describe: {
    asOf: 'a position of the tape: what would have been answered when the tape ended there, with the line’s clock as it was; headers `Scoreline-Position` and `Scoreline-Moment` say of what the answer is',
    shownAt:
      'milliseconds since 1970, beside `asOf`: the line time that a screen showed then; the newest that was heard by that position unless it is said',
  },
  notOnTape: (position: number) => `The tape has no position ${position} to look back at.`,
  beyond: (end: number) => `It ends at ${end}.`,
  before: (begin: number) => `It begins at ${begin}, and before its first change nothing was known.`,
  notOnTapeMend: (first: number, last: number) => `Ask for one from ${first} to ${last}.`,
  notShown: 'No screen showed this moment at this position of the tape.',
  notHeardYet: 'By then the line had been heard at a later moment.',
  ahead: 'It lies ahead.',
  notShownMend: (least: number) =>
    `Ask for a moment from ${least} on that has passed, or leave it out: then it is that one.`,
  noPosition: 'A moment that was shown was named without its position.',
  noPositionWhy: '`shownAt` says at which moment a position of the tape was shown.',
  noPositionMend: 'Name the position with `asOf`, or leave `shownAt` out.',
  notDone: 'Nothing can be done as of a position of the tape.',
  notDoneWhy: 'What has passed can be looked at, and stays as it was.',
  notDoneMend: 'Leave `asOf` and `shownAt` out.',
  tooMany: 'Too many positions of the tape are looked back at at once.',
  tooManyWhy: 'For each of them the state of the line is folded again, one after another.',
  tooManyMend: 'Ask again in a few seconds.',
};
