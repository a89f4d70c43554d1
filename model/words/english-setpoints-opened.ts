import type { DatumWhy } from '../entries/sheetEntries.ts';
import type { Approval, Learned, SetPointOpened, SetPointRow, SetPointRun } from '../past/setPointsPast.ts';
import type { CostAgainst } from '../setpoints/costAgainst.ts';
import type { NumberDoubt } from '../setpoints/doubt.ts';
import { clock, day, dayOfYear } from './clock.ts';
import { byAuthor } from './english-maintenance.ts';
import { capital, count, locale, many } from './english-say.ts';
import { counted, number, signed, sureWhy, unitOf } from './english-setpoints-said.ts';
import * as numbers from './format.ts';

const stamp = (moment: number, zone: string) => `${day(moment, zone, locale)} ${clock(moment, zone, locale)}`;
const tenths = (n: number) => numbers.decimal(n, 1, locale);
const withUnit = (value: number, row: SetPointRow) => `${number(value, row)}${unitOf(row)}`;

/** Which number it should have: the answer in one sentence. */
function which(row: SetPointRow, size: string): string {
  const { book, learned } = row;
  const has = book === undefined ? 'The book has none.' : `The book says ${withUnit(book, row)}.`;
  if (learned?.recommended === undefined) {
    if (!learned) return `No run of ${size} tells which number is best. ${has}`;
    return `Which number is best for ${size} cannot be told yet. ${has}`;
  }
  const at = withUnit(learned.recommended, row);
  const same = book !== undefined && number(book, row) === number(learned.recommended, row);
  const answer =
    learned.sure === 'neverVaried'
      ? `Which number is best for ${size} cannot be told: it ran at ${at} and nowhere else`
      : `Recommended ${at} for ${size}`;
  return `${answer}${same ? ', as the book says' : ''}.${same ? '' : ` ${has}`}`;
}

/** How that is known: the second sentence. */
function how(row: SetPointRow): string {
  const { learned } = row;
  if (!learned) return 'The line’s file or a person gave it; nothing that ran speaks for it or against it.';
  const { likely } = learned;
  const why = `${counted(learned)}, ${sureWhy(learned)}`;
  if (!likely) return `${capital(why)}.`;
  const lies =
    likely.from === likely.to
      ? `is ${number(likely.from, row)}`
      : `lies between ${number(likely.from, row)} and ${number(likely.to, row)}`;
  return `${capital(why)}; the best number ${lies} in nine of ten cases.`;
}

function together(row: SetPointRow): string {
  const others = row.learned?.together ?? [];
  if (others.length === 0) return '';
  const all = [row.number, ...others];
  return `${all.slice(0, -1).join(', ')} and ${all.at(-1)} always moved together: which of them it was cannot be told.`;
}

const TEACHES: {
  readonly [why in NonNullable<Learned['teaches']>['why']]: (row: SetPointRow) => string;
} = {
  otherSide: () => 'Nobody has tried that side of it.',
  neverVaried: () => 'It never stood anywhere else.',
  apart: (row) =>
    `It has always moved together with ${(row.learned?.together ?? []).join(' and ')}; leave the others where they are.`,
  wide: () => 'The likely range is still wide there.',
};

function runKnown(run: SetPointRun, row: SetPointRow): string {
  switch (run.known) {
    case 'sensor':
      return 'by a sensor';
    case 'typed':
      if (run.found === undefined) return 'entered';
      return run.found === run.value ? 'read, and left so' : `moved, from ${number(run.found, row)}`;
    case 'confirmed':
      return 'as book';
    case undefined:
      return 'not known';
  }
}

const DATUM_WHYS: Readonly<Record<DatumWhy, string>> = {
  reZeroed: 're-zeroed',
  replaced: 'part replaced',
};

function doubtAsked(doubt: NumberDoubt, value: string, row: SetPointRow): string {
  switch (doubt.kind) {
    case 'offScale':
      return `${value} is not on its scale, which goes from ${number(row.min, row)} to ${number(row.max, row)}.`;
    case 'fine':
      return `${value} is finer than its scale is read.`;
    case 'slip':
      return doubt.of === undefined
        ? `${value} is far from the book, and looks like a slip.`
        : `${value} is far from the book, and is the number of ${doubt.of}.`;
    case 'far':
      return `${value} is far from the book, and nobody ran it there.`;
  }
}

/** Sentences of one adjustment of the book, opened. */
export const setPointOpenedWords = {
  title: ({ number: name, name: words }: SetPointRow, size: string) => `${name} ${words}, ${size}`,
  back: (size: string) => `All set points of ${size}`,
  before: 'Before it',
  next: 'After it',
  which,
  how,
  /** What is kept with an approval, so that later readers see what it stood on. */
  seen: (row: SetPointRow, size: string) => `${which(row, size)} ${how(row)}`,
  withUnit,
  facts: {
    title: 'As it stands',
    book: 'book',
    bookFrom: (approved: Approval | undefined, zone: string, nameOf: (position: string) => string) =>
      approved
        ? `approved ${stamp(approved.at, zone)} ${byAuthor(approved.author, nameOf)}`
        : 'from the line’s file',
    none: 'none',
    now: 'stands at',
    scale: 'its scale',
    scaleFrom: (row: SetPointRow) => `${number(row.min, row)} to ${withUnit(row.max, row)}`,
    off: 'off the book',
    offNone: 'not known',
    ranWell: 'ran well',
    ranWellFrom: (row: SetPointRow) => {
      const range = row.learned?.ranWell;
      if (!range) return 'not known';
      return range.from === range.to
        ? `at ${number(range.from, row)}`
        : `${number(range.from, row)} to ${number(range.to, row)}`;
    },
  },
  cost: {
    title: 'What another number costs',
    none: 'What another number costs cannot be told from these runs.',
    lost: 'Cartons lost in a usual run, against the recommended number',
    rejects: 'Rejects per 1,000 cartons; shaded, where they lie in nine of ten cases',
    foot: 'A mark on the axis is a setting that ran. Dashed upright: the book. A line that goes on dashed is beyond where anybody tried. Estimated over runs, with lots and the other adjustments accounted for.',
    said: (row: SetPointRow, cost: readonly CostAgainst[]) => {
      const [first, last] = [cost[0], cost.at(-1)];
      if (!first || !last) return '';
      return `At ${number(first.at, row)}, ${moreWords(first.more)} in a usual run; at ${number(last.at, row)}, ${moreWords(last.more)}.`;
    },
    moreSaid: (n: number) => count(Math.round(n)),
    table: 'As a table',
    columns: {
      at: 'number',
      lost: 'cartons more lost a run',
      rejects: 'rejects per 1,000',
      interval: 'nine in ten',
      stops: 'stops per 1,000',
      tried: 'runs there',
    },
    interval: (low: number, high: number) => `${tenths(low)} to ${tenths(high)}`,
    rejectsSaid: tenths,
    stopsSaid: (n: number) => numbers.decimal(n, 2, locale),
    notTried: 'none',
  },
  runs: {
    title: 'Run by run',
    none: 'No run of this size is recorded in which anybody knew where it stood.',
    columns: {
      from: 'began',
      value: 'stood at',
      known: 'how known',
      lot: 'board lot',
      parts: 'change parts',
      cartons: 'cartons',
      rejects: 'rejects per 1,000',
      stops: 'stops',
    },
    from: (run: SetPointRun, zone: string) => stamp(run.from, zone),
    value: (run: SetPointRun, row: SetPointRow) =>
      run.value === undefined ? 'not known' : number(run.value, row),
    known: runKnown,
    datum: (run: SetPointRun, row: SetPointRow) =>
      run.datum === (row.datum?.number ?? 1) ? '' : `datum ${count(run.datum)}`,
    name: (name: string | undefined) => name ?? 'not told',
    rejects: (n: number | undefined) => (n === undefined ? 'not counted' : tenths(n)),
    more: (n: number) => `Show all ${count(n)}`,
    foot: 'Rejects and stops of the stations it acts on, of whole stretches in which it stood there. Trial cartons are left out.',
  },
  together,
  teaches: {
    title: 'What would teach most',
    none: 'No small change would teach much more than is known.',
    to: (row: SetPointRow) => {
      const teaches = row.learned?.teaches;
      return teaches ? `One run at ${withUnit(teaches.to, row)}. ${TEACHES[teaches.why](row)}` : '';
    },
    who: (row: SetPointRow) =>
      `For qualified people, at a changeover, within the range of its scale, ${number(row.min, row)} to ${number(row.max, row)}. It is a question to the machine, not advice.`,
  },
  approve: {
    title: 'The number of the book',
    lead: (row: SetPointRow, size: string) =>
      row.book === undefined
        ? `The book has no number for ${size}.`
        : `The book has ${withUnit(row.book, row)} for ${size}.`,
    number: 'Number for the book',
    why: 'Why',
    take: (value: string) => `Approve ${value} for the book`,
    typeFirst: 'Approve for the book',
    back: 'Take back what was approved',
    backLead: (row: SetPointRow) =>
      `Taken back, the number of the line’s file holds again${row.approved?.value === undefined ? '' : `; approved was ${number(row.approved.value, row)}`}.`,
    stores: 'What this page says now is kept with the approval.',
  },
  reading: {
    title: 'Read it now',
    lead: 'The number that stands on its scale, read with your own eyes.',
    number: 'Number read',
    enter: 'Enter it',
    /** [SP10] */
    off: (value: number, book: number, row: SetPointRow) =>
      `The book says ${withUnit(book, row)}. Does it stay at ${number(value, row)}, or was it moved?`,
    stays: (value: number, row: SetPointRow) => `It stays at ${number(value, row)}`,
    moved: (book: number, row: SetPointRow) => `Moved to ${number(book, row)}`,
  },
  doubt: {
    asked: doubtAsked,
    meant: (likely: string) => `${likely} was meant`,
    indeed: (value: string) => `${value} it is`,
    again: 'Type it again',
    noNumber: 'That is no number.',
  },
  approvals: {
    title: 'What was approved',
    none: 'Nobody has approved a number; the one of the line’s file holds.',
    one: (
      { value, at, author, why }: Approval,
      row: SetPointRow,
      zone: string,
      nameOf: (position: string) => string,
    ) =>
      `${dayOfYear(at, zone, locale)} ${clock(at, zone, locale)}, ${value === undefined ? 'taken back' : number(value, row)}, ${byAuthor(author, nameOf)}: ${why}`,
    seen: (words: string) => `Seen then: ${words}`,
  },
  datums: {
    title: 'What its numbers mean',
    first: 'Datum 1: its numbers have meant the same place as long as anything is recorded.',
    one: (
      { datum, at, why, words, author }: SetPointOpened['datums'][number],
      zone: string,
      nameOf: (position: string) => string,
    ) =>
      `Datum ${count(datum)}, since ${stamp(at, zone)}: ${DATUM_WHYS[why]}, ${byAuthor(author, nameOf)}${words === undefined ? '' : `: ${words}`}`,
    offset: (offset: number | undefined, row: SetPointRow) =>
      offset === undefined
        ? 'No offset to the datum before: nothing that ran before counts.'
        : `Offset ${signed(offset, row)} to a number of the datum before.`,
    begin: 'A new datum begins',
    beginLead:
      'When its scale was set to zero anew or its part replaced. What was said and learned before counts no longer, unless an engineer enters the offset.',
    why: 'What was done',
    whys: DATUM_WHYS,
    words: 'In words, if it helps',
    enter: 'Begin a new datum',
    offsetTitle: (datum: number) => `Offset of datum ${count(datum)}`,
    offsetLead:
      'So much has to be added to a number from before to have the same place now. What ran before counts again then.',
    offsetNumber: 'Offset',
    offsetWhy: 'How it was measured',
    offsetEnter: 'Enter the offset',
  },
} as const;

function moreWords(n: number): string {
  const whole = Math.round(n);
  return whole === 0 ? 'no more lost' : `${count(whole)} ${many(whole, 'carton', 'cartons')} more lost`;
}
