import { happenedWords } from './english-happened.ts';
import type { CorrectableKind } from '../entries/saidEntries.ts';
import type { OrderView, PressView } from '../view/view.ts';
import { clock, clockSeconds, weekdayClock } from './clock.ts';
import * as numbers from './format.ts';

const locale = 'en-GB';
const count = (n: number) => numbers.count(n, locale);
const lasted = (ms: number) => numbers.duration(ms, locale);
const plural = new Intl.PluralRules(locale);
const many = (n: number, one: string, other: string) => (plural.select(n) === 'one' ? one : other);

/** What can be taken back at a panel, short enough for its key. */
const takenBackShort: Readonly<Partial<Record<CorrectableKind, string>>> = {
  reason: 'the reason',
  note: 'the note',
  crew: 'the crew',
  takenOut: 'the cartons',
  handedOver: 'the cartons',
  noticeClosed: 'what was found',
};

/** Words that stand wherever someone might act on a jam or a stop device. They never say that anything is safe. */
export const cautionWords = {
  title: 'This screen only shows it.',
  panelTitle: 'This panel only shows it.',
  pressed:
    'It is late by a second or more and cannot tell whether the machine is safe. It stops, resets and restarts nothing. A latched button is no lock‑out: isolate, lock out and follow the site’s procedure before hands go near.',
  jam: 'Before hands go near: isolate, lock out, and follow the site’s procedure, the machine’s manual and local codes. Adjusting and guarding are for qualified people. This only shows; it stops, resets and restarts nothing.',
  short: 'Before hands go near: isolate, lock out, follow the site’s procedure. This only shows.',
  beside: 'Isolate, lock out, follow the site’s procedure before hands go near.',
  hurt: (number: string | undefined) =>
    number === undefined
      ? 'Anyone hurt? The site’s own number first.'
      : `Anyone hurt? ${number} first, the site’s own number.`,
  noWhy: 'Nobody has to say here why it was pressed.',
} as const;

/** A stop device latched in: what is read, what came before, what is still to come. */
export const pressedWords = {
  title: 'Emergency stop latched in',
  devices: 'Stop devices',
  backSide: 'back side',
  frontSide: 'front side',
  device: (name: string, reads: 'released' | 'pressed' | 'unknown', uncertain: boolean) =>
    `${name}, ${{ released: 'reads released', pressed: 'reads pressed', unknown: 'not known' }[reads]}${uncertain && reads !== 'unknown' ? ', uncertain' : ''}`,
  latchedNow: 'latched in now',
  guard: (name: string, reads: 'closed' | 'open' | 'unknown', uncertain: boolean) =>
    `${name}, ${{ closed: 'reads closed', open: 'reads open', unknown: 'not known' }[reads]}${uncertain ? ', uncertain' : ''}`,
  uncertain: 'uncertain',
  secondsOn: (ms: number) => `${tenths(ms)} s on`,
  before: 'What came before, in PLC time',
  nothingBefore: 'Nothing was seen in the minute before.',
  now: 'now',
  whoDidNot: 'Who pressed it, and why, the PLC does not say.',
  happening: happenedWords,
  /** Offset from the first fault, or from the press where there is none: `+4.9 s`. */
  offset: (ms: number) => `${ms < 0 ? '−' : '+'}${tenths(Math.abs(ms))} s`,
  exact: (at: number, zone: string) => `${clockSeconds(at, zone, locale)}.${Math.floor((at % 1000) / 100)}`,
  steps: {
    pressed: 'pressed',
    released: 'released',
    reset: 'reset',
    restarted: 'restarted',
    firstGood: 'first good carton',
  },
  stepsTitle: 'From pressed to good again',
  notYet: 'not yet',
  notSeen: 'moment not seen',
  toCome: 'still to come',
} as const;

/** Seconds, with a tenth below ten of them. */
function tenths(ms: number): string {
  return numbers.decimal(ms / 1000, ms < 10_000 ? 1 : 0, locale);
}

/** Sentences of the line-side panel: one question at a time, no log-in, the position is the author. */
export const panelWords = {
  lineAndPosition: (line: string, position: string) => `**${line}**, ${position}`,
  silent: {
    gateway: 'the gateway does not answer',
    plc: 'the PLC sends nothing',
    tape: 'nothing can be recorded',
  },
  rate: 'good cartons a minute',
  nextPause: 'next pause',
  noPause: ['no pause', 'planned before', 'the shift ends'],
  pauseIn: (ms: number) =>
    ms < 60_000 ? 'due' : lasted(Math.floor(ms / 60_000) * 60_000).replace(/ 00 s$/, ''),
  /** From when on it may be taken, which may be a while ago. */
  pauseAt: (at: number, now: number, zone: string) =>
    `${at < now ? 'since ' : ''}${clock(at, zone, locale)},`,
  pauseLong: (ms: number) => `${lasted(ms).replace(/ 00 s$/, '')} long`,
  notLoadedHere: (n: number, of: number, shift: number) =>
    `**${count(n)} ${many(n, 'pocket', 'pockets')} not loaded here** in the last ${count(of)}, ${count(shift)} this shift`,
  noPockets: 'No pocket has passed here yet this shift',
  pocketsUnseen: (moment: number, zone: string) =>
    `No pocket seen since ${clockSeconds(moment, zone, locale)}: no data`,
  newest: 'newest top left, as the chain runs',
  noShift: ['no shift,', 'nothing planned'],
  order: (order: OrderView) =>
    `**Order ${order.number}**, ${order.blend}: ${count(order.good)} of ${count(order.quantity)}`,
  noOrder: (good: number, of: number, shift: string) =>
    `**No order entered**: ${count(good)} of ${count(of)} planned, ${shift}`,
  noOrderNoShift: '**No order entered**, no shift, nothing planned',
  cases: (n: number, per: number) =>
    `${count(n)} ${many(n, 'case', 'cases')} of ${count(per)} ${many(n, 'is', 'are')} full`,
  dashed: 'dashed: planned so far',
  note: ['Leave a note', 'one of eight words, or typed'],
  takeBack: (kind: CorrectableKind) =>
    ['Take it back', `${takenBackShort[kind] ?? 'what was entered'}, within a minute`] as const,
  orderCrew: (order: string | undefined, crew: string) =>
    [
      'Order, crew',
      `${order === undefined ? 'no order entered' : `now ${order}`}, ${crew} at loading`,
    ] as const,

  why: 'Why did it stop?',
  stoppedAt: (long: string, station: string | undefined) =>
    `Stopped ${long}${station === undefined ? '' : `, ${station}`}`,
  stoodAt: (long: string, station: string | undefined) =>
    `It stood ${long}${station === undefined ? '' : `, ${station}`}`,
  since: 'since',
  at: 'at',
  times: (n: number, station: string | undefined, days: number) =>
    `${n === 0 ? 'not yet' : `${count(n)} ${many(n, 'time', 'times')}`}${station === undefined ? '' : ` at ${station}`} in ${count(days)} days`,
  somethingElse: ['something else', 'pick a word, or type it'],
  notNow: ['not now', 'it asks again at the next pause'],

  whichOrder: 'Which order comes next?',
  orderEnds: (order: OrderView | undefined, end: number | undefined, now: number, zone: string) =>
    `${order === undefined ? 'No order entered' : `Order ${order.number}, ${order.blend}`}${end === undefined ? '' : `: ${clock(end, zone, locale)} is in ${lasted(Math.max(0, Math.floor((end - now) / 60_000) * 60_000)).replace(/ 00 s$/, '')}`}`,
  tap: (n: number) => `tap ${count(n)} of 2`,
  sizeBlend: (size: string, blend: string) => (blend === '' ? size : `${size}, ${blend}`),
  quantityDue: (quantity: number, due: number | undefined, zone: string) =>
    `${count(quantity)}${due === undefined ? '' : `, due ${weekdayClock(due, zone, locale)}`}`,
  change: (change: OrderView['change'], usual: number | undefined) => {
    const long = usual === undefined ? '' : `, usually ${lasted(usual).replace(/ 00 s$/, '')}`;
    return {
      none: 'same size and blend',
      artwork: `same size: line clearance${long}`,
      size: `changeover of size${long}`,
    }[change];
  },
  anotherNumber: ['another number', 'by keys, checked with the list'],
  moreOrders: (n: number) => `and ${count(n)} more in the list: type the number`,
  back: 'back',
  nothingChanges: 'nothing changes',
  toOrders: 'to the list of orders',
  noOrders: 'The list of orders is empty. Enter a number.',
  number: 'Number of the order',
  typed: (digits: string) => (digits === '' ? 'no number yet' : digits),
  notListed: (digits: string) =>
    `${digits} is not in the list of orders. Correct the number, or have it added to the list.`,
  take: ['take it', 'then how many load it'],
  /** Beside the order that was chosen to follow. */
  follows: 'follows',
  /** Of an order chosen by its number that had ended. */
  goesOn: (ended: number, zone: string) =>
    `It ended ${weekdayClock(ended, zone, locale)}. Taken again, it goes on where it was.`,
  erase: 'erase',

  howMany: 'How many will load it?',
  chosen: (order: OrderView, size: string) =>
    `${order.number}, ${size}${order.blend === '' ? '' : `, ${order.blend}`}, ${count(order.quantity)}`,
  targetOf: (target: number | undefined) =>
    target === undefined ? 'no target given' : `target ${count(target)} a minute`,
  asNow: 'as now',
  /** What the second tap does. `ends`: the running order, where the new one takes its place at once. */
  enters: (order: string | undefined, running: string | undefined, ends: boolean) => {
    const kept = 'Every entry is kept with its time and this position.';
    if (order === undefined) return `This tap enters it: the crew counts from now on. ${kept}`;
    if (running === undefined) return `This tap enters it: ${order} runs from now on. ${kept}`;
    return ends
      ? `This tap enters it: ${running} is ended, and ${order} runs from now on. ${kept}`
      : `This tap enters it: ${order} follows when ${running} is ended, and its crew counts from then on. ${kept}`;
  },
  crewOnly: ['crew only', 'the order stays'],
  handedOver: (order: string) => ['handed over', `cartons of ${order}`],
  howManyHanded: 'How many cartons were handed over?',
  handedOf: (order: OrderView) => `Order ${order.number}, ${order.size}`,
  noCount: 'no count yet',
  counted: (good: number) => `${count(good)} counted as good`,
  /** Handed over against counted. */
  apart: (cartons: number) =>
    cartons === 0
      ? 'as many as counted'
      : cartons < 0
        ? `${count(-cartons)} fewer than counted`
        : `${count(cartons)} more than counted`,
  enterCount: ['enter it', 'it changes no other figure'],
  /** Asked where a count is far from what was counted as good. */
  doubtCount: (cartons: number) => `${count(cartons)} handed over: is that right?`,
  asCounted: (good: number) => [count(good), 'as many as counted'],
  asTyped: (cartons: number) => [count(cartons), 'as typed'],
  toKeys: 'to the number as typed',
  crewNow: (order: string | undefined) =>
    order === undefined ? 'Crew at loading' : `Crew for order ${order}`,
  home: ['back', 'nothing changes'],
  whichButton: 'Which stop button was it?',
  whichButtonWhy: 'One circuit, several buttons: the PLC does not tell them apart.',
  notNowButton: ['not now', 'it stays open on the Line screen'],
  /** What the time beside a press that was released is: it goes on, and is not how long it was pressed. */
  sincePress: (known: PressView['known']) => `since the press${known === 'found' ? ', at least' : ''}`,
  going: ['I’m going there', 'one tap, no log-in'],
  understood: ['understood', 'then enter it again'],
  notTaken: 'Not taken',

  noteTitle: 'Leave a note',
  noteWhy: 'What was it?',
  eightWords: [
    'board',
    'sachets',
    'glue or dust',
    'guide moved',
    'cleaned',
    'cleared a jam',
    'noise',
    'ask the setter',
  ],
  /** Something is said in words. */
  words: {
    type: (choices: number) => (choices === 0 ? 'type it' : 'or type it'),
    keep: 'Enter it',
    without: 'Without words',
  },
} as const;

/** Entries on their way, and screens that have nothing to show yet. */
export const entryWords = {
  full: {
    trouble: 'This entry was not taken.',
    mend: 'Twenty entries wait for the gateway already. Wait until it answers, then enter it again.',
  },
  old: {
    trouble: 'An earlier entry was not taken.',
    mend: 'It had waited here for more than ten minutes when this page was opened. Enter it again if it still holds.',
  },
  names: {
    reason: 'reason',
    notNow: 'not now',
    order: 'order',
    crew: 'crew',
    handedOver: 'cartons handed over',
    takenOut: 'cartons taken out or brought back',
    note: 'note',
    device: 'stop button',
    closed: 'finding closed',
    tested: 'test of a stop device',
    signed: 'signed report',
    going: 'going',
    cause: 'cause of a stop',
    changed: 'change made',
    target: 'target',
    correction: 'correction',
    noticeTaken: 'going there',
    noticeHanded: 'notice handed over',
    noticeShelved: 'notice shelved',
    noticeUnshelved: 'notice taken off the shelf',
    noticeClosed: 'what was found and done',
    noticeSettings: 'settings of notices',
    reading: 'number read',
    asBook: 'station as the book',
    datum: 'new datum',
    datumOffset: 'offset of a datum',
    book: 'number approved',
    fitted: 'what is fitted',
    looked: 'how spoiled cartons look',
    sheetBegun: 'changeover sheet begun',
    stepDone: 'step of the changeover',
    stepApproved: 'step approved',
    sheetHanded: 'changeover sheet handed over',
    sheetEnded: 'changeover sheet closed',
  },
  onItsWay: (what: string) => `Your entry is on its way: ${what}`,
  kept: (what: string) => `Kept: ${what}`,
  refused: (trouble: string, why: string, mend: string) => [trouble, why, mend].filter(Boolean).join(' '),
  dismiss: 'Dismiss',
  imGoing: 'I’m going',
  iAmGoing: 'I’m going there',
  goingSent: 'You are on your way',
} as const;

export const pageWords = {
  title: (name: string) => `${name}, Scoreline`,
  joining: 'Waiting for the gateway’s first view of the line.',
  down: 'The gateway does not answer.',
  downMend: 'This page asks again by itself. If it stays so, see whether the gateway runs.',
  refused: (trouble: string) => `The gateway refused: ${trouble}`,
  broken: {
    what: 'This screen failed, and shows nothing of the line.',
    mend: 'Load it again. If it fails again, use another screen, and tell whoever looks after Scoreline what stands below. The line goes on being recorded.',
    reload: 'Load it again',
    toLine: 'To the Line screen',
    told: (message: string) => `What failed: ${message}`,
  },
  noPosition: (position: string) => `This line has no loading position “${position}”.`,
  positions: 'Its loading positions are:',
  line: 'Line',
  notices: (open: number) => (open === 0 ? 'Notices' : `Notices\u00a0${count(open)}`),
  panels: 'Line-side panels',
  screens: 'Screens',
  light: 'Light',
  dark: 'Dark',
  theme: 'Look',
  asTable: 'As a table',
  orderAndCrew: 'Order and crew',
  chooseOrder: 'Next order',
  noOrders:
    'No order waits in the list. Orders are added in the list’s own file, which the line’s file names under “orders”; it is read again by itself.',
  chooseCrew: 'At loading',
  enter: 'Enter',
  follows: 'Follows',
  runsNow: 'Runs from now on',
  handedOver: (order: OrderView) => `Cartons handed over of order ${order.number}`,
  handedOverSays: (order: OrderView, apart: string) =>
    `Order ${order.number}: ${count(order.good)} counted as good, ${count(order.handedOver ?? 0)} handed over, ${apart}`,
  note: 'Note',
  noteHint: 'What should the next shift know?',
  stepsOf: 'Steps',
} as const;
