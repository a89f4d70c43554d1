import type { CorrectableBody, CorrectableKind } from '../entries/saidEntries.ts';
import type { EntryRow } from '../past/entriesPast.ts';
import { byAuthor, changedSaid } from './english-maintenance.ts';
import { noticeSaidWords } from './english-notice-said.ts';
import { at as clockAt, count, dated, many } from './english-say.ts';

/** How the line calls what entries name by an id. */
export interface EntryNames {
  readonly station: (id: string | null) => string;
  readonly size: (id: string) => string;
  readonly device: (id: string) => string;
  readonly answer: (id: string) => string;
  /** Of a part of a changeover; undefined for all of them. */
  readonly step: (id: string | undefined) => string;
}

const takenWhy = { sample: 'as samples', byHand: 'by hand', broughtBack: 'brought back' } as const;
const causeOf = { stopped: 'stopped by', starved: 'starved at', blocked: 'blocked at' } as const;

/** [SP10] What the scale read before. */
function foundSaid({ value, found }: Extract<CorrectableBody, { kind: 'reading' }>): string {
  if (found === undefined) return '';
  return found === value ? ', and stays' : `, moved from ${found}`;
}

/** What an entry says, in one sentence. */
function said(body: CorrectableBody, names: EntryNames): string {
  switch (body.kind) {
    case 'reason':
      return body.words ?? names.answer(body.reason);
    case 'cause':
      return `${body.words}: ${body.parts.map((part) => `${part.after > 0 ? `after ${count(Math.round(part.after / 1000))} s ` : ''}${causeOf[part.class]} ${names.station(part.station)}`).join(', ')}`;
    case 'note':
      return body.words === '' ? 'a bookmark, without words' : body.words;
    case 'changed':
      return `${names.station(body.station)}, ${changedSaid(body)}: ${body.words}`;
    case 'tested':
      return `${names.device(body.device)}, ${body.method}, by ${body.person}`;
    case 'takenOut':
      return `${count(body.cartons)} ${many(body.cartons, 'carton', 'cartons')} ${takenWhy[body.why]}`;
    case 'handedOver':
      return `${count(body.cartons)} ${many(body.cartons, 'carton', 'cartons')} of order ${body.order}`;
    case 'crew':
      return `${count(body.people)} at loading`;
    case 'target':
      return `${names.size(body.size)} by ${count(body.crew)}: ${body.perMinute === null ? 'as the line’s file says' : `${body.perMinute} a minute`}`;
    case 'reading':
      return `${body.adjustment} at ${body.value}${body.how === 'readBack' ? ', read again' : ''}${foundSaid(body)}`;
    case 'fitted':
      return `${body.what === 'lot' ? 'lot of board' : names.step(body.step)}: ${body.name}`;
    case 'noticeClosed': {
      const { found, done, words } = body;
      const what = `found: ${noticeSaidWords.found[found]}, done: ${noticeSaidWords.done[done]}`;
      return words === undefined ? what : `${what}; ${words}`;
    }
    case 'asBook':
      return `${names.station(body.station)}: ${body.settings.map(({ adjustment, value }) => `${adjustment} at ${value}`).join(', ')}`;
  }
}

const kinds: Readonly<Record<CorrectableKind, string>> = {
  reason: 'reason of a stop',
  cause: 'cause of a stop',
  note: 'note',
  changed: 'change made',
  tested: 'device test',
  takenOut: 'cartons taken out',
  handedOver: 'cartons handed over',
  crew: 'crew',
  target: 'target',
  reading: 'number read',
  fitted: 'what is fitted',
  asBook: 'confirmed as the book',
  noticeClosed: 'closing of a notice',
};

/** Sentences of the list of entries, where what was said is corrected. */
export const saidWords = {
  title: 'What people entered',
  none: 'Nothing was entered in this time.',
  of: ({ first, stopAt }: EntryRow, zone: string) =>
    [
      kinds[first.kind],
      ...(stopAt === undefined ? [] : [`the stop of ${clockAt(stopAt, zone)}`]),
      ...(first.kind === 'note' && first.about !== undefined
        ? [`about ${dated(first.about, undefined, zone)}`]
        : []),
    ].join(', '),
  said,
  by: byAuthor,
  other: 'something else',
  first: 'first said',
  now: 'now said',
  withdrawn: 'withdrawn',
  why: (why: string) => `because: ${why}`,
  correct: 'Correct',
  withdraw: 'Withdraw',
  close: 'Leave it as it is',
  whyLabel: 'Why it is corrected',
  instead: 'What it should say',
  keep: 'Enter the correction',
  doubt: (cartons: number) => `Is ${count(cartons)} right? It is rarely so far from what is usual.`,
  asTyped: 'It is right as typed',
  shown: (shown: number, all: number) =>
    shown === all ? '' : `The newest ${count(shown)} of ${count(all)}.`,
  foot: 'Nothing is erased: what was said first and what is said now both stay, with who said it and when.',
  cause: {
    open: 'Say what the cause was',
    station: 'Where',
    none: 'at no one station',
    class: 'What it was',
    classes: {
      stopped: 'it stopped by itself',
      starved: 'it waited for something',
      blocked: 'it was held up',
    },
    words: 'In a few words',
    split: 'From some moment on it was something else',
    after: 'After so many seconds',
    keep: 'Enter the cause',
    beside: 'It stands beside what the PLC said, and moves no carton lost.',
  },
  target: {
    title: 'Target from now on',
    size: 'Size',
    crew: 'Crew',
    perMinute: 'Cartons a minute',
    keep: 'Enter the target',
    asFile: 'As the line’s file says',
  },
} as const;
