import type { Author } from '../entries/entries.ts';
import type { ChangeoverKind } from '../fold/state.ts';
import type { NumberDoubt } from '../setpoints/doubt.ts';
import type { EndedSheet, NumberStep, SheetStep, SheetView, StepDone, Way } from '../view/sheetView.ts';
import type { NewEntry } from '../view/protocol.ts';
import { clock, day } from './clock.ts';
import { capital, count, locale, many } from './english-say.ts';
import { number, unitOf } from './english-setpoints-said.ts';
import * as numbers from './format.ts';

type Scaled = Pick<NumberStep, 'decimals'>;

const entries = (n: number) => `${count(n)} ${many(n, 'entry', 'entries')}`;
const steps = (n: number) => `${count(n)} ${many(n, 'step', 'steps')}`;
const at = (moment: number, zone: string) => clock(moment, zone, locale);

/** Clock time alone within a day of the screen's own, else with the date. */
function when(moment: number, now: number, zone: string): string {
  return Math.abs(now - moment) < 64_800_000
    ? at(moment, zone)
    : `${day(moment, zone, locale)} ${at(moment, zone)}`;
}

const KINDS: Readonly<Record<ChangeoverKind, string>> = {
  size: 'another size',
  artwork: 'another artwork or blend',
  startUp: 'start-up',
};

/** Of what and to what: `Sachet 20 to Sachet 48`. */
function title({ kind, from, size }: SheetView): string {
  if (kind === 'size') return from === undefined ? `To ${size.name}` : `${from} to ${size.name}`;
  return kind === 'artwork' ? `${size.name}, artwork or blend` : `Start-up, ${size.name}`;
}

function author(by: Author, position: (id: string) => string): string {
  switch (by.kind) {
    case 'position':
      return `the panel ${position(by.position)}`;
    case 'screen':
      return `a ${by.screen}`;
    case 'person':
      return `number ${by.number}`;
    case 'file':
      return by.file;
    case 'itself':
      return 'Scoreline';
  }
}

const STEP_DONE = {
  part: { yes: 'fitted', no: 'not fitted' },
  check: { yes: 'well', no: 'not well' },
  approval: { yes: 'approved', no: 'not approved' },
} as const;

/** `up 3.5`, as it stands over the arrow. */
function by(way: Way, step: Scaled): string {
  return way.by === 0 ? 'stays' : `${way.by > 0 ? 'up' : 'down'} ${number(Math.abs(way.by), step)}`;
}

/** Turns to a quarter, as a hand turns them. */
function turns(n: number): string {
  const text = numbers.decimal(n, n % 0.5 === 0 ? 1 : 2, locale);
  return `${text} ${n === 1 ? 'turn' : 'turns'}`;
}

function turn({ way }: NumberStep): string | undefined {
  if (way?.turn === undefined) return undefined;
  return `${way.turn.clockwise ? 'Clockwise' : 'Anticlockwise'}, ${turns(way.turn.turns)}`;
}

/** Up or down where nobody has said how its wheel turns. */
function goes(step: NumberStep): string {
  const { way } = step;
  if (way === undefined)
    return step.book === undefined
      ? 'The book has no number for it.'
      : `Set it to ${number(step.book, step)}${unitOf(step)}`;
  if (way.by === 0) return 'It stands at the book’s number.';
  return `${capital(by(way, step))}${unitOf(step)}`;
}

function how(step: NumberStep): readonly string[] {
  const { wheel, approach, clamp } = step;
  return [
    ...(clamp ? ['Loosen the clamp first, tighten it after.'] : []),
    ...(wheel
      ? [`${number(wheel.perTurn, { decimals: wheel.perTurn % 1 === 0 ? 0 : 1 })}${unitOf(step)} a turn.`]
      : []),
    ...(approach ? [`Come up to the number from ${approach}, against the play.`] : []),
  ];
}

const FROM: Readonly<Record<NonNullable<NumberStep['was']>['how'], string>> = {
  sensor: 'by a sensor',
  typed: 'as entered',
  readBack: 'as read back',
  confirmed: 'as book',
};

/** How it is known now where it stands. */
function known(step: NumberStep, now: number, zone: string): string {
  const stands = step.now;
  if (step.sensor === 'silent') return 'Its sensor is silent: read the scale.';
  if (step.sensor === 'unheard') return 'Its sensor was never heard: read the scale.';
  if (stands === undefined) return 'Nobody has said where it stands: read the scale.';
  const value = `${number(stands.value, step)}${unitOf(step)}`;
  const moment = when(stands.at, now, zone);
  switch (stands.how) {
    case 'sensor':
      return `Its sensor reads **${value}** now.`;
    case 'uncertain':
      return `Its sensor reads ${value}, and is not sure: read the scale.`;
    case 'typed':
      return `Last entered ${moment}: ${value}. Read the scale.`;
    case 'readBack':
      return `Last read back ${moment}: ${value}. Read the scale.`;
    case 'confirmed':
      return `Confirmed as book ${moment}: ${value}. Nobody has read it since.`;
  }
}

/** A name that stays on one line, where it is short. */
function unbroken(name: string): string {
  return name.length <= 10 ? name.replaceAll(' ', '\u00a0') : name;
}

/** What was asked about a number that was typed, first as a question. */
function doubted(doubt: NumberDoubt, typed: number, step: NumberStep): readonly [string, string] {
  const likely = doubt.likely === undefined ? undefined : number(doubt.likely, step);
  const ask = likely === undefined ? 'Is that right?' : `Did you mean ${likely}?`;
  switch (doubt.kind) {
    case 'offScale':
      return [
        likely === undefined ? 'That is not on its scale.' : ask,
        `${plainNumber(typed)} is not on the scale, which goes from ${number(step.min, step)} to ${number(step.max, step)}.`,
      ];
    case 'slip':
      return [
        ask,
        doubt.of === undefined
          ? `${number(typed, step)} is far from the book. It looks like a slip of a digit or the point.`
          : `${number(typed, step)} is the book’s number of ${doubt.of}.`,
      ];
    case 'far':
      return [ask, `${number(typed, step)} is far from the book, and is not where it stood or ran before.`];
    case 'fine':
      return [ask, `${plainNumber(typed)} is finer than the scale is read.`];
  }
}

/** As it was typed: the scale's own decimals would hide what is asked about. */
function plainNumber(value: number): string {
  return String(value).replace('-', '−');
}

function said(done: StepDone, step: SheetStep, zone: string, position: (id: string) => string): string {
  const who = `${at(done.at, zone)}, by ${author(done.author, position)}`;
  const words = done.words === undefined ? '' : `: ${done.words}`;
  if (step.kind === 'number') {
    const value = done.value === undefined ? '' : `**${number(done.value, step)}** `;
    return `${value}${done.how === 'confirmed' ? 'as book' : done.how === 'readBack' ? 'read back' : 'entered'} ${who}`;
  }
  const told = STEP_DONE[step.kind];
  return `**${capital(done.well ? told.yes : told.no)}** ${who}${words}`;
}

function ended(sheet: EndedSheet, zone: string, position: (id: string) => string): readonly [string, string] {
  const rate = sheet.atRate === undefined ? '' : ` The line was at its rate at ${at(sheet.atRate, zone)}.`;
  switch (sheet.how) {
    case 'done':
      return [
        `${sheet.size.name}: all steps done ${at(sheet.at, zone)}`,
        `The sheet has ended by itself.${rate}`,
      ];
    case 'closed': {
      const by = sheet.author === undefined ? '' : ` by ${author(sheet.author, position)}`;
      return [`${sheet.size.name}: closed ${at(sheet.at, zone)}${by}`, `${capital(sheet.why ?? '')}.${rate}`];
    }
    case 'replaced':
      return [`${sheet.size.name}: ended ${at(sheet.at, zone)}`, `Another sheet took its place.${rate}`];
  }
}

/** The setter's sheet of a changeover, on a phone, a desk and at a panel. */
export const sheetWords = {
  name: 'Changeover sheet',
  nav: 'Sheet',
  title,
  author,
  when,
  openSteps: (n: number) => (n === 0 ? 'all steps done' : `${steps(n)} open`),
  wall: (n: number) => `changeover sheet: ${n === 0 ? 'all done' : `${steps(n)} open`}`,
  key: (left: number | undefined) => [
    'Changeover sheet',
    left === undefined ? 'begin one' : left === 0 ? 'all steps done' : `${steps(left)} open`,
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
    kindSays: {
      size: 'all numbers and parts',
      artwork: 'clear the line, check the print',
      startUp: 'the same size begins anew',
    },
    waits: (size: string) =>
      `Begun here for ${size}, and kept. Its steps come with the book as soon as the gateway answers.`,
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
  book: (size: string) => `book, ${unbroken(size)}`,
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
  lookAgain: 'Look again',
  asBook: {
    key: 'As book',
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
    short: 'read it back',
    differs: 'The two do not agree. Which holds?',
    both: 'Both stay recorded.',
    first: (step: NumberStep) =>
      `${number(step.done?.value ?? Number.NaN, step)}, ${step.done?.how === 'confirmed' ? 'as book' : 'as entered before'}`,
    second: (step: NumberStep) => `${number(step.readBack?.done?.value ?? Number.NaN, step)}, as read back`,
  },
  part: {
    takes: (size: string) => `${size} takes`,
    any: 'The part for this size',
    yes: 'Fitted',
    no: 'Not fitted',
    words: ['not here', 'wrong part', 'damaged', 'does not fit'],
    asks: 'What is with the part?',
  },
  check: {
    yes: 'Well',
    no: 'Not well',
    words: ['out of square', 'off the score line', 'tuck open', 'crushed'],
    asks: 'What is not well?',
    trial: (made: number) =>
      made === 0
        ? 'Cartons made in set-up mode are trial cartons: they are left out of the count.'
        : `Cartons made in set-up mode are trial cartons, ${count(made)} so far: they are left out of the count.`,
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
  words: {
    type: 'or type it',
    keep: 'Enter it',
    without: 'Without words',
    needed: 'Say it in a few words.',
  },
  said,
  keptHere: 'kept here',
  stays: 'The step stays open.',
  next: 'Next',
  before: 'Before',
  /** Under the number of a step before or after: what is known of it. */
  beside: (step: SheetStep, isHidden: boolean) => {
    if (isHidden) return 'read it back';
    if (step.kind === 'number') {
      if (step.done?.value !== undefined) return `${number(step.done.value, step)} entered`;
      if (step.sensed) return 'by its sensor';
      return step.book === undefined ? 'no book number' : `book ${number(step.book, step)}`;
    }
    const told = STEP_DONE[step.kind];
    return step.done === undefined ? step.kind : step.done.well ? told.yes : told.no;
  },
  kinds: { number: 'number', part: 'part', check: 'check', approval: 'approval' },
  all: {
    title: 'All steps',
    key: ['All steps', 'and what is open'],
    open: 'open',
    done: 'done',
    noStation: 'the whole line',
    back: 'Back to the step',
    more: 'More',
  },
  hand: {
    title: 'Hand over',
    key: ['Hand over', 'to whoever comes next'],
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
        default:
          return name;
      }
    },
    again: 'Send again',
    understood: 'Leave it out',
    full: {
      trouble: 'This entry was not taken.',
      mend: 'Two hundred entries are kept here already, and there is room for no more. Write it down; enter it when the gateway answers.',
    },
  },
  panelKeys: { leave: ['Panel', 'the sheet stays'] },
} as const;
