import type {
  Report,
  ReportDifference,
  ReportDifferences,
  ReportPart,
  Signature,
  SignedAs,
} from '../report/report.ts';
import { day, dayOfYear } from './clock.ts';
import { figuresScreen } from './english-figures-screen.ts';
import { at, count, locale, many } from './english-say.ts';

const PARTS: Readonly<Record<ReportPart, string>> = {
  stops: 'the stops',
  stations: 'the stations',
  safety: 'the uses of stop devices',
  changeovers: 'the changeovers',
  unseen: 'what was not seen',
  notes: 'the notes',
  lost: 'the cartons lost',
};

const AS: Readonly<Record<SignedAs, string>> = {
  handsOver: 'hands over',
  takesOver: 'takes over',
  seen: 'has seen it',
};

/** Who signed a report, what is known otherwise since, and how one signs. */
export const signedWords = {
  title: 'Seen by',
  line: (as: SignedAs) => AS[as],
  one: ({ person, as, at: time, words }: Signature, zone: string) =>
    `${person} ${AS[as]}, ${dayOfYear(time, zone, locale)} ${at(time, zone)}${words === undefined ? '' : `: ${words}`}`,
  frozen: (report: Report) =>
    `Signed: this page stays as it was at ${day(report.made, report.zone, locale)} ${at(report.made, report.zone)}.`,
  sign: 'Sign this report',
  person: 'your number',
  personWhy: 'a number that stands for you, with a digit in it and no spaces; no name',
  as: 'as who',
  asKinds: AS,
  words: 'to hand over',
  send: 'Sign',
  sending: 'Signing …',
  done: 'Signed, and kept.',
  refused: (trouble: string) => `Not signed: ${trouble}`,
  noAnswer: 'Not signed: the gateway does not answer. Try again.',
  running: 'A report is signed when its time is over.',
  same: 'Nothing is known otherwise since it was signed.',
  since: ({ figures, parts }: ReportDifferences) => {
    const figuresSaid =
      figures.length > 0 ? [`${count(figures.length)} ${many(figures.length, 'figure', 'figures')}`] : [];
    const all = [...figuresSaid, ...parts.map((part) => PARTS[part])].join(', ');
    return `Known otherwise since it was signed: ${all}. The signed page stays as it is.`;
  },
  why: {
    newModel: 'It is worked out by a newer version now; later data may have its part in that.',
    otherLine: 'The line’s file was changed since; later data may have its part in that.',
    laterData: 'Something came after it was signed: late data, an answer, a stop that went on.',
  },
  difference: ({ figure, was, is }: ReportDifference) => {
    const value = (n: number | undefined) => (n === undefined ? 'none' : figuresScreen.inUnit(figure, n));
    return `${figuresScreen.nameOf(figure)}: ${value(was)}, now ${value(is)}`;
  },
  otherForm:
    'The signed page is of a form that this version cannot draw; here it is as it stands on the tape.',
  showNow: 'As it is known now',
  showSigned: 'As it was signed',
} as const;

/** Why a report is not signed, and what to do. */
export const signingRefused = {
  beingMade: {
    what: 'The records of the past are being made, so nothing is signed now.',
    why: 'What is signed stays as it was, and not all of the tape is in the records yet.',
    mend: 'Wait until they are whole, and sign then.',
  },
  nobodySaw: {
    what: 'Nobody saw any of this time.',
    why: 'What is signed is what was seen, and of this nothing was: it lies before the records begin, or all of it is a gap.',
    mend: 'Keep the site’s own record for it.',
  },
  readAnew: {
    what: 'The page says something else now than it did when you read it.',
    why: 'Late data, an answer or another signature came in between, and what is signed has to be what was read.',
    mend: 'Read it again, and sign it then.',
  },
  signedEnough: {
    what: 'This report has as many signatures as it can bear.',
    why: 'A page has room for twenty.',
    mend: 'Write a note instead.',
  },
  idTaken: {
    what: 'Something else was entered under this id.',
    why: 'An id stands for one entry, so this signature would be lost.',
    mend: 'Send it with an id of its own.',
  },
  notOver: {
    what: 'This report goes on.',
    why: 'What is signed stays as it was, and its time is not over.',
    mend: 'Sign it when the shift, week, month or order is over.',
  },
} as const;
