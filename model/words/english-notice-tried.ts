import type { NoticeKind } from '../notices/notice.ts';
import type { TriedSaid, UntoldWhy } from '../notices/triedKinds.ts';
import { count, locale, many } from './english-say.ts';
import { decimal } from './format.ts';

const WEEK_MS = 7 * 86_400_000;

/** Why the past cannot tell how many there would have been. */
const UNTOLD: Readonly<Record<UntoldWhy, string>> = {
  noRecords: 'nothing was recorded in these days',
  rejects:
    'what each look at them came to, batch by batch, is not kept, and judging so many days again would hold up the line',
  loose: 'how far sensors had crept is known of now only, and not kept',
  crewTag: 'how many people load is read from a tag, and its past is not kept; the target goes by them',
  server: 'that nobody saw the line is kept, and not which server was silent',
  disk: 'how much of the disk was free is not kept',
  clock: 'how far the servers’ clocks were off is not kept',
};

/** What is left out of a number, or taken for so in it. */
const HOW: Readonly<Partial<Record<NoticeKind, string>>> = {
  stops: 'stations with too few earlier runs are not judged, now as then',
  changeover: 'held against the changeovers that were over by then',
  rate: 'minute by minute, by the size, crew and target of then; also where a station’s own notice would have stood for it',
  lost: 'shifts that had lost so much by their end; one that made it good again is not among them',
  unseen: 'also time in which Scoreline itself was off, when nobody could be told',
};

function notices({ notices: n, joined }: Extract<TriedSaid, { kind: 'counted' }>): string {
  return joined === 0 ? count(n) : `${count(n)} + ${count(joined)}`;
}

/** Beyond a week: over less, a number for a week would be a guess. */
function aWeek(n: number, from: number, to: number): string {
  const weeks = (to - from) / WEEK_MS;
  return weeks < 1 ? '–' : decimal(n / weeks, 1, locale);
}

/** What the settings in use would have told, kind by kind and person by person. */
export const triedKindsWords = {
  title: (days: number) => `What these settings would have told in the last ${count(days)} days`,
  about:
    'The days are gone through again by the settings in use, or as they are changed here, as if each notice had been taken as soon as it was told. “Really” counts those that were raised then, by the settings of then.',
  draft: {
    button: 'Go through them by what is changed here',
    shown: 'Gone through by what is changed here and not saved.',
    waits: 'The days are being gone through …',
  },
  columns: ['kind', 'notices', 'a week', 'really', ''],
  notices,
  aWeek,
  off: 'off',
  untold: (why: UntoldWhy) => `Cannot be told from the past: ${UNTOLD[why]}.`,
  how: HOW,
  joined: 'Behind a +: told within another one that was open, as of the same cause or among many at once.',
  people: {
    title: 'Whom they would have been told to first',
    columns: ['person', 'notices', 'a week'],
    person: (number: string) => `number ${number}`,
    none: 'Nobody is told by name: open pages show them.',
    nobody: (n: number) => `${count(n)} ${many(n, 'notice', 'notices')} would have reached nobody by name.`,
    about:
      'By the first step of the plan that reaches anybody, with the hours and turns of then; an open page counts as open. Kinds that cannot be told from the past come on top.',
  },
} as const;
