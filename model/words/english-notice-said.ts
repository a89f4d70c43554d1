import {
  type DueDevice,
  dueDevices,
  type LookFirst,
  type NoticeFacts,
  type NoticeKind,
  type NoticeState,
} from '../notices/notice.ts';
import type { NoticeLevel } from '../notices/recipients.ts';
import type { NoticeView } from '../view/noticesView.ts';
import { dayOfYear } from './clock.ts';
import { doneWords, foundWords } from './english-notice-answers.ts';
import { cautionWords } from './english-panel.ts';
import { capital, count, dated, lasted, locale, many, small } from './english-say.ts';
import { decimal } from './format.ts';

type Of<Kind extends NoticeKind> = Extract<NoticeFacts, { readonly kind: Kind }>;
type About = Pick<NoticeView, 'facts' | 'station' | 'size'>;

/** By what moments and stations are named; `now` is left out where it is read later, as in a mail. */
interface Naming {
  readonly zone: string;
  readonly now: number | undefined;
  /** Name of a station by its id. */
  readonly nameOf: (station: string) => string;
}

const place = ({ station }: Pick<About, 'station'>) => station?.name ?? 'one station';
/** "at Sachet 48", where the size is known. */
const ofSize = ({ size }: Pick<About, 'size'>) => (size === undefined ? '' : ` with ${size}`);
/** "Three stops": small numbers as words, as people say them. */
const few = (n: number, one: string, other: string) => `${small(n)} ${many(n, one, other)}`;
const counted = (n: number, one: string, other: string) => `${count(n)} ${many(n, one, other)}`;
const megabytes = (bytes: number) => `${count(Math.floor(bytes / 1_000_000))} MB`;
const seconds = (ms: number) => decimal(Math.abs(ms) / 1000, 1, locale);

/** A false notice as strong as this one, told once and in one sentence. */
function odds(onceInShifts: number): string {
  return onceInShifts < 2
    ? 'A false notice as strong as this comes about every shift.'
    : `A false notice as strong as this comes about every ${count(Math.round(onceInShifts))} shifts.`;
}

/** What it is about, in a few words. */
function title({ facts, station }: About): string {
  const where = capital(place({ station }));
  switch (facts.kind) {
    case 'stops':
      return facts.tries === undefined
        ? `${where} stops far above its own normal`
        : `${where} jams again and again before it runs`;
    case 'stopsCounted':
      return `${where} stopped ${few(facts.stops, 'time', 'times')} ${within(facts)}`;
    case 'rejects':
      return `${where} rejects above its own normal`;
    case 'loose':
      return `${facts.adjustment}, ${facts.name}, may have worked loose`;
    case 'rate':
      return 'Rate below target since the changeover';
    case 'changeover':
      return 'Changeover takes longer than it should';
    case 'lost':
      return 'Many cartons lost this shift';
    case 'press':
      return `Stop device pressed: ${facts.device}`;
    case 'ranOn':
      return facts.of === 'guard'
        ? `${capital(facts.name)} read open while the line ran`
        : `${capital(facts.name)} read pressed while the line ran`;
    case 'test':
      return dueTitle(dueDevices(facts));
    case 'unseen':
      return 'Nobody sees what the line does';
    case 'server':
      return `The PLC’s server ${facts.server} is not heard`;
    case 'disk':
      return 'The disk is getting full';
    case 'clock':
      return `The clock of the server ${facts.server} is off`;
    case 'many':
      return 'Many notices at once, told as one';
  }
}

function within({ minutes, cartons }: Of<'stopsCounted'>): string {
  return minutes === undefined
    ? `within ${count(cartons ?? 0)} cartons`
    : `in ${counted(minutes, 'minute', 'minutes')} of running`;
}

/** What was seen against what is usual, in a sentence or two. */
function what(about: About, naming: Naming): string {
  const { facts } = about;
  const { zone, now, nameOf } = naming;
  switch (facts.kind) {
    case 'stops':
      return stopsSaid(facts, about);
    case 'stopsCounted':
      return `${capital(few(facts.stops, 'stop', 'stops'))} ${within(facts)}${named(facts.fault)}. This is the plain rule that the settings ask for; it knows nothing of what is usual here.`;
    case 'rejects':
      return `${count(facts.rejects)} of ${count(facts.of)} cartons${facts.rule === 'drift' ? ' of late' : ' since the changeover'}; ${decimal(facts.expected, 1, locale)} are usual${ofSize(about)}. ${odds(facts.onceInShifts)}`;
    case 'loose':
      return looseSaid(facts, naming);
    case 'rate':
      return `${decimal(facts.perMinute, 1, locale)} cartons a minute in the last ${counted(facts.minutes, 'minute', 'minutes')} in which the line was to produce; the target is ${count(facts.target)}.`;
    case 'changeover':
      return `It has lasted ${lasted(facts.lasted)}${sizes(facts)}. ${facts.by === 'earlier' ? 'By earlier ones of its kind' : 'By the setting'} it should be over after ${lasted(facts.allowed)}.`;
    case 'lost':
      return `${count(facts.lost)} of ${count(facts.planned)} cartons planned so far are lost${facts.most === undefined ? '' : `, ${count(facts.mostLost)} of them at ${nameOf(facts.most)}`}.`;
    case 'press':
      return pressSaid(facts);
    case 'ranOn':
      return 'Only a person can close this: look into it, then close its finding, here or on the Safety stops screen.';
    case 'test':
      return `A test of each is due every ${counted(facts.everyDays, 'day', 'days')}. Recorded, it is taken off this list.`;
    case 'unseen':
      return `Since ${dated(facts.since, now, zone)} it is not known what the line does or makes. Look at the line itself.`;
    case 'server':
      return `Not heard since ${dated(facts.since, now, zone)}. Look at the line itself; then check the PLC, its OPC UA server and the network.`;
    case 'disk':
      return `${megabytes(facts.freeBytes)} are free on the disk of the tape; below ${megabytes(facts.leastBytes)} it is told. When it is full nothing can be recorded or shown.`;
    case 'clock':
      return `It is ${seconds(facts.offset)} s ${facts.offset > 0 ? 'ahead of' : 'behind'} the gateway’s; more than ${seconds(facts.most)} s are told.`;
    case 'many':
      return `More than ${count(facts.count - 1)} came within ${lasted(facts.within)}. What came after stands here together.`;
  }
}

function dueTitle(due: readonly DueDevice[]): string {
  const [first] = due;
  return due.length === 1 && first
    ? `${capital(first.name)} is due a test`
    : `${capital(few(due.length, 'device is', 'devices are'))} due a test`;
}

/** What a notice lists, a row each; most list nothing. */
function listed(facts: NoticeFacts, zone: string): readonly string[] {
  if (facts.kind !== 'test') return [];
  return dueDevices(facts).map(({ name, last }) =>
    last === undefined
      ? `${capital(name)}: no test recorded`
      : `${capital(name)}: last test recorded on ${dayOfYear(last, zone, locale)}`,
  );
}

/** Where it was left, where it reads now, and since when it goes. */
function looseSaid({ left, reads, book, unit, decimals, since }: Of<'loose'>, { zone, now }: Naming): string {
  const value = (n: number) => decimal(n, decimals, locale);
  const away = reads - left;
  const by = `${away > 0 ? '+' : '−'}${value(Math.abs(away))}`;
  const said = book === undefined ? '' : ` The book says ${value(book)}.`;
  return `Its sensor reads ${value(reads)} ${unit}, ${by} from the ${value(left)} at which it was left, little by little since ${dated(since, now, zone)}, while the line ran.${said}`;
}

function stopsSaid(
  { stops, cartons, usualCartons, onceInShifts, tries, fault }: Of<'stops'>,
  about: About,
): string {
  const seen =
    tries === undefined
      ? `${capital(few(stops, 'stop', 'stops'))} in ${counted(cartons, 'carton', 'cartons')}${named(fault)}`
      : `${capital(few(stops, 'jam', 'jams'))} with ${few(tries, 'try', 'tries')} in all in ${counted(cartons, 'carton', 'cartons')}${named(fault)}`;
  return `${seen}; one in ${count(usualCartons)} cartons is usual${ofSize(about)}. ${odds(onceInShifts)}`;
}

const named = (fault: string | undefined) => (fault === undefined ? '' : `, mostly ${fault}`);

function sizes({ from, to }: Of<'changeover'>): string {
  return from === undefined || to === undefined ? '' : `, from ${from} to ${to}`;
}

/** Never why: a press is always right. */
function pressSaid({ role, candidates }: Of<'press'>): string {
  const one = candidates.length > 0 ? ` It is one of: ${candidates.join(', ')}.` : '';
  const when = {
    caused: 'The line still produced when it was pressed.',
    during: 'The line stood already when it was pressed.',
    uncertain: 'Whether the line still produced then is not certain.',
  }[role];
  return `${when}${one} Whoever pressed it may need help.`;
}

/** One thing to look at: what reads how, never as a cause. */
function look(one: LookFirst, { zone, now }: Pick<Naming, 'zone' | 'now'>): string {
  switch (one.kind) {
    case 'offBook': {
      const value = (n: number) => decimal(n, one.decimals, locale);
      const moved = one.moved === undefined ? '' : ` It has read so since ${dated(one.moved, now, zone)}.`;
      return `${one.adjustment}, ${one.name}: reads ${value(one.reads)} ${one.unit}, the book says ${value(one.book)}.${moved} That does not prove that it made the trouble.`;
    }
    case 'readScale':
      return one.entered === undefined || one.at === undefined
        ? `${one.adjustment}, ${one.name}: no sensor reads it, and nobody has entered it. Read the scale.`
        : `${one.adjustment}, ${one.name}: no sensor reads it; ${decimal(one.entered, one.decimals, locale)} ${one.unit} was entered at ${dated(one.at, now, zone)}. Read the scale.`;
    case 'condition':
      return `${capital(one.name)} reads ${decimal(one.reads, 1, locale)} ${one.unit}; ${decimal(one.low, 1, locale)} to ${decimal(one.high, 1, locale)} is normal.`;
    case 'fault':
      return `${capital(one.name)} was the first fault of ${small(one.times)} of ${few(one.of, 'stop', 'stops')}.`;
  }
}

const LEVELS: Readonly<Record<NoticeLevel, string>> = { note: 'Note', call: 'Call', urgent: 'Urgent' };

const KINDS: Readonly<Record<NoticeKind, string>> = {
  stops: 'stops beyond the station’s own normal',
  stopsCounted: 'stops by the plain rule',
  rejects: 'rejects out of normal',
  loose: 'adjustment working loose',
  rate: 'rate below target',
  changeover: 'changeover overrunning',
  lost: 'cartons lost above a share of the plan',
  press: 'stop device pressed',
  ranOn: 'read open or pressed while the line ran',
  test: 'no test recorded',
  unseen: 'time nobody saw',
  server: 'PLC not heard',
  disk: 'disk getting full',
  clock: 'clock off',
  many: 'many at once',
};

const STATES: Readonly<Record<NoticeState, string>> = {
  raised: 'Not taken',
  taken: 'Taken',
  returned: 'Back to normal, never taken',
  shelved: 'Shelved',
  ended: 'Ended',
};

interface Letter extends Omit<Naming, 'now'> {
  readonly line: string;
  /** The page of the notice. */
  readonly link: string;
  /** Where the moment is replayed. */
  readonly replay: string;
}

/** What is about no moment of the line's: there is nothing to see of it. */
const BESIDE_THE_LINE: ReadonlySet<NoticeKind> = new Set(['disk', 'clock', 'test', 'many']);

/** Where hands may go near the machine: what is said before anything to look at. */
const AT_THE_MACHINE: ReadonlySet<NoticeKind> = new Set([
  'stops',
  'stopsCounted',
  'rejects',
  'loose',
  'rate',
  'changeover',
  'lost',
  'press',
  'ranOn',
  'test',
  'many',
]);

/** A notice without a screen: subject and text, with the caution before what to look at first. */
function asText(
  view: NoticeView,
  { line, zone, link, replay, nameOf }: Letter,
): { subject: string; text: string } {
  const subject = title(view);
  const naming = { zone, nameOf, now: undefined };
  const when = (moment: number) => dated(moment, undefined, zone);
  const since = `Since ${when(view.since)}, told ${when(view.at)} (${zone})`;
  const where = [line, view.station?.name, view.size].filter((part) => part !== undefined).join(', ');
  const looks = view.look.map((one) => look(one, naming));
  return {
    subject,
    text: [
      `${subject}.`,
      what(view, naming),
      ...listed(view.facts, zone).map((row) => `- ${row}`),
      `${where}. ${since}.`,
      ...(AT_THE_MACHINE.has(view.kind) ? ['', cautionWords.jam] : []),
      ...(looks.length > 0 ? ['', 'Look first:', ...looks.map((one) => `- ${one}`)] : []),
      '',
      link,
      ...(BESIDE_THE_LINE.has(view.kind) ? [] : [`See it happen: ${replay}`]),
    ].join('\n'),
  };
}

/** What is said of notices wherever they are told: on screens, in mails and to other programs. */
export const noticeSaidWords = {
  title,
  what,
  look,
  listed,
  asText,
  odds,
  levels: LEVELS,
  kinds: KINDS,
  states: STATES,
  found: foundWords,
  done: doneWords,
  isSeen: (kind: NoticeKind) => !BESIDE_THE_LINE.has(kind),
  isAtTheMachine: (kind: NoticeKind) => AT_THE_MACHINE.has(kind),
} as const;
