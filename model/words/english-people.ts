import type { Act } from '../access/access.ts';
import { SECRET, type SecretFault } from '../access/secrets.ts';
import * as numbers from './format.ts';

const locale = 'en-GB';
const lasts = (ms: number) => numbers.duration(Math.max(1000, Math.ceil(ms / 1000) * 1000), locale);
const kept = 'Nothing was changed.';
const again = 'Nothing was recorded. Log in, and do it again.';

/** What an act is, within a sentence. */
const acts: Readonly<Record<Act, string>> = {
  look: 'look at the line',
  export: 'take a file',
  reason: 'say why the line stopped',
  going: 'say that you are on your way',
  note: 'leave a note',
  whichButton: 'say which button it was',
  order: 'enter an order',
  crew: 'enter the crew',
  handOver: 'enter cartons handed over',
  takeOut: 'enter cartons taken out',
  cause: 'say what a stop’s cause was',
  change: 'enter a change that was made',
  target: 'enter a target',
  setting: 'enter numbers and steps of a changeover',
  datum: 'say that a scale begins anew',
  offset: 'say how far two datums lie apart',
  book: 'approve a number of the book',
  approveStep: 'approve a step of a changeover',
  correct: 'correct an entry',
  closeFinding: 'close a finding',
  recordTest: 'record a test',
  sign: 'sign a report',
  takeNotice: 'say that you are going',
  closeNotice: 'say what was found and done',
  handNotice: 'hand a notice over',
  shelveNotice: 'shelve a notice',
  endMaking: 'end the making of the days before',
  noticeSettings: 'change what is told to whom',
  people: 'see or change the people',
};

const chosenBadly: Readonly<Record<SecretFault, { readonly what: string; readonly why: string }>> = {
  short: {
    what: 'That is too short.',
    why: `A password has at least ${SECRET.passwordLeast} characters, a code of digits at least ${SECRET.codeLeast}.`,
  },
  long: {
    what: 'That is too long.',
    why: `A code of digits has at most ${SECRET.codeMost}, a password at most ${SECRET.most} characters.`,
  },
  number: { what: 'That is your number.', why: 'Your number is no secret.' },
  even: { what: 'That is one key, pressed again and again.', why: 'It is among the first that are guessed.' },
  run: { what: 'That is a row of keys.', why: 'It is among the first that are guessed.' },
};

/** What is told of people's numbers, log-ins and what they may do. */
export const peopleWords = {
  forgotten: (numbers: readonly string[]) =>
    `Access ended long ago: name and log-in of number ${numbers.join(', ')} are erased, as the settings of people say.`,
  acts,
  needsLogIn: (act: Act) => ({
    what: `To ${acts[act]}, log in.`,
    why: 'It is not open to everybody here, or it stands under the number of the person who does it.',
    mend: again,
  }),
  needsOwn: {
    what: 'Nobody is logged in here.',
    why: 'A code or password is changed by the person whose it is.',
    mend: `${kept} Log in, and do it again.`,
  },
  ended: (number: string) => ({
    what: `Number ${number} is not logged in any more.`,
    why: 'A log-in ends when it is left alone, and after its time.',
    mend: again,
  }),
  notYours: (act: Act) => ({
    what: `Your number may not ${acts[act]}.`,
    why: 'None of its roles has that.',
    mend: 'Nothing was recorded. Whoever manages the people here can give it a role that has.',
  }),
  otherNumber: (own: string, said: string) => ({
    what: `You are logged in as ${own}, and this is for number ${said}.`,
    why: 'It stands under the number of the person who does it.',
    mend: 'Nothing was recorded. Use your own number, or log out.',
  }),
  chooseFirst: {
    what: 'Choose a code or password of your own first.',
    why: 'Somebody else made the one that you have, and knows it.',
    mend: 'Nothing was recorded. Choose one, and do it again.',
  },
  wrong: {
    what: 'Number and code do not belong together.',
    why: 'There is no such number, or it has another code or password, or it is shut off. Which of them is not told.',
    mend: 'Try again. Whoever manages the people here can give you another code.',
  },
  held: (ms: number) => ({
    what: `This number is held off for ${lasts(ms)}.`,
    why: 'It was tried with wrong codes. Others can log in meanwhile.',
    mend: 'Wait, or ask whoever manages the people here to release it.',
  }),
  heldAddress: (ms: number) => ({
    what: `Log-ins from this screen are held off for ${lasts(ms)}.`,
    why: 'Many wrong codes came from its address.',
    mend: 'Wait and try again.',
  }),
  wrongAdminCode: {
    what: 'This code makes nobody an admin.',
    why: 'It is mistyped, was used already, or is older than a day.',
    mend: 'Start Scoreline with --new-admin-code for another one.',
  },
  adminNeedsPassword: {
    what: 'An admin needs a password, not a code of digits.',
    why: 'A short code is easier to guess, so it carries nothing that an admin may do.',
    mend: `Choose one with at least ${SECRET.passwordLeast} characters.`,
  },
  passwordByPassword: {
    what: 'Another password is chosen with the one before, not with a code.',
    why: 'A short code is easier to guess, and must not lead to more than it carries.',
    mend: `${kept} Give the password that you have.`,
  },
  fault: Object.fromEntries(
    Object.entries(chosenBadly).map(([fault, told]) => [
      fault,
      { ...told, mend: `${kept} Choose another one.` },
    ]),
  ) as Readonly<Record<SecretFault, { readonly what: string; readonly why: string; readonly mend: string }>>,
  busy: {
    what: 'Too many log in at once.',
    why: 'Checking a code takes a moment for each.',
    mend: 'Try again in some seconds.',
  },
  otherSite: {
    what: 'This was sent by a page of another site.',
    why: 'Such a page could enter here in your name.',
    mend: 'Nothing was recorded. Open Scoreline by its own address.',
  },
  notUnderstood: (why: string) => ({
    what: 'What was sent was not understood.',
    why,
    mend: `${kept} See /api/openapi.json for what fits.`,
  }),
  noPerson: (number: string) => ({
    what: `Nobody has the number ${number} here.`,
    why: 'It was never given.',
    mend: `${kept} Look at the list again.`,
  }),
  taken: (number: string) => ({
    what: `The number ${number} is given already.`,
    why: 'A number stands for one person for ever: what that person signed bears it.',
    mend: `${kept} Choose another number.`,
  }),
  full: (most: number) => ({
    what: 'There is no room for another number.',
    why: `So many can be given: ${numbers.count(most, locale)}.`,
    mend: kept,
  }),
  lastAdmin: {
    what: 'This is the only admin.',
    why: 'Without one nobody could let others in.',
    mend: `${kept} Make somebody else an admin first, who logs in with a password.`,
  },
  damaged: (file: string) => `The people in ${file} cannot be read.`,
  damagedTold: {
    why: 'Its pages are not those that were written: the disk, or another program, changed them.',
    mend: 'Put back its last backup, or move it away: then nobody has a number, and a new admin code is printed.',
  },
  foreign: (file: string) => `${file} does not hold people.`,
  foreignTold: {
    why: 'Another program made it.',
    mend: 'Put back its last backup, or move it away: then nobody has a number, and a new admin code is printed.',
  },
  newer: (file: string, found: number, known: number) =>
    `The people in ${file} have format ${found}; this Scoreline knows formats up to ${known}.`,
  firstCode: (code: string) =>
    `Nobody has a number here yet. One-time admin code, good for 24 h: ${code}\nOpen a screen, choose “Log in”, then “First admin”. Without that, everything but people works as well.`,
  newCode: (code: string) => `One-time admin code, good for 24 h: ${code}`,

  describe: {
    whoAmI: 'Who is logged in, and what may be done from here',
    logIn: 'Logs a number in; the session is in a cookie',
    logOut: 'Logs out',
    admin: 'Makes a number the first admin by the code that the gateway printed',
    secret: 'Another code or password of one’s own',
    here: 'Somebody is still there: the log-in is not left alone',
    list: 'Everybody who has a number; names only here',
    add: 'Gives a number, with a code that is told once and only good for choosing another',
    change: 'Changes roles or name, shuts a number off or lets it in again',
    eraseName: 'Erases a name; the number stays',
    newCode: 'Another such code in place of all that the number has',
    endSessions: 'Ends every log-in of a number',
    release: 'Wrong codes hold a number off no longer',
    settings: 'How long log-ins last, and whether desks have to log in for entries',
  },
} as const;
