import type { NoticeKind } from '../notices/notice.ts';
import type { NoticeLevel } from '../notices/recipients.ts';
import type { Tried, TriedRow } from '../notices/tried.ts';
import type { Author } from '../entries/entries.ts';
import { clock, day, dayOfYear } from './clock.ts';
import { count, lasted, locale, many } from './english-say.ts';
import { triedKindsWords } from './english-notice-tried.ts';
import { decimal } from './format.ts';

const HOUR_MS = 3_600_000;
const shifts = (n: number) => `${decimal(n, n % 1 === 0 ? 0 : 1, locale)} ${many(n, 'shift', 'shifts')}`;
const minutesOf = (ms: number) =>
  lasted(Math.max(60_000, Math.round(ms / 60_000) * 60_000)).replace(/ 00 s$/, '');

function by(author: Author): string {
  switch (author.kind) {
    case 'person':
      return `number ${author.number}`;
    case 'screen':
      return `somebody at a ${author.screen}`;
    case 'position':
      return `the panel ${author.position}`;
    case 'file':
      return author.file;
    case 'itself':
      return 'Scoreline';
  }
}

/** What is told when, before and after its numbers: a sentence with fields in it. `{name}` is where a number is typed. */
const RULES: Readonly<Record<Exclude<NoticeKind, 'many'>, string>> = {
  stops:
    'Tell when a station stops the line more than its own normal explains: at most one false notice in {falseOnceInShifts} shifts, all stations together; never in the first {graceSeconds} s of a stop, while operators clear it',
  stopsCounted:
    'Tell when a station has stopped the line {stops} times within {within}, whatever is usual there',
  rejects:
    'Tell when the rejects of a station are outside its own normal; they share the budget of false notices',
  loose:
    'Tell when an adjustment’s sensor reads {marks} marks of its scale away from where it was set, while the line ran and nobody moved it',
  rate: 'Tell when the rate stays below {share} % of the target for {minutes} min in which the line was to produce',
  changeover:
    'Tell when a changeover lasts {times} times as long as the longest usual one of its kind; while too few of its kind were seen, {minutes} min',
  lost: 'Tell when more than {share} % of the cartons planned so far are lost, once the shift has lasted {minutes} min',
  press: 'Tell when a stop device is pressed; whoever pressed it may need help',
  ranOn: 'Tell when a guard read open, or a stop device pressed, while the line ran',
  test: 'Tell when no test of a stop device or guard was recorded for {days} days',
  unseen: 'Tell when nobody has seen for {minutes} min what the line does',
  server: 'Tell when the PLC’s server has not been heard for {seconds} s',
  disk: 'Tell when fewer than {leastMegabytes} MB are free on the disk of the tape',
  clock: 'Tell when a server’s clock is more than {seconds} s off',
};

/** What a number is, for whoever only hears the field, and in what is wrong with it. */
const FIELDS = {
  falseOnceInShifts: 'shifts to one false notice',
  graceSeconds: 'seconds a stop lasts before it is told',
  stops: 'stops',
  marks: 'marks of the scale',
  minutes: 'minutes',
  cartons: 'cartons',
  share: 'per cent',
  times: 'times as long',
  days: 'days',
  seconds: 'seconds',
  leastMegabytes: 'megabytes',
  notices: 'notices',
  hours: 'hours',
} as const;

const LEVEL_SAYS: Readonly<Record<NoticeLevel, string>> = {
  note: 'when it suits; no sound',
  call: 'somebody should come',
  urgent: 'at once, also in quiet hours',
};

function later(row: TriedRow, inUse: number): string {
  if (row.falseOnceInShifts === inUse) return 'as now';
  if (row.later === undefined) return 'nothing to compare';
  if (Math.abs(row.later) < 30_000) return 'at the same time';
  return row.later < 0 ? `${minutesOf(-row.later)} earlier` : `${minutesOf(row.later)} later`;
}

/** The page on which it is set what is told, and to whom. */
export const noticeSettingsWords = {
  title: 'What is told, and to whom',
  lead: (inUse: number) => `At most one false notice in ${shifts(inUse)}, all stations together.`,
  leadFor: (people: number) =>
    people === 0
      ? 'Nobody is told by name: open pages show it, and sound where they are set to.'
      : `${count(people)} ${many(people, 'person is', 'people are')} told.`,
  chosen: (author: Author, at: number, why: string, zone: string) =>
    `Chosen by ${by(author)} on ${dayOfYear(at, zone, locale)} at ${clock(at, zone, locale)}: “${why}”`,
  chosenByNobody: 'Nobody has chosen them yet: they are as Scoreline came.',
  toNotices: 'All notices',

  tried: {
    title: (days: number) => `What a budget would have done in the last ${count(days)} days`,
    about:
      'Choose how rare a false notice must be. The limits of every station follow from that and from its own normal; each row shows the same days again.',
    waits: 'The stops of the last days are being judged again …',
    columns: [
      'one false in',
      'its days',
      'notices',
      'something found',
      'nothing found',
      'nobody said',
      'false, expected',
      'missed',
      'came',
    ],
    row: shifts,
    days: (from: number, to: number, zone: string) =>
      `${day(from, zone, locale)} to ${day(to, zone, locale)}`,
    drawn: (row: TriedRow) =>
      `${count(row.notices.length)} ${many(row.notices.length, 'notice', 'notices')}: ${count(row.found)} with something found, ${count(row.nothing)} with nothing, of ${count(row.unsaid)} nobody said`,
    expected: (n: number) => decimal(n, n < 10 ? 1 : 0, locale),
    later,
    inUse: 'in use',
    use: 'Use this',
    useWhy: (n: number) => `Why one false notice in ${shifts(n)}?`,
    useSave: 'Use it from now on',
    cancel: 'Leave it',
    key: { found: 'something found', nothing: 'nothing found', unsaid: 'nobody said' },
    missed: 'Missed: a station stopped the line three times within an hour, and no notice had come by then.',
    seen: ({ shifts: n, seen, of }: Tried) =>
      `${count(n)} ${many(n, 'shift', 'shifts')}; seen for ${count(Math.round(seen / HOUR_MS))} of ${count(Math.round(of / HOUR_MS))} hours. What nobody saw is in no row.`,
    none: 'There is no shift in these days that could be judged. The rows fill as the line is watched.',
    unlike: 'What people found is known of notices that were really raised; of others nobody could say.',
  },

  triedKinds: triedKindsWords,

  rules: {
    title: 'What is told',
    about: 'A rule that is off tells nothing. A level says how much it hurries.',
    sentence: RULES,
    field: FIELDS,
    on: (kind: string) => `${kind}: on or off`,
    level: 'Level',
    levelSays: LEVEL_SAYS,
    within: { minutes: 'min of running', cartons: 'cartons', label: 'counted within' },
    many: 'More than {notices} within {minutes} min are told as one',
    returned: 'What is back to normal and was never taken ends after {hours} hours',
    bounds: (least: number, most: number) => `${count(least)} to ${count(most)}`,
    boundsOf: (least: number, most: number) =>
      `${decimal(least, least % 1 === 0 ? 0 : 2, locale)} to ${count(most)}`,
  },

  save: {
    why: 'Why, in a few words',
    button: 'Save with a reason',
    onItsWay: 'On its way …',
    changed: 'What you changed is kept in this browser until it is saved.',
    unchanged: 'Nothing is changed.',
    back: 'Back to what is in use',
    moved: 'Somebody else has saved other settings since you began. Saving yours takes their place.',
    notYet: 'It cannot be saved yet:',
    needsWhy: 'Say why in a few words: whoever comes after you reads it here.',
  },
} as const;
