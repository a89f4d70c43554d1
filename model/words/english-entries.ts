import { onDay } from './english-say.ts';

const lookAgain = 'Nothing was recorded. Look at the screen again: it shows what there is now.';

const since = 'A correction takes the place of what was seen, and something else has taken it since.';
const correctThat =
  'Nothing was recorded. Read what it says now; what is still to be said is entered as a correction of that.';

/** Entries that name what there is not: each says what, why and how to mend it. */
export const entryChecks = {
  position: (position: string) => ({
    what: `This line has no loading position “${position}”.`,
    why: 'An entry made at a panel stands under its position.',
    mend: 'Nothing was recorded. Open the panel by one of the addresses that the gateway names at its start.',
  }),
  stop: (stop: string) => ({
    what: `There is no stop “${stop}” to enter this for.`,
    why: 'Only the stops of this shift and some before it are held; or data that came late moved when it began.',
    mend: lookAgain,
  }),
  answer: (answer: string) => ({
    what: `“${answer}” is none of the answers for this stop.`,
    why: 'The line’s file names the answers; anything else is “other”, with words.',
    mend: 'Nothing was recorded. Choose one of the answers that are shown.',
  }),
  noteAhead: (about: string) => ({
    what: `Nothing can be noted of ${about} yet.`,
    why: 'A note is about a moment that the line has seen: now, or before.',
    mend: 'Nothing was recorded. Choose a moment that has passed; or is the clock of who sent it ahead of the line’s?',
  }),
  noteBefore: (about: string, begun: string) => ({
    what: `Nothing can be noted of ${about}: nothing is recorded of it.`,
    why: `What is recorded of this line begins at ${begun}.`,
    mend: 'Nothing was recorded. Choose a later moment, or write the note without one.',
  }),
  size: (size: string) => ({
    what: `This line has no size “${size}”.`,
    why: 'An order is made in one of the sizes of the line’s file.',
    mend: 'Nothing was recorded. Choose one of its sizes, by its id.',
  }),
  order: (order: string) => ({
    what: `There is no order “${order}”.`,
    why: 'Cartons are handed over of an order that is known: from the list, the PLC or an entry.',
    mend: 'Nothing was recorded. Correct its number, or enter the order first.',
  }),
  station: (station: string) => ({
    what: `This line has no station “${station}”.`,
    why: 'What is said of a station is said of one that the line’s file names.',
    mend: 'Nothing was recorded. Choose one of them, by its id.',
  }),
  adjustment: (adjustment: string) => ({
    what: `That station has no adjustment “${adjustment}”.`,
    why: 'The line’s file names the adjustments of each station.',
    mend: 'Nothing was recorded. Choose one of them, or say in words what was changed.',
  }),
  offScale: (adjustment: string, value: string, from: string, to: string) => ({
    what: `${value} is not on the scale of ${adjustment}.`,
    why: `By the line’s file it goes from ${from} to ${to}.`,
    mend: 'Nothing was recorded. Read the scale again, and enter the number that stands there.',
  }),
  noDatum: (adjustment: string, datum: number) => ({
    what: `${adjustment} has no datum ${datum} to give an offset for.`,
    why: 'An offset lies between a datum and the one before it.',
    mend: 'Nothing was recorded. Enter that the scale began anew first.',
  }),
  sheet: (sheet: string) => ({
    what: `There is no open changeover sheet “${sheet}”.`,
    why: 'It was closed, or another changeover began.',
    mend: lookAgain,
  }),
  step: (step: string) => ({
    what: `This sheet has no step “${step}” for that.`,
    why: 'The line’s file names the steps; an approval is given by a person with a number, the others are not.',
    mend: lookAgain,
  }),
  keptTooLong: {
    what: 'This was kept on a screen for more than two days.',
    why: 'What is entered so late would change what was judged and told since.',
    mend: 'Nothing was recorded. Enter it again if it still holds, or leave a note.',
  },
  afterStop: {
    what: 'A part of the cause would begin after the stop.',
    why: 'Each part begins while the stop lasts.',
    mend: 'Nothing was recorded. Give an earlier moment for it.',
  },
  entry: (entry: string) => ({
    what: `There is no entry “${entry}” that can be corrected.`,
    why: 'Only the newest entries are held, of kinds that say something; the rest stay as they are.',
    mend: lookAgain,
  }),
  otherKind: {
    what: 'A correction is of another kind than its entry.',
    why: 'What takes an entry’s place is of the same kind.',
    mend: 'Nothing was recorded. Withdraw the entry, and make another.',
  },
  correctedEnough: {
    what: 'This entry was corrected too often.',
    why: 'Every correction is kept beside it.',
    mend: 'Nothing was recorded. Withdraw it, and make another.',
  },
  correctedSince: (by: string, at: number, zone: string, says: string) => ({
    what: `This was corrected before you, ${by} at ${onDay(at, zone)}; it says now: ${says}`,
    why: since,
    mend: correctThat,
  }),
  withdrawnSince: (by: string, at: number, zone: string) => ({
    what: `This was withdrawn before you, ${by} at ${onDay(at, zone)}.`,
    why: since,
    mend: correctThat,
  }),
  withdrawnAlready: {
    what: 'This entry was withdrawn already.',
    why: 'Somebody did so a moment before.',
    mend: lookAgain,
  },
  takenBackLate: {
    what: 'This cannot be taken back here.',
    why: 'At a panel only what was entered there, within the last minute, can be taken back.',
    mend: 'Correct it at a desk or on a phone, in the list of entries.',
  },
  noWhy: {
    what: 'The correction says no reason.',
    why: 'Both stay, what was said and what is said now; the reason stands between them.',
    mend: 'Nothing was recorded. Say why in a few words.',
  },
  press: (press: string) => ({
    what: `There is no press “${press}” of a stop device to enter this for.`,
    why: 'Only the newest presses are held; or data that came late moved when it was pressed.',
    mend: lookAgain,
  }),
  device: (device: string) => ({
    what: `This line has no stop device or guard “${device}”.`,
    why: 'A test is recorded for one of those that the line’s file names.',
    mend: 'Nothing was recorded. Choose one of them, by its id.',
  }),
  candidate: (candidate: string) => ({
    what: `“${candidate}” is none of the buttons that it may have been.`,
    why: 'The line’s file names the buttons behind a stop circuit.',
    mend: 'Nothing was recorded. Choose one of those that are shown.',
  }),
  finding: (finding: string) => ({
    what: `There is no open finding “${finding}”.`,
    why: 'Somebody may have closed it already, or data that came late changed it.',
    mend: lookAgain,
  }),
  findingLasts: {
    what: 'This finding cannot be closed yet.',
    why: 'It still reads so while the line runs.',
    mend: 'Nothing was recorded. Close it when it is over and somebody has looked into it.',
  },
} as const;
