import type { BookThen } from '../view/sheetKept.ts';
import type { SheetOffered } from '../view/sheetOffered.ts';
import type { NumberStep, SheetStep, SheetsView, SheetView } from '../view/sheetView.ts';
import type { NewEntry } from '../view/protocol.ts';
import { clock, day } from './clock.ts';
import { capital, count, locale, many } from './english-say.ts';
import { number, unitOf } from './english-setpoints-said.ts';
import {
  author,
  by,
  doubted,
  ended,
  FROM,
  goes,
  how,
  KINDS,
  known,
  plainNumber,
  said,
  STEP_DONE,
  title,
  turn,
  unbroken,
  when,
} from './english-sheet-said.ts';
import * as numbers from './format.ts';

type Scaled = Pick<NumberStep, 'decimals'>;

const entries = (n: number) => `${count(n)} ${many(n, 'entry', 'entries')}`;
const steps = (n: number) => `${count(n)} ${many(n, 'step', 'steps')}`;
const at = (moment: number, zone: string) => clock(moment, zone, locale);

const OFFERED: Readonly<Record<SheetOffered['why'], (since: string) => string>> = {
  nextSize: () => 'the next order’s size',
  nextBlend: () => 'the next order has another blend',
  blend: () => 'the order has another blend',
  stood: (since) => `the line stood from ${since}`,
  shift: (since) => `it stood from ${since}, over the shift`,
  first: () => 'no size ran before',
};

const KEPT_HERE = 'kept here';

/** The setter's sheet of a changeover, on a phone, a desk and at a panel. */
export const sheetWords = {
  name: 'Changeover sheet',
  nav: 'Sheet',
  title,
  author,
  when,
  openSteps: (n: number) => (n === 0 ? 'all steps done' : `${steps(n)} open`),
  /** In the narrow last panel of a head. */
  openShort: (n: number) => (n === 0 ? 'all done' : `${count(n)} open`),
  wall: (n: number) => `sheet: ${n === 0 ? 'all done' : `${steps(n)} open`}`,
  key: ({ open, offered }: Pick<SheetsView, 'open' | 'offered'>) => [
    'Changeover sheet',
    open === undefined
      ? offered === undefined
        ? 'begin one'
        : `one fits: ${KINDS[offered.kind]}`
      : open.left === 0
        ? 'all steps done'
        : `${steps(open.left)} open`,
  ],
  of: (place: number, all: number) => `${count(place)} of ${count(all)}`,
  progress: (done: number, all: number) => `${count(done)} of ${steps(all)} done`,
  caution: {
    title: 'Isolated and locked out first.',
    text: 'For qualified people, by the site’s procedure. The book is what ran well, not an order.',
  },
  begin: {
    title: 'Begin a changeover sheet',
    lead: 'It opens by itself when the PLC tells of another size. Begun before, it is that changeover’s.',
    size: 'Which size comes?',
    next: 'the next order’s',
    kind: (size: string) => `${size}: what kind of changeover?`,
    kinds: KINDS,
    /** [SH9] One that fits what the line does. */
    offered: ({ kind, size, why, since }: SheetOffered, zone: string) => [
      kind === 'size' ? `To ${size.name}` : capital(KINDS[kind]),
      `${kind === 'size' ? '' : `${size.name}; `}${OFFERED[why](at(since, zone))}`,
    ],
    fits: 'This one fits',
    kindSays: {
      size: 'all numbers and parts',
      artwork: 'clear the line, check the print',
      startUp: 'the same size begins anew',
    },
    waits: (size: string) =>
      `Begun here for ${size}, and kept. Its steps come with the book as soon as the gateway answers.`,
  },
  /** Of a sheet that was begun here without a network. */
  ahead: {
    asOf: (moment: number, zone: string) => [
      `Numbers as of ${at(moment, zone)}.`,
      'The gateway has not answered since.',
    ],
    changed: 'the book has changed',
    changedOnes: (ids: readonly string[]) => [
      'The book has changed since this was begun here:',
      `${ids.join(', ')}.`,
    ],
    other: (step: NumberStep, { book, at: moment }: BookThen, zone: string) =>
      `The book said ${book === undefined ? 'no number' : number(book, step)} as of ${at(moment, zone)}; it says **${step.book === undefined ? 'none' : number(step.book, step)}** now.`,
  },
  number,
  unitOf,
  by,
  turn,
  goes,
  how,
  known,
  scale: (step: NumberStep) => {
    const { way, book, scale } = step;
    const range = `Scale ${number(scale.from, step)} to ${number(scale.to, step)}`;
    if (book === undefined) return `${range}; the book has no number.`;
    return way === undefined
      ? `${range}; book ${number(book, step)}.`
      : `${range}: ${by(way, step)}, from ${number(way.from, step)} to ${number(way.to, step)}.`;
  },
  tick: (value: number, unit: string) =>
    `${numbers.decimal(value, Number.isInteger(value) ? 0 : 1, locale)}${unit === 'deg' ? '°' : ''}`,
  book: (size: string, asOf: number | undefined, zone: string) =>
    `book${asOf === undefined ? '' : ` as of ${at(asOf, zone)}`}, ${unbroken(size)}`,
  noBook: 'no number in the book',
  ran: (step: NumberStep, now: number, zone: string) => {
    if (step.ranAt === undefined) return 'no run at rate yet';
    const moment =
      Math.abs(now - step.ranAt.at) < 64_800_000 ? at(step.ranAt.at, zone) : day(step.ranAt.at, zone, locale);
    return `last run at rate, ${moment}, ${FROM[step.ranAt.how]}`;
  },
  was: (sheet: SheetView, step: NumberStep) =>
    step.was === undefined
      ? 'was: nobody knows'
      : `was${sheet.from === undefined ? '' : `, ${unbroken(sheet.from)}`}, ${FROM[step.was.how]}`,
  none: '–',
  field: {
    label: (step: NumberStep) => `${step.id} ${step.name}: what does its scale read?`,
    short: 'read now',
    less: (step: NumberStep, by: string) => `${by}${unitOf(step)} less`,
    more: (step: NumberStep, by: string) => `${by}${unitOf(step)} more`,
    type: 'type',
    tap: 'by keys',
    ask: 'What does the scale read?',
    nothing: 'nothing typed',
    range: (step: NumberStep) =>
      `Its scale goes from ${number(step.min, step)} to ${number(step.max, step)}${unitOf(step)}.`,
    enter: (text: string) => (text === '' ? 'Enter the number' : `Enter ${text}`),
    erase: 'erase',
    sign: '±',
    point: '.',
    noNumber: 'That is no number. Type digits, and a point where the scale has one.',
    typeFirst: 'Read the scale, and type what it reads.',
  },
  doubted,
  yes: (value: number, step: Scaled) => `Yes, ${number(value, step)}`,
  indeed: (value: number, step: Scaled) => `${number(value, step)} it is`,
  asTyped: 'as typed',
  lookAgain: 'Look again',
  /** [SP10] A number that is not the book's: it was left so, or moved. */
  offBook: {
    asks: (value: number, step: Scaled) => `Does it stay at ${number(value, step)}?`,
    why: (book: number, step: Scaled) =>
      `The book says ${number(book, step)}. What runs taught depends on which of them it runs with.`,
    stays: (value: number, step: Scaled) => [
      `It stays at ${number(value, step)}`,
      'left so, or set so on purpose',
    ],
    moved: (book: number, step: Scaled) => [`Moved to ${number(book, step)}`, 'the book’s number'],
  },
  asBook: {
    key: 'As book',
    short: (ids: readonly string[]) => `${ids.join(', ')}, one tap`,
    /** Which of a station's numbers one tap confirms. */
    of: (ids: readonly string[]) => `${ids.join(', ')}: one tap, weaker than typed`,
  },
  sensor: {
    done: 'Done by itself: its sensor reads the book’s number.',
    turn: 'It is done by itself when its sensor reads the book’s number.',
    leave: (step: NumberStep) => `Leave it at ${number(step.now?.value ?? Number.NaN, step)}`,
    leaveSays: 'on purpose, not the book’s number',
  },
  readBack: {
    title: 'Read it once more',
    asks: (step: NumberStep) => `${step.id} ${step.name}: what does the scale read now?`,
    why: 'All numbers are in. Two of them are read back, without looking at what was entered.',
    short: 'Read it back',
    ask: 'What does the scale read now?',
    differs: 'The two do not agree. Where does it stand?',
    both: 'Both stay recorded.',
    /** What was entered, what was read back, and what may have come between. */
    ways: (first: number, again: number, step: Scaled) => ({
      stays: [`It stays at ${number(again, step)}`, 'as read back'],
      moved: [`Moved back to ${number(first, step)}`, `it stood at ${number(again, step)}`],
      misread: [`It reads ${number(first, step)}`, 'as entered; read back wrongly'],
    }),
  },
  part: {
    takes: (size: string) => `${size} takes`,
    any: 'The part for this size',
    yes: 'Fitted',
    no: 'Not fitted',
    words: ['not here', 'wrong part', 'damaged', 'does not fit'],
    asks: 'What is wrong with the part?',
  },
  check: {
    yes: 'Well',
    no: 'Not well',
    words: ['out of square', 'off the score line', 'tuck open', 'crushed'],
    asks: 'What is not well?',
    trial: (made: number) =>
      made === 0
        ? 'What is run as trial cartons is left out of the count.'
        : `${count(made)} trial ${many(made, 'carton', 'cartons')} so far: ${many(made, 'it is', 'they are')} left out of the count.`,
  },
  approval: {
    yes: (number: string | undefined) => (number === undefined ? 'Approve' : `Approve as number ${number}`),
    no: 'Not approved',
    words: ['print is wrong', 'code is wrong', 'tuck or flaps', 'look again later'],
    asks: 'Why is it not approved?',
    bears: 'It stands under the number of the person who approves.',
    logIn: ['Log in to approve', 'by number and code'],
    offline: 'Who approves has to log in, which needs the network. The other steps go on.',
    logOut: ['Log out', 'of this panel'],
  },
  said,
  keptHere: KEPT_HERE,
  stays: 'The step stays open.',
  next: 'Next',
  before: 'Before',
  /** Under the name of a step: what is known of it. */
  beside: (step: SheetStep, isHidden: boolean, isKept = false) => {
    if (isHidden) return 'read it back';
    if (step.kind === 'number') {
      const { done } = step;
      if (done?.value !== undefined) {
        const how = isKept ? KEPT_HERE : done.how === 'confirmed' ? 'as book' : 'entered';
        return `${number(done.value, step)} ${how}`;
      }
      if (step.sensed) return 'by its sensor';
      return step.book === undefined ? 'no book number' : `book ${number(step.book, step)}`;
    }
    const told = STEP_DONE[step.kind];
    if (step.done === undefined) return step.kind;
    return `${step.done.well ? told.yes : told.no}${isKept ? `, ${KEPT_HERE}` : ''}`;
  },
  all: {
    title: 'All steps',
    key: ['All steps', 'and what is open'],
    open: 'open',
    done: 'done',
    noStation: 'the whole line',
    back: 'to the step',
    others: (n: number) => [`${count(n)} more`, 'of the steps'],
  },
  hand: {
    title: 'Hand over',
    key: ['Hand over', 'to whoever comes next'],
    goOn: ['Go on', 'with the first open step'],
    asks: 'What should whoever comes next know?',
    words: ['go on from here', 'wait for a part', 'ask the setter', 'a clamp is loose'],
    says: (one: SheetView['handed'][number], now: number, zone: string, position: (id: string) => string) =>
      `Handed over ${when(one.at, now, zone)} by ${author(one.author, position)}${one.words === undefined ? '' : `: ${one.words}`}`,
  },
  close: {
    title: 'Close the sheet',
    key: (left: number) => ['Close it', left === 0 ? 'all steps done' : `${steps(left)} stay open`],
    asks: (left: number) => (left === 0 ? 'Why is it closed?' : `Why is it closed with ${steps(left)} open?`),
    words: ['done on paper', 'another order comes', 'begun by mistake', 'it waits for a part'],
    late: 'It can be closed when the gateway answers.',
  },
  allDone: 'All steps are done.',
  untilRate: 'The sheet ends by itself when the line is at its rate.',
  atRate: (moment: number, zone: string) => `The line is at its rate since ${at(moment, zone)}.`,
  ended,
  otherSize: (other: string, size: string) =>
    [
      `The PLC tells of ${other}, this sheet is for ${size}.`,
      `Choose ${size} at the machine; or close this sheet and begin one for ${other}.`,
    ] as const,
  kept: {
    none: (n: number) =>
      n === 0
        ? ['No network.', 'What is entered is kept here, sent later']
        : ['No network.', `${entries(n)} kept here, sent later`],
    sending: (n: number) => `${entries(n)} on the way`,
    refused: (n: number) => `${entries(n)} not taken`,
    /** What was entered, so that it can be done once more. */
    entry: (name: string, entry: NewEntry) => {
      switch (entry.kind) {
        case 'reading':
          return `${name}, ${entry.adjustment}: ${plainNumber(entry.value)}`;
        case 'asBook':
          return `${name}, ${entry.settings.map(({ adjustment, value }) => `${adjustment}: ${plainNumber(value)}`).join(', ')}`;
        case 'stepDone':
        case 'stepApproved':
          return `${name}, ${entry.step}: ${entry.well ? 'well' : 'not well'}`;
        case 'fitted':
          return `${name}: ${entry.name}`;
        default:
          return name;
      }
    },
    again: 'Send again',
    understood: 'Leave it out',
    lost: 'it is not recorded',
    later: ['Later', 'it stays kept here'],
    full: {
      trouble: 'This entry was not taken.',
      mend: 'Two hundred entries are kept here already, and there is room for no more. Write it down; enter it when the gateway answers.',
    },
  },
  /** [SH10] A sheet in which something was entered here, and in which nothing can be any more. */
  left: {
    title: 'The sheet was replaced',
    unknown: ['Its sheet is not open', 'Which one it was is not known any more.'],
    made: (n: number) =>
      n === 1
        ? '1 entry that was made here is recorded, and is no step of an open sheet. A number says where things stand all the same.'
        : `${entries(n)} that were made here are recorded, and are no steps of an open sheet. Numbers say where things stand all the same.`,
    none: 'What was entered in it stays recorded, and is no step of the one that took its place.',
    more: (shown: number, all: number) => `${count(shown)} of ${count(all)} are on this page.`,
    read: ['I have read it', 'it is shown here no more'],
    next: ['Read, go on', 'with those that follow'],
    link: 'The sheet you worked in is not open any more: read why',
  },
  panelKeys: { leave: ['Panel', 'the sheet stays'] },
} as const;
